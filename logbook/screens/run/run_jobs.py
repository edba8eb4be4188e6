"""What a measuring run writes: its readings one by one, and deviations from them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from logbook.project import Project
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build, Instrument
from logbook.records.making.drafts import Draft
from logbook.records.making.off_drawing import deviation_of
from logbook.records.sizes.limits import Drawn
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.run.in_hand import can_read
from logbook.screens.run.slots import Slot, Subject
from logbook.screens.run.typed_reading import Typed
from logbook.screens.run.walk import Taking
from logbook.screens.run.warmth import Warmth


@dataclass(frozen=True, slots=True)
class Manner:
    """How a reading is taken: the piece clamped, cold; with what; in which room."""

    state: str = ""
    instrument: Instrument | None = None
    warmth: Warmth = field(default_factory=Warmth)


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
    now = desk.when()
    room, after = manner.warmth.with_reading(typed.value, now)
    reading = Reading(
        id=new_id(),
        at=now.replace(microsecond=0),
        what=slot.drawn.characteristic.ref if slot.drawn else Ref(slot.what),
        value=typed.value,
        place=slot.place,
        state=manner.state,
        instrument=tool.ref if tool else None,
        room=room,
        after=after,
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
    since = draft.made_to(part, piece.number)
    nominal = drawn.nominal if drawn else None
    item = draft.characteristic(part, slot.what, nominal, since=since)
    if drawn is not None and (drawn.lower or drawn.upper):
        item = draft.amend(
            replace(item, lower_limit=drawn.lower, upper_limit=drawn.upper)
        )
    reading = replace(reading, what=item.ref)
    run = draft.snapshot.by_id(taking.run, Run)
    if run is not None:
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
    now, build = desk.when(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        part = draft.part(subject.part)
        piece = draft.piece(part, subject.number)
        since = draft.made_to(part, piece.number)
        item = draft.characteristic(part, reading.what.name, since=since)
        meant = replace(reading, what=item.ref)
        draft.add(deviation_of(draft, part, piece, meant, blame))
        return draft

    return Job(f"deviation: {subject.title} {reading.what.name}", make)
