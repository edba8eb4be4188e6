"""What became of one part on the bench: revisions, pieces, sizes, what went wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby

from logbook.advice.faults.faulty_part import faulty_part
from logbook.advice.faults.gone import gone_because
from logbook.advice.faults.headline import reason
from logbook.advice.faults.older_pieces import older_pieces
from logbook.publish.faults.withdrawn import standing_of
from logbook.publish.html import anchor
from logbook.publish.notes.asked import questions
from logbook.publish.pages import capital
from logbook.publish.parts.asbuilt import read_under, verdict
from logbook.publish.parts.fault_story import Fault, fault_of, faulty
from logbook.publish.parts.gaps import made_to_suit
from logbook.publish.release.statements import stuff
from logbook.publish.signals import Box, Spoken, reminders
from logbook.records.kinds import design, workshop
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.words import State
from logbook.records.sizes.definition import characteristics_of, dimension
from logbook.records.sizes.limits_held import held_text, limits_held
from logbook.records.states.pieces import (
    Taken,
    piece_state,
    pieces_of,
    readings_of,
)
from logbook.records.together.references import is_bought
from logbook.records.together.revisions import (
    current_revision,
    revisions_of,
    shown_label,
)
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Measured:
    """One dimension of one piece: drawn, became, and the verdict in words."""

    piece: str
    what: str
    drawn: str
    became: str
    verdict: str


@dataclass(frozen=True, slots=True)
class PartStory:
    """A part: what it is made of, its revisions, its pieces, what is asked, faults."""

    title: str
    made_of: str
    boxes: tuple[Box, ...]
    revisions: tuple[str, ...]
    pieces: tuple[str, ...]
    measured: tuple[Measured, ...]
    asked: tuple[str, ...]
    faults: tuple[Fault, ...]


def stories(snapshot: Snapshot, spoken: Spoken) -> Iterator[PartStory]:
    """Give the parts that have a story, by name: made, changed, asked, gone wrong."""
    for part in by_title(snapshot):
        faults = tuple(f for f in faulty(snapshot) if faulty_part(snapshot, f) is part)
        line = revisions_of(snapshot, part)
        told = len(line) > 1 or any(one.changed or one.why for one in line)
        asked = questions(snapshot, part)
        if pieces_of(snapshot, part) or faults or told or asked:
            yield _story(snapshot, part, faults, spoken)


def by_title(snapshot: Snapshot) -> list[Part]:
    """Give the parts by name, so that one is found quickly."""
    return sorted(snapshot.all(Part), key=lambda part: (part.title.casefold(), part.id))


def _story(
    snapshot: Snapshot,
    part: Part,
    entries: tuple[Failure | Deviation, ...],
    spoken: Spoken,
) -> PartStory:
    material = stuff(snapshot, part, current_revision(snapshot, part))
    title = capital(part.title)
    called = reminders(part.process, material) if part.process else ()
    boxes = spoken.before(called, anchor(title), title)
    return PartStory(
        title=title,
        made_of=": ".join(filter(None, (", ".join(part.process), material))),
        boxes=boxes,
        revisions=tuple(
            _revision_line(snapshot, r) for r in revisions_of(snapshot, part)
        ),
        pieces=tuple(_piece_lines(snapshot, _in_order(snapshot, part))),
        measured=tuple(_measured(snapshot, part)),
        asked=tuple(q.what for q in questions(snapshot, part) if not q.answer),
        faults=tuple(fault_of(snapshot, entry, spoken) for entry in entries),
    )


def _revision_line(snapshot: Snapshot, revision: design.Revision) -> str:
    said = f"{shown_label(revision)}, {standing_of(snapshot, revision)}"
    if revision.changed:
        said += f": {revision.changed}"
    if why := reason(snapshot, revision):
        said += f", because {why}"
    if again := older_pieces(snapshot, revision):
        said += f". Make an older piece again? {capital(again)}"
    return said


_IN_A_ROW = 2
"""Pieces in a row that are named one by one."""
_TOLD_WHY = {State.SCRAPPED, State.LOST, State.SENT_OUT, State.TAKEN_OUT}


def _piece_lines(snapshot: Snapshot, pieces: Iterable[workshop.Piece]) -> Iterator[str]:
    """Say what the pieces are; several in a row of which the same is said, once."""
    for facts, told in groupby(pieces, key=partial(_piece_facts, snapshot)):
        names = [piece.title for piece in told]
        if len(names) > _IN_A_ROW:
            names = [f"{names[0]} to {names[-1]}, {len(names)} pieces"]
        for name in names:
            yield f"{name} ({facts})"


def _piece_facts(snapshot: Snapshot, piece: workshop.Piece) -> str:
    revision = snapshot.find(piece.revision, design.Revision)
    said = [shown_label(revision)] if revision else []
    state = piece_state(snapshot, piece)
    why = gone_because(snapshot, piece) if state in _TOLD_WHY else ""
    word = (
        "bought" if state is State.MADE and is_bought(snapshot, piece.part) else state
    )
    said.append(f"{word}: {why}" if why else f"{word}")
    for ref, lead in ((piece.machine, "on the"), (piece.stock, "from")):
        found = snapshot.find(ref)
        said += [f"{lead} {found.title}"] if found else []
    said += [f"{name} {value}" for name, value in piece.settings.items()]
    return ", ".join(said)


# -- sizes -----------------------------------------------------------------------


def _measured(snapshot: Snapshot, part: Part) -> Iterator[Measured]:
    """Tell each size of each piece; several pieces alike in a row are told as one."""
    pieces = _in_order(snapshot, part)
    for item in characteristics_of(snapshot, part):
        told = enumerate(_of_piece(snapshot, piece, item) for piece in pieces)
        read = [(at, row) for at, row in told if row is not None]
        gapless = ((at - count, row) for count, (at, row) in enumerate(read))
        for _, alike in groupby(gapless, lambda one: (one[0], *_same(one[1]))):
            yield from _together(tuple(row for _, row in alike))


def _same(row: Measured) -> tuple[str, str]:
    return row.drawn, row.verdict


def _in_order(snapshot: Snapshot, part: Part) -> list[workshop.Piece]:
    return sorted(pieces_of(snapshot, part), key=lambda piece: piece.number)


def _of_piece(
    snapshot: Snapshot, piece: workshop.Piece, item: design.Characteristic
) -> Measured | None:
    taken = readings_of(snapshot, piece, item)
    if not taken:
        return None
    revision = snapshot.find(piece.revision, design.Revision)
    drawn = dimension(snapshot, revision, item)
    placed = [one for one in taken if one.reading.place]
    suits = made_to_suit(snapshot, item)
    held = limits_held(snapshot.project, drawn)
    judged = verdict(snapshot, held, taken)
    return Measured(
        piece=piece.title,
        what=item.title,
        drawn=held_text(held),
        became=", ".join(_became(placed or taken)),
        verdict=f"made to suit “{suits.title}”" if suits else judged,
    )


def _together(rows: Sequence[Measured]) -> Iterator[Measured]:
    """Give rows of one size as one, where each piece has a single value."""
    single = all(_SINGLE.fullmatch(row.became) for row in rows)
    if len(rows) <= _IN_A_ROW or not single:
        yield from rows
        return
    values = ", ".join(row.became for row in rows)
    name = f"{rows[0].piece} to {rows[-1].piece}, {len(rows)} pieces"
    yield replace(rows[0], piece=name, became=f"{values}, in this order")


_SINGLE = re.compile(r"[^,()]+")
"""What a piece became where it is one value, of no place and read once."""


def _became(taken: Sequence[Taken]) -> Iterator[str]:
    """Say what was read at each place under each state, one after the other."""
    read: dict[str, dict[str, None]] = {}
    for one in taken:
        under = ", ".join(filter(None, (one.reading.place, read_under(one))))
        values = read.setdefault(under, {})
        values.pop(str(one.reading.value), None)
        values[str(one.reading.value)] = None
    for under, values in read.items():
        said = ", later ".join(values)
        yield f"{said} ({under})" if under else said
