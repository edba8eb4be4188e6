"""Which answer fits where it is asked whether another builder would meet this.

The one home of what stands beside that question, for the shell and the bench.
"""

from __future__ import annotations

import re

from logbook.plain.understanding import Kind, Understanding
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import BLAME_TYPED, Blame
from logbook.records.together.snapshot import Snapshot

AS_SOLD = "1 if it is what is sold: others buy the same; 2 if it was this once"
"""Of stock that comes otherwise than drawn."""
AS_GLUED = (
    "1 if others would glue it so too; 2 if it was this once: not clean, not dry, not "
    "pressed"
)
"""Of glue that let go, which is neither drawn nor made by a machine."""


def whose_typed(words: str) -> Blame | None:
    """Give whose fault these words or this key say it is, as at the question."""
    said = " ".join(words.casefold().split()).removeprefix("only the ")
    return next((one for one, every in BLAME_TYPED.items() if said in every), None)


_GLUE = re.compile(
    r"(?i)\b(?:(?:super)?glu(?:e[ds]?|ing)|epoxy|adhesive|(?:contact )?cement(?:ed)?|"
    r"(?:double[- ]sided )?tape[ds]?)\b"
)
_WITHOUT_STOCK = re.compile(r"(?i)print|cast|mould|mold")
"""Processes that have no stock of the thickness of what they make."""


def which_fits(line: Understanding, snapshot: Snapshot) -> str:
    """Say which answer fits, where that is not plain; else nothing."""
    if line.kind is Kind.FAILURE and _GLUE.search(line.line):
        return AS_GLUED
    return AS_SOLD if _of_stock(line, snapshot) else ""


def _of_stock(line: Understanding, snapshot: Snapshot) -> bool:
    """Tell whether a line is about what comes as it is sold: a plate, a thickness."""
    facts = line.facts
    parts = snapshot.named(facts.part, Part) if facts.part else ()
    made = " ".join(process for part in parts for process in part.process)
    printed = "print" in line.line.casefold() or _WITHOUT_STOCK.search(made)
    if line.kind is Kind.FAILURE or printed:
        return False
    thick = facts.what.casefold().startswith("thick")
    return thick or bool(facts.material or facts.instead_of)
