"""Records of sizes: measuring runs and deviations."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

from logbook.plain.drafts.drafting import (
    blame_of,
    cause_of,
    disposition_of,
    make_entry,
    part_ref,
    piece_of,
)
from logbook.plain.understanding import Kind, Understanding
from logbook.plain.understanding import Reading as Said
from logbook.plain.wanting import unpaired, wanted_of
from logbook.plain.words.lexicon import lexicon
from logbook.quantity import Absent, Quantity, quantity
from logbook.records.kinds import design, workshop
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.off_drawing import drawn_by_now, off_drawing
from logbook.records.sizes.definition import characteristics_of

UNNAMED = "size"
"""The dimension of a reading that names none."""


def draft_readings(draft: Draft, line: Understanding) -> Draft:
    """Log a measuring run, and a deviation where it is not as drawn."""
    facts = line.facts
    if not facts.readings and not facts.absent:
        return _off(draft, line)
    piece = piece_of(draft, facts)
    if facts.became is not None:
        return _brought(draft, line, piece)
    run = draft_run(draft, line, piece)
    if facts.wanted and not unpaired(facts):
        _deviations(draft, line, run, piece)
    elif facts.part:
        _off_drawing(draft, line, run, piece)
    return draft


def _brought(draft: Draft, line: Understanding, piece: Piece | None) -> Draft:
    """Log what a size was, as a deviation from its drawing, and what it is now.

    What it is now is read a second after, so that the newest reading tells it.
    """
    run = draft_run(draft, line, piece)
    [was], [read] = line.facts.readings, run.readings
    item = draft.snapshot.find(read.what, design.Characteristic)
    drawn = item.nominal if item else None
    wanted = line.facts.wanted[0] if line.facts.wanted else drawn
    _deviation(draft, line, read, wanted, piece)
    assert line.facts.became is not None
    now = replace(line.facts, readings=(replace(was, value=line.facts.became),))
    after = draft_run(draft, replace(line, facts=now), piece)
    at = after.when + timedelta(seconds=1)
    readings = tuple(replace(one, at=at) for one in after.readings)
    draft.amend(replace(after, when=at, readings=readings))
    return draft


def _off(draft: Draft, line: Understanding) -> Draft:
    """Log “0.5 too wide”: a deviation whose size is only known as a difference."""
    facts = line.facts
    piece = piece_of(draft, facts)
    wanted, found = (facts.wanted[0] if facts.wanted else None), None
    if wanted is not None and facts.off is not None:
        off = facts.off.to(wanted.unit) * (-1 if _is_less(facts.off_sense) else 1)
        found = quantity(wanted.value + off, wanted.unit)
    make_entry(
        draft,
        Deviation,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, facts),
        off=facts.off,
        wanted=wanted,
        found=found,
        place=facts.place,
        met_by_others=blame_of(facts),
        disposition=disposition_of(facts),
        cause=cause_of(facts),
        cure=facts.cure,
    )
    return draft


_LESS = ("under", "narrow", "short", "thin", "small", "low", "shallow", "shy", "close")


def _is_less(sense: str) -> bool:
    """Tell “too narrow” and “under” from “too wide”: less than is wanted."""
    return any(
        word.startswith(less) for word in sense.casefold().split() for less in _LESS
    )


def draft_run(draft: Draft, line: Understanding, piece: Piece | None) -> Run:
    """Log the readings of a line as one run."""
    facts = line.facts
    said = facts.readings or (None,)
    instrument = draft.snapshot.named(facts.instrument, workshop.Instrument)
    return make_entry(
        draft,
        Run,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, facts),
        instrument=instrument[0].ref if facts.instrument and instrument else None,
        readings=tuple(
            _reading(draft, line, one, wanted_of(line, at), piece)
            for at, one in enumerate(said)
        ),
    )


def _reading(
    draft: Draft,
    line: Understanding,
    said: Said | None,
    wanted: Quantity | None,
    piece: Piece | None,
) -> Reading:
    facts = line.facts
    what = (said.what if said else "") or facts.what or UNNAMED
    name = Ref(what)
    value = said.value if said else (facts.absent or Absent.NOT_MEASURED)
    if facts.part:
        part = draft.part(facts.part)
        vague = what == UNNAMED or line.kind in (Kind.STEP, Kind.DISPOSITION)
        named = is_dimension(what) or (is_feature(what) and what not in _BORDERS)
        if vague and not named:
            what = sized(draft, part, what, value)
        since = draft.made_to(part, piece.number if piece else None)
        name = draft.characteristic(part, what, wanted, since=since).ref
    return Reading(
        id=new_id(),
        at=draft.when,
        what=name,
        value=value,
        place=said.place if said else facts.place,
        state=said.state if said else "",
        room=facts.room,
        after=facts.hours or facts.minutes,
        confirmed=said.confirmed if said else False,
    )


_BORDERS = frozenset({"end", "ends", "edge", "edges", "both ends", "both edges"})
"""What a size lies between: sanded its ends, now 178.45, is the size itself."""


def is_dimension(what: str) -> bool:
    """Tell whether a name says what is measured: “hole spacing”, not “down”."""
    known, words = lexicon(), what.casefold().split()
    found = (known.longest(words, at) for at in range(len(words)))
    return any(hit and any(t.startswith("measures") for t in hit[1]) for hit in found)


def is_feature(what: str) -> bool:
    """Tell whether a name says of what: holes drilled out to 3.4 are no thickness."""
    known, words = lexicon(), what.casefold().split()
    found = (known.longest(words, at) for at in range(len(words)))
    return any(hit and "structure" in hit[1] for hit in found)


def sized(draft: Draft, part: Part, what: str, value: Quantity | Absent) -> str:
    """Name the dimension meant: “filed to 178.3” means the only one a part has.

    Only a value near what is drawn of it can be that one: a number far off, or of
    another kind, was told of something else.
    """
    known = characteristics_of(draft.snapshot, part)
    for item in known:
        if what.casefold() == item.title.casefold():
            return what
    near = len(known) == 1 and _is_near(known[0].nominal, value)
    return known[0].title if near else UNNAMED


_NEAR = Fraction(1, 4)
"""A made size is nearer to its drawn one than this share of it."""


def _is_near(nominal: Quantity | None, value: Quantity | Absent) -> bool:
    if nominal is None or isinstance(value, Absent):
        return isinstance(value, Absent)
    if nominal.metal or value.metal or nominal.dimension != value.dimension:
        return False
    return abs(value.to(nominal.unit) - nominal.value) <= abs(nominal.value) * _NEAR


def _deviations(
    draft: Draft, line: Understanding, run: Run, piece: Piece | None
) -> None:
    """Log a deviation where the line itself says what the size should be."""
    paired = [(one, wanted_of(line, at)) for at, one in enumerate(run.readings)]
    if len(line.facts.wanted) == 1:
        paired = sorted(paired, key=lambda pair: -_distance(pair[0].value, pair[1]))
    for reading, wanted in paired:
        if isinstance(reading.value, Absent) or wanted is None:
            continue
        if reading.value.to(wanted.unit) == wanted.value:
            continue
        if already := drawn_by_now(draft, reading, wanted, piece):
            draft.remarks.append(already)
            continue
        _deviation(draft, line, reading, wanted, piece)
        if len(line.facts.wanted) == 1:
            return


def _distance(value: Quantity | Absent, wanted: Quantity | None) -> Fraction:
    """Give how far a value is from the wanted one, in millimetres or base units."""
    if wanted is None or isinstance(value, Absent):
        return Fraction(0)
    if value.metal or wanted.metal or value.dimension != wanted.dimension:
        return Fraction(0)
    return abs(value.to(wanted.unit) - wanted.value)


def _furthest_first(draft: Draft, readings: tuple[Reading, ...]) -> list[Reading]:
    """Put the reading furthest from what is drawn of it first."""

    def off(one: Reading) -> Fraction:
        item = draft.snapshot.find(one.what, design.Characteristic)
        return _distance(one.value, item.nominal if item else None)

    return sorted(readings, key=lambda one: -off(one))


def _off_drawing(
    draft: Draft, line: Understanding, run: Run, piece: Piece | None
) -> None:
    """Log a deviation where the limits are not met, or where it is said to be off."""
    part = draft.part(line.facts.part)
    found = off_drawing(draft, part, piece, _furthest_first(draft, run.readings))
    found = found or _of_other_stock(draft, line, part, run)
    if found is not None:
        _deviation(draft, line, *found, piece)
    elif line.facts.off_sense and len(run.readings) == 1:
        _deviation(draft, line, run.readings[0], None, piece)


def _of_other_stock(
    draft: Draft, line: Understanding, part: Part, run: Run
) -> tuple[Reading, Quantity] | None:
    """Give the thickness that is not as drawn, where it is told why it was taken.

    Stock is bought by its name: no limits need be drawn to tell 8 mm plate from 6.
    """
    [reading] = run.readings if len(run.readings) == 1 else (None,)
    if reading is None or line.facts.what != "thickness" or not line.facts.cause:
        return None
    item = draft.snapshot.find(reading.what, design.Characteristic)
    drawn = (item.nominal if item else None) or part.thickness
    return (reading, drawn) if drawn and _distance(reading.value, drawn) else None


def _deviation(
    draft: Draft,
    line: Understanding,
    reading: Reading,
    wanted: Quantity | None,
    piece: Piece | None,
) -> None:
    make_entry(
        draft,
        Deviation,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, line.facts),
        characteristic=reading.what,
        wanted=wanted,
        found=reading.value,
        place=reading.place,
        met_by_others=blame_of(line.facts),
        disposition=disposition_of(line.facts),
        cause=cause_of(line.facts),
        cure=line.facts.cure,
    )
