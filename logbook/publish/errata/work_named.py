"""Which work an instruction asks for: “drill 4 mm holes” is drilling.

An instruction begins its clauses with what is to be done; a word elsewhere (“its own
file”) names no work.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_CLAUSE = re.compile(r"(?i)[,;:.]\s+|\b(?:then|and|or)\b\s*")
_OUT = re.compile(r"(?i)^drill\w*\b(?:\s+\S+){0,4}?\s+out\b")


def work_named(instruction: str) -> Iterator[str]:
    """Give the processes an instruction asks for, as tables name them."""
    for clause in _CLAUSE.split(instruction.strip()):
        verb = clause.split(maxsplit=1)[0].casefold() if clause.split() else ""
        if not verb.isalpha():
            continue
        if _OUT.match(clause):
            yield "drilling out"
        yield from _forms(verb)


def _forms(verb: str) -> Iterator[str]:
    """Give the ways its form in -ing may be spelled; not all of them are words."""
    yield f"{verb}ing"
    if verb.endswith("e"):
        yield f"{verb[:-1]}ing"
    elif len(verb) > 1:
        yield f"{verb}{verb[-1]}ing"
