"""`logbook measure`: readings of one dimension of a piece, place by place."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity, parse_value
from logbook.records.ids import Ref, new_id
from logbook.records.making import Draft
from logbook.records.model import Characteristic, Instrument, Reading, Run


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("dimension", help="what was measured")
    parser.add_argument(
        "values", nargs="+", help="values, each with its place if need be: left=178.6"
    )
    parser.add_argument("--nominal", help="the size as drawn")
    parser.add_argument("--piece", type=int, help="the number of the piece")
    parser.add_argument("--state", default="", help="free, clamped, coated…")
    parser.add_argument("--with", dest="instrument", default="", help="the instrument")
    parser.add_argument("--room", help="room temperature, 22 °C")
    parser.add_argument("--after", help="time it had run, 2 h")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save a measuring run."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    nominal = terms.value(args.nominal, draft) if args.nominal else None
    readings = [_split(text) for text in args.values]
    part = draft.part(args.part)
    item = draft.characteristic(part, args.dimension, nominal)
    piece = draft.piece(part, args.piece)
    unit = item.nominal.unit if item.nominal else draft.snapshot.project.unit
    run_ = Run(
        id=new_id(),
        title=f"{piece.title} {item.title} {', '.join(args.values)}",
        when=draft.when,
        build=draft.build().ref,
        piece=piece.ref,
        instrument=_instrument(draft, args.instrument),
        state=args.state,
        readings=tuple(
            Reading(
                id=new_id(),
                at=draft.when,
                what=item.ref,
                value=_fitting(parse_value(text, unit), item),
                place=place,
                room=terms.value(args.room, draft) if args.room else None,
                after=terms.value(args.after, draft) if args.after else None,
            )
            for place, text in readings
        ),
    )
    draft.add(run_)
    return terms.save(project, draft, f"measuring run: {run_.title}", args)


def _fitting(value: Quantity | Absent, item: Characteristic) -> Quantity | Absent:
    """Give the value if it measures what the dimension is.

    Raises:
        BadInput: it measures something else than the size that was drawn.
    """
    drawn = item.nominal or item.lower_limit or item.upper_limit
    if isinstance(value, Absent) or drawn is None:
        return value
    if value.dimension != drawn.dimension:
        raise BadInput(
            f"{value} is a {value.dimension}, but {item.title} is a "
            f"{drawn.dimension} ({drawn}); accepted: a {drawn.dimension}"
        )
    return value


def _split(text: str) -> tuple[str, str]:
    place, sign, value = text.rpartition("=")
    if sign and not value.strip():
        raise BadInput(f"“{text}” has no value after =; accepted: left=178.6")
    return place.strip(), value.strip()


def _instrument(draft: Draft, name: str) -> Ref | None:
    return draft.snapshot.lookup(name, Instrument).ref if name else None
