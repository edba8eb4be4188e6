"""What if: a size nobody has read yet, taken as read, in a snapshot of its own.

`opening 178.9` supposes every place of a dimension of a gap, `opening left 178.9`
one of them; `M4x25` supposes another screw in a joint, `collar 6.5` a layer. The
records stay as they are; several suppositions are divided by semicolons.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime

from logbook.advice.gaps.candidates import candidates
from logbook.advice.ground.naming import Meant, formula_of, meant
from logbook.advice.ground.register import View
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Fit, Joint, Layer
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import dimension
from logbook.records.sizes.places import places_of
from logbook.records.together.names import folded
from logbook.records.together.references import is_of
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import with_records
from logbook.shop.fastening.screws import read_screw

LATEST = datetime(9999, 1, 1, tzinfo=UTC)
"""A supposed reading comes after everything that was read."""


@dataclass(frozen=True, slots=True)
class Supposed:
    """A snapshot in which something is so that is not; `words` say what."""

    snapshot: Snapshot
    words: str


def supposed(view: View, about: Record, typed: str) -> Supposed:
    """Suppose of a gap or a joint what was typed.

    Raises:
        BadInput: nothing here is called so, or it is no size.
    """
    held, said = dict(view.stored), []
    touched: dict[str, Stored] = {}
    for item in filter(None, (one.strip() for one in typed.split(";"))):
        match about:
            case Fit():
                changed, words = _read(view, about, item, held)
            case Joint():
                here = held[about.id].record
                assert isinstance(here, Joint)
                changed, words = _joined(here, item, view.project.unit)
            case _:
                raise BadInput(f"{about.title} has no sizes; accepted: a gap, a joint")
        for record in changed:
            case_ = Stored(record, "what if", f"what if {record.id} {typed}")
            held[record.id] = touched[record.id] = case_
        said.append(words)
    return Supposed(with_records(view.over, touched.values()), "; ".join(said))


# -- a size of a gap ------------------------------------------------------------


def _read(
    view: View, fit: Fit, item: str, held: dict[str, Stored]
) -> tuple[list[Record], str]:
    names = [meant(view, name) for name in formula_of(fit.formula).names]
    one, rest = _named(names, item.split())
    drawn = dimension(view, current_revision(view, one.part), one.what)
    unit = drawn.nominal.unit if drawn.nominal else view.project.unit
    place, value = _placed(rest, unit)
    if value.dimension != "length":
        raise BadInput(f"“{value}” is no length; accepted: a length, such as 178.9 mm")
    found = candidates(view, one.part, one.name.place)
    piece = found[-1] if found else _piece(view, one)
    # What is supposed of no place is so at every one of them.
    each = (place,) if place else places_of(view, one.what)
    run = _run(held, piece, one, [_reading(one, at, value) for at in each])
    stripped = _without(view, piece, one, place, held)
    made: list[Record] = [] if found else [piece]
    at = f" at {place}" if place else ""
    return [*made, *stripped, run], f"{_called(one)}{at} is {value}"


def _named(names: Sequence[Meant], words: list[str]) -> tuple[Meant, list[str]]:
    """Give the dimension that the longest beginning of the words names."""
    for count in range(len(words) - 1, 0, -1):
        asked = folded(" ".join(words[:count]))
        found = {one.what.id: one for one in names if asked in _calls(one)}
        if len(found) > 1:
            which = " or ".join(
                f"{o.part.title} {o.what.title}" for o in found.values()
            )
            raise BadInput(f"“{asked}” can mean {which}; accepted: one of these")
        for one in found.values():
            return one, words[count:]
    known = ", ".join(map(_called, names))
    raise BadInput(
        f"“{' '.join(words)}” supposes no size of this gap; accepted: a size and its "
        f"value, of {known}"
    )


def _called(one: Meant) -> str:
    return f"{one.part.title} {one.what.title}"


def _calls(one: Meant) -> set[str]:
    each = {one.what.title, one.what.name, *one.what.formerly}
    parts = {one.part.title, one.part.name}
    full = {f"{part} {what}" for part in parts for what in each}
    dotted = {f"{part}.{what}" for part in parts for what in each}
    return {folded(name) for name in (*each, *full, *dotted, str(one.name)) if name}


def _placed(words: list[str], unit: str) -> tuple[str, Quantity]:
    """Split a place from its value: the value is the longest end that is one."""
    refusal = BadInput("no value was typed; accepted: a number, such as 178.9")
    for at in range(len(words)):
        try:
            value = parse_quantity(" ".join(words[at:]), unit)
        except BadInput as error:
            refusal = error
        else:
            return " ".join(words[:at]).removeprefix("@"), value
    raise refusal


def _run(
    held: dict[str, Stored], piece: Piece, one: Meant, readings: Sequence[Reading]
) -> Run:
    """Give the supposed run of a dimension, with what was supposed of it before."""
    key = f"what{one.what.id[:4]}"
    before = held[key].record if key in held else None
    earlier = before.readings if isinstance(before, Run) else ()
    anew = {reading.place for reading in readings}
    return Run(
        id=key,
        title=f"what if {_called(one)}",
        when=LATEST,
        build=piece.build,
        piece=piece.ref,
        readings=(*(r for r in earlier if r.place not in anew), *readings),
    )


def _reading(one: Meant, place: str, value: Quantity) -> Reading:
    return Reading(
        id=f"what{one.what.id[4:]}", at=LATEST, what=one.what.ref, value=value,
        place=place,
    )  # fmt: skip


def _piece(view: View, one: Meant) -> Piece:
    revision = current_revision(view, one.part)
    return Piece(
        id=f"what{one.part.id[:4]}",
        title=f"the {one.part.title} to come",
        when=LATEST,
        part=one.part.ref,
        revision=revision.ref if revision else None,
        build=view.build.ref if view.build else None,
        place=one.name.place,
    )


def _without(
    view: View, piece: Piece, one: Meant, place: str, held: dict[str, Stored]
) -> Iterator[Run]:
    """Give the runs of a piece without the readings that are supposed otherwise."""
    for mention in view.mentions(piece):
        run = held[mention.id].record
        if not isinstance(run, Run) or view.find(run.piece) is not piece:
            continue
        kept = tuple(
            reading
            for reading in run.readings
            if not is_of(reading.what, one.what)
            or (place and folded(reading.place) != folded(place))
        )
        if kept != run.readings:
            yield replace(run, readings=kept)


# -- a screw or a layer of a joint -----------------------------------------------


def _joined(joint: Joint, item: str, unit: str) -> tuple[list[Record], str]:
    try:
        read_screw(item)
    except BadInput as no_screw:
        layers, words = _layered(joint, item.split(), unit, no_screw)
        return [replace(joint, layers=layers)], words
    return [replace(joint, fastener=item)], f"the screw is {item}"


def _layered(
    joint: Joint, words: list[str], unit: str, no_screw: BadInput
) -> tuple[tuple[Layer, ...], str]:
    if len(words) == 2 and folded(words[0]) == "thickness":
        return _layered(joint, [_only_layer(joint), words[1]], unit, no_screw)
    for count in range(len(words) - 1, 0, -1):
        name = folded(" ".join(words[:count])).removesuffix(" thickness")
        if any(folded(layer.part.name) == name for layer in joint.layers):
            size = parse_quantity(" ".join(words[count:]), unit)
            if size.dimension != "length":
                raise BadInput(f"“{size}” is no length; accepted: a thickness")
            layers = tuple(
                _thick(layer, size) if folded(layer.part.name) == name else layer
                for layer in joint.layers
            )
            return layers, f"{name} is {size} thick"
    known = ", ".join(dict.fromkeys(layer.part.name for layer in joint.layers))
    raise BadInput(
        f"“{' '.join(words)}” names no screw, and names no layer; accepted: a "
        f"screw, as M4x20, or a layer and its thickness, of {known}"
    )


def _only_layer(joint: Joint) -> str:
    names = dict.fromkeys(layer.part.name for layer in joint.layers)
    if len(names) != 1:
        raise BadInput(
            f"“thickness” is that of {' or '.join(names) or 'no layer'}; accepted: a "
            "layer and its thickness"
        )
    return next(iter(names))


def _thick(layer: Layer, size: Quantity) -> Layer:
    # The reference leads nowhere, so that a thickness found on the bench does not win.
    away = Ref(layer.part.name, "whatwhat")
    return replace(layer, part=away, thickness=size, lower_limit=size, upper_limit=size)
