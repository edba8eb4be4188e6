"""How many of a part are needed, told in a note: collar needs 4 washers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of, parts_in
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_COUNTS = (
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
)
_NEEDS = re.compile(
    rf"(?i)^(?:.+?\s+)?(?:needs?|takes)\s+(?P<many>\d{{1,3}}|{'|'.join(_COUNTS)})\s+"
    r"(?:of\s+the\s+|×\s*|x\s+)?(?P<what>[^,;.]+?)"
    r"\s*(?:per (?:unit|build|piece)|each)?$"
)
_MORE = re.compile(r"(?i)\b(?:more|extra|another|spare|coats?|minutes?|hours?|days?)\b")
_NUMBER = "“yes”, or the number one build takes"


def needed(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the number that a note says is needed to the parts list."""
    newest: dict[str, tuple[Note, Part, int]] = {}
    for note in snapshot.all(Note):
        found = _NEEDS.match(note.title.strip())
        if found is None or _MORE.search(note.title):
            continue
        named = parts_in(snapshot, found["what"])
        if len(named) == 1:
            newest[named[0].id] = (note, named[0], _count(found["many"]))
    for note, part, many in newest.values():
        lines = lines_of(snapshot, part)
        said = lines[0].quantity if len(lines) == 1 else None
        if len(lines) < 2 and said != many and many > 0:
            yield _proposal(note, part, many, lines[0] if lines else None)


def _count(said: str) -> int:
    return int(said) if said.isdecimal() else _COUNTS.index(said.casefold()) + 1


def _proposal(note: Note, part: Part, many: int, line: Line | None) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        number = str(many) if is_yes(answer) else answer.strip()
        if not number.isdecimal() or not int(number):
            raise not_accepted("the number", answer, _NUMBER)
        if line is not None:
            draft.amend(replace(line, quantity=int(number)))
            return
        draft.add(
            Line(
                id=new_id(),
                title=f"{part.title} in the whole",
                when=draft.when,
                part=part.ref,
                quantity=int(number),
            )
        )

    listed = f"the list says {line.quantity}" if line else "the list has none"
    return Proposal(
        key=f"needed {note.id}",
        topic="list",
        about=note.ref,
        question=f"does one build take {many} × {part.title}? {listed}",
        buys="the parts list says what one build takes, and counts hold to it",
        accepts=_NUMBER,
        inputs=(note.ref, part.ref, *((line.ref,) if line else ())),
        take=take,
    )
