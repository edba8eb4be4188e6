"""A measuring run without its screen: what is walked through, and what is written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from logbook.advice.advice import Advice
from logbook.errors import BadInput
from logbook.project import Project
from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.assembling import Fit
from logbook.records.definition import Dimension, definition
from logbook.records.design import Part
from logbook.records.expected import Slip, doubt_of, expected_of, must_suit
from logbook.records.happenings import Deviation, Reading, Run
from logbook.records.ids import Ref, new_id
from logbook.records.limits import Drawn
from logbook.records.limits_held import as_held
from logbook.records.making import Draft
from logbook.records.off_drawing import deviation_of
from logbook.records.pieces import pieces_of, readings_of
from logbook.records.places import places_of
from logbook.records.references import is_of
from logbook.records.revisions import made_to
from logbook.records.snapshot import Snapshot
from logbook.records.words import Blame
from logbook.records.workshop import Build, Instrument, Piece
from logbook.screens.desk import Desk
from logbook.screens.news import Job
from logbook.screens.strip import place as place_in
from logbook.screens.typed_reading import Known, Typed


@dataclass(frozen=True, slots=True)
class Slot:
    """A size at a place of a piece, with the limits that hold of it.

    `drawn` is None while the size is new.
    """

    piece: str
    what: str
    place: str = ""
    drawn: Dimension | None = None

    def takes(self, reading: Reading) -> bool:
        """Tell whether a reading belongs here."""
        if reading.place != self.place:
            return False
        if self.drawn is not None:
            return is_of(reading.what, self.drawn.characteristic)
        return reading.what.name.casefold() == self.what.casefold()


@dataclass(frozen=True, slots=True)
class Subject:
    """What is measured: a piece by its part's name and its number, new or known."""

    part: str
    number: int | None = None
    title: str = ""


@dataclass(frozen=True, slots=True)
class Manner:
    """How a reading is taken: the piece clamped, cold, coated; and with what."""

    state: str = ""
    instrument: Instrument | None = None


@dataclass
class Taking:
    """One run being taken on one piece: its readings so far, and what they are of."""

    subject: Subject
    run: str = field(default_factory=new_id)
    readings: list[Reading] = field(default_factory=list)


def known_at(slots: Sequence[Slot], slot: Slot | None, unit: str) -> Known:
    """Give what is known where the run stands, for reading what is typed there."""
    here = [one for one in slots if slot is not None and one.what == slot.what]
    return Known(
        _unit_of(slot, unit),
        frozenset(one.what for one in slots),
        frozenset(one.place for one in here if one.place),
        at_size=slot is not None,
    )


def _unit_of(slot: Slot | None, unit: str) -> str:
    nominal = slot.drawn.nominal if slot is not None and slot.drawn else None
    return nominal.unit if nominal is not None and not nominal.metal else unit


def checked(snapshot: Snapshot, typed: Typed, slot: Slot) -> None:
    """Refuse a value that cannot be of this size.

    Raises:
        BadInput: it measures something else, or is negative where none can be.
    """
    if slot.drawn is not None and typed.value is not None:
        must_suit(typed.value, expected_of(snapshot, slot.drawn))


def slip_at(snapshot: Snapshot, typed: Typed, slot: Slot) -> Slip | None:
    """Give the slip a typed reading looks like, unless it was said to be so."""
    if slot.drawn is None or typed.value is None or typed.confirmed:
        return None
    return doubt_of(snapshot, slot.drawn, typed.value)


# -- what is walked through ------------------------------------------------------


def piece_of(snapshot: Snapshot, subject: Subject) -> Piece | None:
    """Give the piece that is measured, once it is on record."""
    for piece in snapshot.named(subject.title, Piece) if subject.title else ():
        return piece
    return None


def slots_of(snapshot: Snapshot, subject: Subject) -> Iterator[Slot]:
    """Give the sizes of a piece in drawing order, each at each of its places."""
    piece = piece_of(snapshot, subject)
    for part in snapshot.named(subject.part, Part)[:1]:
        revision = made_to(snapshot, part, piece)
        for drawn in definition(snapshot, revision) if revision else ():
            held = as_held(snapshot, drawn)
            for place in places_of(snapshot, drawn.characteristic):
                yield Slot(subject.title, drawn.name, place, held)


def most_doubtful_first(snapshot: Snapshot, slots: Sequence[Slot]) -> list[Slot]:
    """Order sizes by how near earlier pieces came to a limit; no limits come last."""
    return sorted(slots, key=lambda slot: _margin(snapshot, slot))


def _margin(snapshot: Snapshot, slot: Slot) -> Fraction:
    """Give the least distance to a limit on any piece, as a share of the field."""
    drawn, least = slot.drawn, Fraction(10)
    if drawn is None or drawn.lower is None or drawn.upper is None:
        return least
    for run in snapshot.mentions(drawn.characteristic):
        for reading in run.readings if isinstance(run, Run) else ():
            value = reading.value
            if isinstance(value, Absent) or not slot.takes(reading):
                continue
            if value.dimension == drawn.upper.dimension:
                share = place_in(drawn.lower, drawn.upper, value)
                least = min(least, share, 1 - share)
    return least


def earlier(snapshot: Snapshot, slot: Slot) -> Reading | None:
    """Give what this size of this piece read before this run."""
    piece = next(iter(snapshot.named(slot.piece, Piece)), None)
    if piece is None or piece.title.casefold() != slot.piece.casefold():
        return None  # one that was called so formerly is another piece
    if slot.drawn is None:
        return None
    taken = readings_of(snapshot, piece, slot.drawn.characteristic)
    found = [one.reading for one in taken if one.reading.place == slot.place]
    return found[-1] if found else None


def to_suit(
    snapshot: Snapshot, advice: Sequence[Advice], drawn: Dimension
) -> Dimension:
    """Give a size without limits those its gap accepts, and the size to finish it to.

    As it was where no gap is made to fit by it, or none can say yet.
    """
    if drawn.lower is not None or drawn.upper is not None:
        return drawn
    gaps = {
        f"gap {fit.id}"
        for fit in snapshot.mentions(drawn.characteristic, Fit)
        if snapshot.find(fit.made_last) is drawn.characteristic
    }
    for one in advice:
        numbers = {number.name: number.shown for number in one.numbers}
        if one.key in gaps and {"finish", "accept_low", "accept_high"} <= set(numbers):
            return replace(
                drawn,
                nominal=parse_quantity(numbers["finish"]),
                lower=parse_quantity(numbers["accept_low"]),
                upper=parse_quantity(numbers["accept_high"]),
                to_suit=True,
            )
    return drawn


def had_words(snapshot: Snapshot, slot: Slot) -> str:
    """Say what this size read on the newest other piece of its part, and of which.

    Empty where none was read; another build's reading is no earlier one of this piece.
    """
    if slot.drawn is None:
        return ""
    part = snapshot.find(slot.drawn.characteristic.part, Part)
    for piece in reversed(pieces_of(snapshot, part) if part else ()):
        if piece.title.casefold() == slot.piece.casefold():
            continue
        taken = readings_of(snapshot, piece, slot.drawn.characteristic)
        found = [one.reading for one in taken if one.reading.place == slot.place]
        if found:
            of = f" ({piece.build.name})" if piece.build else ""
            return f"; {piece.title}{of} had {found[-1].value}"
    return ""


# -- what is measured with -------------------------------------------------------


def used_last(snapshot: Snapshot) -> Instrument | None:
    """Give the instrument that the newest run with one names."""
    for run in reversed(snapshot.all(Run)):
        named = [one.instrument for one in run.readings[::-1] if one.instrument]
        for ref in (*named, run.instrument):
            if found := snapshot.find(ref, Instrument):
                return found
    return None


def can_read(instrument: Instrument, value: Quantity | Absent) -> bool:
    """Tell whether a value is of the kind an instrument measures."""
    known = (instrument.uncertainty, instrument.resolution, *instrument.range)
    kinds = {one.dimension for one in known if one is not None}
    return isinstance(value, Quantity) and (not kinds or value.dimension in kinds)


# -- what is written -------------------------------------------------------------


def reading_job(
    desk: Desk,
    taking: Taking,
    typed: Typed,
    slot: Slot,
    manner: Manner,
    text: str,
) -> tuple[Reading, Job]:
    """Make the reading that was typed, and the work that puts it on disk."""
    assert typed.value is not None
    tool = manner.instrument
    if tool is not None and not can_read(tool, typed.value):
        tool = None
    now = desk.now()
    reading = Reading(
        id=new_id(),
        at=now.replace(microsecond=0),
        what=slot.drawn.characteristic.ref if slot.drawn else Ref(slot.what),
        value=typed.value,
        place=slot.place,
        state=manner.state,
        instrument=tool.ref if tool else None,
        note=typed.note,
        confirmed=typed.confirmed,
    )
    build = desk.build

    def make(project: Project) -> Draft:
        return _with(project.draft(now), taking, reading, slot, typed.drawn, build)

    subject = f"measured {taking.subject.title}: {slot.what} {typed.value}"
    return reading, Job(subject, make, typed=text)


def _with(
    draft: Draft,
    taking: Taking,
    reading: Reading,
    slot: Slot,
    drawn: Drawn | None,
    build: Build | None = None,
) -> Draft:
    if build is not None:
        draft = Draft(draft.snapshot, draft.now, build)
    part = draft.part(taking.subject.part)
    piece = draft.piece(part, taking.subject.number)
    item = draft.characteristic(part, slot.what, drawn.nominal if drawn else None)
    if drawn is not None and (drawn.lower or drawn.upper):
        item = draft.amend(
            replace(item, lower_limit=drawn.lower, upper_limit=drawn.upper)
        )
    reading = replace(reading, what=item.ref)
    stored = draft.snapshot.stored.get(taking.run)
    if stored is not None and isinstance(stored.record, Run):
        run = stored.record
        draft.amend(replace(run, readings=(*run.readings, reading)))
        return draft
    draft.add(
        Run(
            id=taking.run,
            title=f"measured {piece.title}",
            when=draft.when,
            build=draft.build().ref,
            piece=piece.ref,
            readings=(reading,),
        )
    )
    return draft


def deviation_job(desk: Desk, subject: Subject, reading: Reading, blame: Blame) -> Job:
    """Make the work that logs a reading off its drawing as a deviation."""
    now, build = desk.now(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        part = draft.part(subject.part)
        piece = draft.piece(part, subject.number)
        item = draft.characteristic(part, reading.what.name)
        meant = replace(reading, what=item.ref)
        draft.add(deviation_of(draft, part, piece, meant, blame))
        return draft

    return Job(f"deviation: {subject.title} {reading.what.name}", make)


def deviation_on(
    snapshot: Snapshot, subject: Subject, reading: Reading
) -> Deviation | None:
    """Give the deviation that was logged from just this reading, if one was."""
    piece = piece_of(snapshot, subject)
    for one in reversed(snapshot.all(Deviation)):
        if (
            piece is not None
            and one.piece is not None
            and one.characteristic is not None
            and one.piece.id == piece.id
            and one.characteristic.name.casefold() == reading.what.name.casefold()
            and (one.place, one.found) == (reading.place, reading.value)
            and (reading.at is None or one.when >= reading.at)
        ):
            return one
    return None


def live_value(text: str, slot: Slot | None, unit: str) -> Quantity | None:
    """Give the number being typed, as far as it is one already."""
    words = text.split()
    for at in range(len(words)):
        try:
            return parse_quantity(" ".join(words[at:]), _unit_of(slot, unit))
        except BadInput:
            continue
    return None
