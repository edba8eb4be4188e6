"""How many of a part are needed, told in a note: collar needs 4 washers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of, parts_in
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.counting import SPELLED
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_NEEDS = re.compile(
    rf"(?i)^(?:.+?\s+)?(?:needs?|takes)\s+(?P<many>\d{{1,3}}|{'|'.join(SPELLED[1:])})\s+"
    r"(?:of\s+the\s+|×\s*|x\s+)?(?P<what>[^,;.]+?)"
    r"\s*(?:per (?:unit|build|piece)|each)?$"
)
_SCREW = re.compile(
    r"(?i)(?P<size>M\d{1,2}\s?[x×]\s?\d{1,3})(?P<kind>(?:\s[a-z-]+)*\s(?:screw|bolt))s?"
)
"""A screw told by its thread and length is a part, though no record names it yet."""
_MORE = re.compile(r"(?i)\b(?:more|extra|another|spare|coats?|minutes?|hours?|days?)\b")
_NUMBER = "“yes”, or the number one build takes"


def needed(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the number that a note says is needed to the parts list."""
    newest: dict[str, tuple[Note, Part | str, int]] = {}
    for note in snapshot.all(Note):
        found = _NEEDS.match(note.title.strip())
        if found is None or _MORE.search(note.title):
            continue
        named = parts_in(snapshot, found["what"])
        screw = "" if named else _screw(found["what"])
        known = named or snapshot.named(screw, Part)
        if len(known) == 1:
            newest[known[0].id] = (note, known[0], _count(found["many"]))
        elif screw and not known:
            newest[screw] = (note, screw, _count(found["many"]))
    for note, part, many in newest.values():
        lines = lines_of(snapshot, part) if isinstance(part, Part) else ()
        said = lines[0].quantity if len(lines) == 1 else None
        if len(lines) < 2 and said != many and many > 0:
            yield _proposal(note, part, many, lines[0] if lines else None)


def _screw(said: str) -> str:
    """Give the name of the screw that words tell, as it is listed; empty for none."""
    found = _SCREW.fullmatch(said.strip())
    if found is None:
        return ""
    size = re.sub(r"[x×]", "x", found["size"].casefold().replace(" ", ""))
    return f"M{size[1:]}{found['kind'].lower()}"


def _count(said: str) -> int:
    return int(said) if said.isdecimal() else SPELLED.index(said.casefold())


def _proposal(note: Note, part: Part | str, many: int, line: Line | None) -> Proposal:
    name = part if isinstance(part, str) else part.title

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
                title=f"{name} in the whole",
                when=draft.when,
                part=(draft.part(part) if isinstance(part, str) else part).ref,
                quantity=int(number),
            )
        )

    known = (note,) if isinstance(part, str) else (note, part)
    listed = f"the list says {line.quantity}" if line else "the list has none"
    return Proposal(
        key=f"needed {note.id}",
        topic="list",
        about=note.ref,
        question=f"does one build take {many} × {name}? {listed}",
        buys="the parts list says what one build takes, and counts hold to it",
        accepts=_NUMBER,
        inputs=tuple(one.ref for one in (*known, *((line,) if line else ()))),
        take=take,
    )
