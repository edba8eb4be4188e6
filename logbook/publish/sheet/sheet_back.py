"""A job sheet typed back in: each filled box becomes the fact it asked for.

Readings of one piece become one measuring run; a ticked operation, its minutes
and what was looked at before it closed become one entry.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

from logbook.advice.steps.going_past import GoingPast
from logbook.advice.steps.passing import Why, add_override, end_hold
from logbook.errors import BadInput
from logbook.plain.when.moments import instant_typed
from logbook.publish.sheet.boxes import Box, Sort, of_sort
from logbook.publish.sheet.sheet_asked import done_already
from logbook.publish.sheet.sheet_work import NOT_SEEN, draft_operation, length_of_time
from logbook.quantity import parse_value
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Entry,
    Reading,
    Run,
)
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.off_drawing import deviation_of
from logbook.records.sizes.expected import Expected, must_suit
from logbook.records.states.pieces import pieces_of

TICKED = {Sort.OVER, Sort.CHECK, Sort.DONE}
"""The boxes that are ticked."""
YES = {"x", "y", "yes", "ok", "v", "✓", "✔", "done", "1"}
NO = {"n", "no", "-", "0"}
_TICK = "accepted: x, n, or Enter to leave it blank"


def read_box(box: Box, typed: str, expected: Expected | None = None) -> str:
    """Check what was typed for a box; give it as it is kept, empty for blank.

    `expected` is what is known of the size of a reading, whose kind it must be.

    Raises:
        BadInput: it cannot be the content of this box.
        NeedsAnswer: it has two meanings.
    """
    typed = " ".join(typed.split())
    if not typed:
        return ""
    if box.sort is Sort.READING:
        value = parse_value("not measured" if typed in {"n", "-"} else typed, box.unit)
        must_suit(value, expected)
    elif box.sort is Sort.TIME:
        length_of_time(typed)
    elif box.sort is Sort.WORKED:
        now = datetime.now(UTC).astimezone()
        return instant_typed(typed, now).isoformat(" ", "minutes")
    elif box.sort in TICKED:
        word = typed.casefold()
        if word in NO:
            return NOT_SEEN if box.sort is Sort.CHECK else ""
        if word not in YES:
            raise BadInput(f"“{typed}” is no tick; {_TICK}")
        return "x"
    return typed


@dataclass(frozen=True, slots=True)
class Answers:
    """What was answered about what is on a sheet.

    `blames` says whose fault it is where a reading off its drawing is to be logged as
    a deviation, `confirmed` which boxes have readings that looked like slips and are
    none, both by the number of the box. By the ids of steps, `again` names those that
    are done already and are to be logged a second time, `past` what each goes past,
    and why.
    """

    blames: Mapping[int, Blame] = field(default_factory=dict)
    confirmed: Collection[int] = ()
    again: Collection[str] = ()
    past: Mapping[str, GoingPast] = field(default_factory=dict)


def draft_back(
    draft: Draft,
    boxes: Sequence[Box],
    typed: Mapping[int, str],
    answers: Answers | None = None,
) -> None:
    """Draft everything that was written on the sheet, in printed order.

    `typed` holds what `read_box` gave, by the number of the box.
    """
    answers = answers or Answers()
    filled = [box for box in boxes if typed.get(box.number)]
    already = done_already(draft.snapshot, boxes, typed, draft.build())
    twice = {one.id for one in already} - set(answers.again)
    before = len(draft.new)
    for step in dict.fromkeys(box.step for box in filled):
        here = [box for box in filled if box.step == step]
        _passed(draft, here, typed)
        _runs(draft, here, typed, answers)
        if operation := draft.snapshot.by_id(step, Step):
            gone = answers.past.get(step, GoingPast())
            draft_operation(draft, operation, here, typed, gone, twice=step in twice)
    _in_printed_order(draft, before)


def _in_printed_order(draft: Draft, before: int) -> None:
    """Let the entries, all of one instant, stand in the order they were drafted in.

    Entries of one instant stand by their ids; nothing names these entries yet.
    """
    at = [
        n for n, one in enumerate(draft.new) if n >= before and isinstance(one, Entry)
    ]
    for n, identity in zip(at, sorted(new_id() for _ in at), strict=True):
        draft.new[n] = replace(draft.new[n], id=identity)


def _passed(draft: Draft, boxes: Sequence[Box], typed: Mapping[int, str]) -> None:
    """Draft why what waits was gone past; a hold that is ticked as over has ended.

    Where both are told the words typed stand as the reason.
    """
    reasoned = {box.word for box in of_sort(boxes, Sort.PASSED)}
    for box in boxes:
        step = draft.snapshot.by_id(box.step, Step)
        of = step.ref if step else None
        if box.sort is Sort.PASSED:
            add_override(draft, box.word, of, Why(because=typed[box.number]))
        elif box.sort is Sort.OVER and box.word not in reasoned:
            end_hold(draft, box.word, of)


def _runs(
    draft: Draft,
    boxes: Sequence[Box],
    typed: Mapping[int, str],
    answers: Answers,
) -> None:
    readings = list(of_sort(boxes, Sort.READING))
    for owner in dict.fromkeys((box.part, box.piece) for box in readings):
        mine = [box for box in readings if (box.part, box.piece) == owner]
        part = _part(draft, mine[0])
        piece = _piece(draft, part, mine[0])
        taken = tuple(
            replace(
                _reading(draft, part, box, typed[box.number]),
                confirmed=box.number in answers.confirmed,
            )
            for box in mine
        )
        draft.add(
            Run(
                id=new_id(),
                title=f"measured {piece.title}",
                when=draft.when,
                build=draft.build().ref,
                piece=piece.ref,
                readings=taken,
            )
        )
        for box, reading in zip(mine, taken, strict=True):
            if box.number in answers.blames:
                blame = answers.blames[box.number]
                draft.add(deviation_of(draft, part, piece, reading, blame))


def _part(draft: Draft, box: Box) -> Part:
    """Give the part of a reading, whatever it is called by now."""
    item = draft.snapshot.find(Ref(box.label, box.about), Characteristic)
    part = draft.snapshot.find(item.part, Part) if item else None
    return part or draft.part(box.part)


def _piece(draft: Draft, part: Part, box: Box) -> Piece:
    """Give the piece a box was printed for; the first new one may be made by now."""
    if not box.is_new:
        known = draft.snapshot.named(box.piece, Piece)
        return known[0] if known else draft.piece(part)
    if box.piece == "new 1":
        return draft.piece(part)
    drafted = [r for r in draft.new if isinstance(r, Piece)]
    every = [*pieces_of(draft.snapshot, part), *drafted]
    numbers = [piece.number for piece in every if piece.part.id == part.id]
    return draft.new_piece(part, max(numbers, default=0) + 1)


def _reading(draft: Draft, part: Part, box: Box, text: str) -> Reading:
    item = draft.snapshot.by_id(box.about, Characteristic)
    if item is None:
        called, since = box.label.partition(" at ")[0], draft.made_to(part)
        item = draft.characteristic(part, called, since=since)
    value = parse_value("not measured" if text in {"n", "-"} else text, box.unit)
    return Reading(
        id=new_id(), at=draft.when, what=item.ref, value=value, place=box.place
    )
