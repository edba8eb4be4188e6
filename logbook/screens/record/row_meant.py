"""Which row of a record words typed on its page are for.

It is the row they name before a colon, else the one the arrow was brought to. Where
nobody has moved the arrow it stands at the title, and who types there mostly means
another row: a row's name in front of the words is enough then, and words without one
are for none.
"""

from __future__ import annotations

from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from logbook.screens.record.amending import RETRACTED, can_amend
from logbook.screens.record.amendment import held
from logbook.screens.record.record_rows import fact_of, rows_of_record

WHICH = "for which row? ↓ goes to it, or name it in front, as “{name}: …”"
"""What is said of words that are for no row yet."""


def row_named(
    snapshot: Snapshot, record: Record, typed: str, *, by_word: bool
) -> tuple[str, str, str] | None:
    """Give the fact that is named in front, its margin word, and what is said of it.

    A colon stands behind the name, or, `by_word`, a blank.
    """
    said = typed.strip()
    for line in rows_of_record(snapshot, record):
        label = line.label
        if not label or not can_amend(held(record, fact_of(line))):
            continue
        for sign in (":", " :", " ") if by_word else (":", " :"):
            start = f"{label}{sign}"
            words = said[len(start) :].strip()
            if words and said.casefold().startswith(start.casefold()):
                return fact_of(line), label, words
    return None


def which_row(snapshot: Snapshot, record: Record) -> str:
    """Say how a row is named; the example is one of this record that is still empty."""
    names = [
        line.label
        for line in rows_of_record(snapshot, record)
        if line.label
        and fact_of(line) != RETRACTED
        and held(record, fact_of(line)) in ("", {"said": ""})
    ]
    return WHICH.format(name=next(iter(names), "title"))
