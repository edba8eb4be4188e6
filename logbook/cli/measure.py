"""`logbook measure`: readings of one dimension of a piece, place by place."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.advisor import Advisor
from logbook.advice.gaps.held_to_gap import held_to_gap, suited_word
from logbook.cli import names, terms
from logbook.errors import BadInput, NeedsAnswer, Refused
from logbook.quantity import Absent, Quantity, parse_value
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Blame, Disposition
from logbook.records.kinds.workshop import Instrument, Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.off_drawing import deviation_of, off_drawing
from logbook.records.sizes.definition import Dimension, dimension
from logbook.records.sizes.expected import expected_of, must_suit
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.slips import Slip, doubt_of
from logbook.records.sizes.verdict_word import judged
from logbook.records.states.read_now import differs
from logbook.records.together.revisions import built_to, made_to

_NO_LIMITS = (
    "made to suit: its gap gives no limits yet; measure the other pieces first, "
    "everywhere"
)
_LIKE_DIGITS = str.maketrans("oOlI", "0011")


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("dimension", nargs="?", default="", help="what was measured")
    parser.add_argument(
        "values", nargs="*", help="values, each with its place if need be: left=178.6"
    )
    parser.add_argument("--nominal", help="the size as drawn")
    parser.add_argument("--piece", type=int, help="the number of the piece")
    parser.add_argument("--state", default="", help="free, clamped, coated…")
    parser.add_argument("--with", dest="instrument", default="", help="the instrument")
    parser.add_argument("--room", help="room temperature, 22 °C")
    parser.add_argument("--after", help="time it had run, 2 h")
    parser.add_argument(
        "--met-by", choices=sorted(terms.BLAMES), help="whose fault, if off its drawing"
    )
    parser.add_argument("--do", choices=terms.DISPOSITIONS, help="what to do with it")
    parser.add_argument(
        "--yes", action="store_true", help="take as typed what looks like a slip"
    )
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save a measuring run, and a deviation where a reading is off its drawing."""
    project = terms.opened(args)
    called, values = _named(args)
    draft = project.draft(terms.moment(args), args.build)
    nominal = terms.value(args.nominal, draft) if args.nominal else None
    readings = [_split(text) for text in values]
    part = names.part_for(args, draft, args.part)
    item = names.dimension_for(
        args, draft, part, called, nominal, draft.made_to(part, args.piece)
    )
    piece = draft.piece(part, args.piece)
    unit = item.nominal.unit if item.nominal else draft.snapshot.project.unit
    read = [
        Reading(
            id=new_id(),
            at=draft.when,
            what=item.ref,
            value=_value(text, unit),
            place=place,
            room=terms.value(args.room, draft) if args.room else None,
            after=terms.value(args.after, draft) if args.after else None,
        )
        for place, text in readings
    ]
    made = Run(
        id=new_id(),
        title=f"{piece.title} {item.title} {', '.join(values)}",
        when=draft.when,
        build=draft.build().ref,
        piece=piece.ref,
        instrument=_instrument(draft, args.instrument),
        state=args.state,
        readings=tuple(_settled(args, draft, part, one) for one in read),
    )
    draft.add(made)
    _deviation(args, draft, part, piece, made)
    held = _to_suit(draft, piece, item)
    code = terms.save(project, draft, f"measuring run: {made.title}", args)
    if held is not None and not args.json:
        for line in _suits(held, made):
            print(line)
    return code


def _to_suit(draft: Draft, piece: Piece, item: Characteristic) -> Dimension | None:
    """Give a size that is made last to suit, as its gap has it before it is read."""
    snapshot = draft.snapshot
    if not any(snapshot.find(gap.made_last) is item for gap in snapshot.all(Fit)):
        return None
    part = snapshot.find(item.part, Part)
    build = draft.build()
    known = build if build.id in snapshot else None
    drawn = dimension(snapshot, made_to(snapshot, part, piece) if part else None, item)
    advice = Advisor().update(snapshot, known).advice
    stored = piece if piece.id in snapshot else None
    return held_to_gap(snapshot, advice, drawn, stored, known)


def _suits(held: Dimension, made: Run) -> Iterator[str]:
    """Say of each reading how it stands to its gap, and what that accepts."""
    for reading in made.readings:
        at = f" at {reading.place}" if reading.place else ""
        read = f"{reading.what.name}{at} {reading.value}"
        if held.has_limits:
            said = suited_word(held, judged(held, reading.value, None))
            limits = f"finish {held.nominal}, accept {held.lower} to {held.upper}"
            yield f"{read}: {said}; made to suit: {limits}"
        else:
            yield f"{read}: {_NO_LIMITS}"


def _named(args: argparse.Namespace) -> tuple[str, list[str]]:
    """Give the dimension and its values, also where they were typed length=40.1.

    Raises:
        BadInput: no value was given, or the dimension of a second one.
    """
    called, sign, value = (text.strip() for text in args.dimension.partition("="))
    if not value and not args.values:
        raise BadInput(
            f"no value for {args.part} {called}; accepted: "
            f"logbook measure {args.part} {called or 'DIMENSION'} 40.1"
        )
    if sign and (args.values or not called):
        raise BadInput(
            f"“{args.dimension}” before other values is unclear; accepted: the "
            "dimension first, as in: measure base opening left=178.6 right=178.65"
        )
    return called, [value] if sign else args.values


def _value(text: str, unit: str) -> Quantity | Absent:
    """Read a value; a letter typed for a digit is told.

    Raises:
        BadInput: it is no value.
    """
    try:
        return parse_value(text, unit)
    except BadInput:
        digits = text.translate(_LIKE_DIGITS)
        letters = [sign for sign in text if sign in "oOlI"]
        if not letters or not any(sign.isdigit() for sign in text):
            raise
        try:
            parse_value(digits, unit)
        except BadInput:
            raise BadInput(f"“{text}” is no number; accepted: 40.1") from None
        raise BadInput(
            f"“{text}” has the letter {letters[0]} where a digit should stand; "
            f"accepted: {digits}, if that is meant"
        ) from None


def _deviation(
    args: argparse.Namespace, draft: Draft, part: Part, piece: Piece, made: Run
) -> None:
    """Log the reading that is off its drawing; ask whose fault it is, as `say` does."""
    found = off_drawing(draft, part, piece, made.readings)
    if found is None and (args.met_by or args.do):
        found = _off_without_limits(draft, part, piece, made.readings)
    if found is None:
        return
    reading, drawn = found
    made_of = deviation_of(draft, part, piece, reading, Blame.UNKNOWN)
    at = f" at {reading.place}" if reading.place else ""
    title = f"{piece.title} {reading.what.name}{at} {reading.value} should be {drawn}"
    draft.add(
        replace(
            made_of,
            title=title,
            wanted=drawn,
            met_by_others=_blame(args, title),
            disposition=Disposition(args.do) if args.do else None,
        )
    )


def _off_without_limits(
    draft: Draft, part: Part, piece: Piece, readings: Sequence[Reading]
) -> tuple[Reading, Quantity] | None:
    """Give the first reading that is not as drawn, of a size that no limits hold.

    It is a deviation where whoever read it says whose fault it is, or what is done.
    """
    for reading in readings:
        item = _dimension_of(draft, reading)
        revision = made_to(draft.snapshot, part, piece)
        drawn = as_held(draft.snapshot, dimension(draft.snapshot, revision, item))
        value, size = reading.value, drawn.nominal or item.nominal
        if drawn.has_limits or drawn.to_suit or size is None:
            continue
        if isinstance(value, Quantity) and differs(value, size):
            return reading, size
    return None


def _blame(args: argparse.Namespace, title: str) -> Blame:
    if args.met_by:
        return terms.BLAMES[args.met_by]
    if args.json or not sys.stdin.isatty():
        return Blame.UNKNOWN
    print(f"off drawing: {title}")
    return terms.ask_blame()


def _settled(
    args: argparse.Namespace, draft: Draft, part: Part, reading: Reading
) -> Reading:
    """Give the reading if it can be of its size; ask where it looks like a slip.

    Raises:
        BadInput: it measures something else, or is negative where none can be.
        NeedsAnswer: it looks like a slip, and nobody said what was meant.
    """
    item = _dimension_of(draft, reading)
    of = built_to(draft.snapshot, part, draft.build())
    drawn = dimension(draft.snapshot, of, item)
    drawn = as_held(draft.snapshot, drawn)
    must_suit(reading.value, expected_of(draft.snapshot, drawn))
    slip = doubt_of(draft.snapshot, drawn, reading.value)
    if slip is None:
        return reading
    if args.yes:
        print(f"taken as typed, though {slip.question}", file=sys.stderr)
    elif (meant := _meant(args, slip)) is not None:
        return replace(reading, value=meant)
    return replace(reading, confirmed=True)


def _dimension_of(draft: Draft, reading: Reading) -> Characteristic:
    for record in (*draft.records, draft.snapshot.find(reading.what)):
        if isinstance(record, Characteristic) and record.id == reading.what.id:
            return record
    raise AssertionError(reading.what)


def _meant(args: argparse.Namespace, slip: Slip) -> Quantity | None:
    """Ask which was meant; None where it is what was typed.

    Raises:
        NeedsAnswer: nobody is there to say.
        Refused: it was neither.
    """
    offered = [str(one) for one in (slip.meant, slip.value) if one is not None]
    if args.json or not sys.stdin.isatty():
        accepted = ", or ".join((*offered[:-1], f"--yes to take {slip.value} as typed"))
        raise NeedsAnswer(f"{slip.question} accepted: {accepted}", tuple(offered))
    print(slip.question)
    if slip.meant is None:
        shown = f"1 it is so / 2 {slip.value} was not meant "
        if terms.ask_key(shown, {"1": "typed", "2": ""}):
            return None
        raise Refused(f"{slip.value} was not meant; accepted: the value that was read")
    keys = {"1": "meant", "2": "typed"}
    shown = f"1 {slip.meant} was meant / 2 {slip.value} as typed "
    return slip.meant if terms.ask_key(shown, keys) == "meant" else None


def _split(text: str) -> tuple[str, str]:
    place, sign, value = text.rpartition("=")
    if sign and not value.strip():
        raise BadInput(f"“{text}” has no value after =; accepted: left=178.6")
    return place.strip(), value.strip()


def _instrument(draft: Draft, name: str) -> Ref | None:
    return names.meant(draft.snapshot, name, Instrument).ref if name else None
