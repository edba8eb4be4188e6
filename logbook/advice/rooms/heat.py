"""Whether a plastic part holds where it gets warm, carried to the hottest room.

A temperature counts only with the room it was measured in, the place on the part
and how long it had been warm. What was measured on a piece counts for the material
of that piece; a new material is first judged by what the old one felt. Temperatures
in °C, differences in K.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import weighed
from logbook.advice.ground.material import material_of, row_for
from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import View
from logbook.advice.rooms.climate import rooms
from logbook.errors import BadInput, Problem
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Failure, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import pieces_of
from logbook.records.together.references import part_of
from logbook.records.written.at_place import at_place
from logbook.shop.answers import Result
from logbook.shop.materials.heat_margin import margin, softening_of
from logbook.shop.tables import Row, table

WANTED = 10.0
"""Margin wanted below softening, in K; common practice, no source."""
SHORT = 1.0
"""Hours below which it may not have reached its heat; common practice, no source."""
_METAL = re.compile(
    r"\b(alumini?um|steel|stainless|brass|copper|iron)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Felt:
    """A temperature a part felt; what was not told is None or empty.

    In °C it is worked with; `said` and `room_said` are as they were typed.
    """

    temperature: float
    room: float | None
    hours: float | None
    place: str
    material: str
    when: datetime
    source: Ref
    said: str
    room_said: str

    @property
    def lacks(self) -> tuple[str, ...]:
        """What has to be told before it counts."""
        told = (
            ("the room it was measured in", self.room is not None),
            ("the place", bool(self.place)),
            ("how long it had been warm", self.hours is not None),
        )
        return tuple(name for name, there in told if not there)

    @property
    def rise(self) -> float:
        """How much warmer than its room."""
        return self.temperature - (self.room or 0.0)

    def __str__(self) -> str:
        """Say it as it was measured."""
        after = _hours(self.hours or 0.0)
        where = at_place(self.place)
        return f"{self.said} {where} after {after} in a {self.room_said} room"


def heat_advice(view: View, part: Part) -> Iterator[Advice | Problem]:
    """Say of each material a part was made of how far it is from softening."""
    found: list[Felt] = []
    for one in _facts(view, part):
        if isinstance(one, Problem):
            yield one
        else:
            found.append(one)
    if not found:
        return
    counted = [one for one in found if not one.lacks]
    for one in found:
        if one.lacks and not any(_told_again(one, other) for other in counted):
            yield _does_not_count(part, one)
    if not counted:
        return
    now = material_of(view, part)
    groups: dict[str, list[Felt]] = {}
    for one in counted:
        groups.setdefault(one.material, []).append(one)
    for material, group in groups.items():
        yield from _judged(view, part, material, group, now=material == now)
    if now and now not in groups:
        last = max(counted, key=lambda one: one.when)
        yield from _judged(view, part, now, [last], now=True)


# -- what was felt ---------------------------------------------------------------


def _facts(view: View, part: Part) -> Iterator[Felt | Problem]:
    pieces = pieces_of(view, part)
    about: dict[str, tuple[Record, Piece | None]] = {}
    for one in pieces:
        mentions = view.mentions(one, Failure, Run)
        about |= {record.id: (record, one) for record in mentions}
    for record in view.mentions(part, Failure, Run):
        about.setdefault(record.id, (record, None))
    for record, piece in about.values():
        if isinstance(record, Failure) and part_of(view, record) is part:
            yield from _of_failure(view, part, piece, record)
        elif isinstance(record, Run):
            yield from _of_run(view, part, piece, record)


def _of_failure(
    view: View, part: Part, piece: Piece | None, record: Failure
) -> Iterator[Felt | Problem]:
    told = record.conditions
    if told is None or told.temperature is None:
        return
    place = told.place or record.where
    values = (told.temperature, told.room, told.after)
    material = material_of(view, part, piece)
    yield _felt(view, record, values, (place, material, record.when))


def _of_run(
    view: View, part: Part, piece: Piece | None, run: Run
) -> Iterator[Felt | Problem]:
    for reading in run.readings:
        value = reading.value
        if not isinstance(value, Quantity) or value.dimension != "temperature":
            continue
        what = view.find(reading.what, Characteristic)
        owner = view.find(what.part, Part) if what else part_of(view, run)
        if owner is not part:
            continue  # this part is only named: what was read is another's
        if what is not None and what.nominal and what.nominal.dimension == "length":
            continue  # another kind of unit than was drawn: the gap says so
        name = what.title if what else reading.what.name
        place = reading.place or re.sub(r"\s*temperature\s*", "", name).strip()
        values = (value, reading.room, reading.after)
        material = material_of(view, part, piece)
        yield _felt(view, run, values, (place, material, reading.at))


def _felt(
    view: View,
    record: Record,
    values: tuple[Quantity, Quantity | None, Quantity | None],
    rest: tuple[str, str, datetime],
) -> Felt | Problem:
    temperature, room, after = values
    try:
        return Felt(
            float(temperature.to("°C")),
            None if room is None else float(room.to("°C")),
            None if after is None else float(after.to("h")),
            *rest,
            record.ref,
            str(temperature),
            "" if room is None else str(room),
        )
    except BadInput as refusal:
        return refused(view, record, "temperature", refusal)


# -- what it means ---------------------------------------------------------------


def _told_again(one: Felt, other: Felt) -> bool:
    """Tell whether what lacks something was told again since, with all of it."""
    return other.when >= one.when and one.place.casefold() in other.place.casefold()


def _does_not_count(part: Part, one: Felt) -> Advice:
    verb = "is" if len(one.lacks) == 1 else "are"
    said = (
        f"{part.title}: {one.said} does not count yet: "
        f"{', '.join(one.lacks)} {verb} not told; type it again so: "
        f"{_as_typed(part, one)}"
    )
    return _remark(part, f"felt {one.source.id}", said, [one])


def _as_typed(part: Part, one: Felt) -> str:
    """Give the line that tells all of it; what nobody told stands as “…” in it."""
    place = one.place.removeprefix("its ") or "…"
    after = "… h" if one.hours is None else _hours(one.hours)
    room = one.room_said or f"… {one.said.rpartition(' ')[2]}"
    return f"{part.title} {place} {one.said} after {after} in a {room} room"


def _hours(hours: float) -> str:
    """Say a time as one types it: minutes below an hour."""
    return f"{hours:.3g} h" if hours >= 1 else f"{hours * 60:.3g} min"


def _judged(
    view: View, part: Part, material: str, group: Sequence[Felt], *, now: bool
) -> Iterator[Advice | Problem]:
    worst = max(group, key=lambda one: one.rise)
    if not material:
        said = f"{part.title}: {worst}: of what material is not told"
        yield _remark(part, "heat", said, group)
        return
    row = row_for(table("heat", "softening"), material)
    if row is None:
        if not _METAL.search(material):
            said = f"{part.title}: {worst}: no softening figure of {material} here"
            yield _remark(part, f"heat {material}", f"{said}, ask its maker", group)
        return
    try:
        hottest = rooms(view.project).hottest
    except BadInput as refusal:
        yield refused(view, view.project, "climate", refusal)
        return
    if hottest is None:
        said = f"{part.title}: {worst}: in which rooms will it stand? say the hottest"
        yield _remark(part, "heat", said, group)
        return
    yield _margin(part, row, worst, hottest, now=now)


def _margin(part: Part, row: Row, worst: Felt, hottest: float, *, now: bool) -> Advice:
    found = softening_of(row)
    # What it carries is not on record, so it is judged as carrying only itself.
    softens = found.glass
    there, left = margin(worst.temperature, worst.room or 0.0, hottest, softens)
    if left <= 0:
        verdict = "it gives way there: another material, or more air"
    elif left < WANTED:
        verdict = f"{left:.0f} K left, less than the {WANTED:g} K wanted"
    else:
        verdict = f"{left:.0f} K left, it keeps its shape"
    # What is no longer so comes after what is: advice is listed by its words.
    name = f" in {row.label}" if now else f", earlier in {row.label} (no longer used)"
    said = (
        f"{part.title}{name}: {worst} is {there:.0f} °C in one of {hottest:g} °C; "
        f"it softens from {softens:.0f} °C: {verdict}"
    )
    if caution := found.if_loaded(there, WANTED):
        said += f"; {caution}"
    flagged = left < WANTED and now
    return replace(
        _remark(part, f"heat {row.label}", said, [worst]),
        grade=weighed(part, Grade.CHECK) if flagged else Grade.REMARK,
        numbers=(
            Result("hottest", there, "°C", 0, "in the hottest room"),
            Result("softens", softens, "°C", 0, "glass transition, low end"),
            Result("softens_loaded", found.loaded, "°C", 0, "under load, low end"),
            Result("margin", left, "K", 0, "left below that"),
            Result("wanted", WANTED, "K", 0, "common practice, no source"),
        ),
        sources=(f"{row.label}: {row.source}",),
        assumed=tuple(_assumed(row, worst)),
    )


def _assumed(row: Row, worst: Felt) -> Iterator[str]:
    yield "the rise above the room is the same in a warmer room"
    yield "it carries nothing but itself, so the glass transition counts"
    other = row_for(table("heat", "softening"), worst.material)
    if other is None or other.label != row.label:
        was = worst.material or "another material"
        yield f"felt by the one of {was}: measure again on the new one"
    if (worst.hours or 0.0) < SHORT:
        yield f"after {worst.hours:g} h it may still have been warming"


def _remark(part: Part, key: str, said: str, group: Sequence[Felt]) -> Advice:
    return Advice(
        key=f"{key} {part.id}",
        topic="heat",
        grade=Grade.REMARK,
        about=part.ref,
        statement=said,
        inputs=(part.ref, *dict.fromkeys(one.source for one in group)),
        formula="hottest = measured + (hottest room − room); margin = low end of "
        "the glass transition − hottest; under load the deflection temperature counts",
        changes=("a temperature measured again, with room, place and hours",),
    )
