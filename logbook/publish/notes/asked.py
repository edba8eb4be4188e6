"""What was asked on the bench or by a rebuilder, and what answers it.

What nobody has answered yet is what the next builder wants to know first.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.faults.headline import line_now
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Entry, Failure, Question
from logbook.records.states.read_now import told_now
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title


@dataclass(frozen=True, slots=True)
class Asked:
    """A question, the part it is about, and the words of its answer if it has one."""

    part: str
    what: str
    answer: str


def questions(snapshot: Snapshot, part: Part | None = None) -> tuple[Asked, ...]:
    """Give what was asked, in order; of one part only, where one is given."""
    found = []
    for one in snapshot.all(Question):
        about = part_of(snapshot, one)
        if part is None or about is part:
            answer = _answer(snapshot, snapshot.find(one.answered_by))
            found.append(Asked(about.title if about else "", whole_title(one), answer))
    return tuple(found)


def _answer(snapshot: Snapshot, found: object) -> str:
    if isinstance(found, Failure | Deviation):
        return line_now(snapshot, found)
    return told_now(snapshot, found) if isinstance(found, Entry) else ""
