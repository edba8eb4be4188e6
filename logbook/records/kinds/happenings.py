"""What happened: readings, deviations, failures, decisions and all other entries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record, always, listed
from logbook.records.kinds.words import (
    Blame,
    CauseStatus,
    Disposition,
    OverrideReason,
    Severity,
    State,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photo that an entry shows: path, caption and the revision it shows."""

    path: str
    caption: str = ""
    shows: Ref | None = None
    taken: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry(Record):
    """Something that happened; `about` names what it concerns beside the rest."""

    build: Ref | None = None
    about: tuple[Ref, ...] = ()
    statement: str = ""
    photos: tuple[Photo, ...] = listed("photo")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A value at a place and in a state, or said not to be measured.

    It is `confirmed` where it looked like a slip and was said to be read so.
    """

    id: str
    at: datetime
    what: Ref
    value: Quantity | Absent
    place: str = ""
    state: str = ""
    instrument: Ref | None = None
    room: Quantity | None = None
    after: Quantity | None = None
    note: str = ""
    confirmed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Run(Entry):
    """A measuring run: readings of one piece, in the order they were taken."""

    piece: Ref | None = None
    part: Ref | None = None
    instrument: Ref | None = None
    state: str = ""
    readings: tuple[Reading, ...] = listed("reading")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Why something failed or came out otherwise, and how sure that is."""

    said: str
    status: CauseStatus = always(CauseStatus.SAID)


@dataclass(frozen=True, slots=True, kw_only=True)
class Deviation(Entry):
    """A made part that differs from its drawing."""

    piece: Ref | None = None
    part: Ref | None = None
    characteristic: Ref | None = None
    wanted: Quantity | None = None
    found: Quantity | None = None
    off: Quantity | None = None
    place: str = ""
    disposition: Disposition | None = None
    met_by_others: Blame = always(Blame.UNKNOWN)
    cause: Cause | None = None
    cure: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Under what it happened; a temperature counts only with room and time."""

    temperature: Quantity | None = None
    place: str = ""
    room: Quantity | None = None
    after: Quantity | None = None
    load: str = ""
    humidity: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure(Entry):
    """Something that broke, sagged, cracked or would not go together."""

    piece: Ref | None = None
    part: Ref | None = None
    step: Ref | None = None
    where: str = ""
    symptom: str = ""
    consequence: str = ""
    severity: Severity | None = None
    cause: Cause | None = None
    conditions: Conditions | None = None
    cure: str = ""
    cured_by: Ref | None = None
    disposition: Disposition | None = None
    met_by_others: Blame = always(Blame.UNKNOWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision(Entry):
    """What was decided and why."""

    part: Ref | None = None
    because: str = ""
    instead_of: str = ""
    opens: Ref | None = None
    met_by_others: Blame | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Entry):
    """A plain note."""

    part: Ref | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Status(Entry):
    """What became of a piece or a revision."""

    of: Ref
    state: State
    place: str = ""
    because: str = ""
    after: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Disposal(Entry):
    """What is done with a piece, and which entry that answers.

    `answers_too` are further ones. It `answers_none` where it was done for a reason
    that is on record as no fault; else, where none is named, it decides on all of the
    piece. Where it answers none, `met_by_others` tells whether the reason is its
    drawing's.
    """

    piece: Ref | None = None
    part: Ref | None = None
    disposition: Disposition
    answers: Ref | None = None
    answers_too: tuple[Ref, ...] = ()
    answers_none: bool = False
    because: str = ""
    met_by_others: Blame | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone(Entry):
    """An operation carried out on a build.

    `checked` names what was declared to be checked before it, and was.
    """

    step: Ref | None = None
    part: Ref | None = None
    piece: Ref | None = None
    time: Quantity | None = None
    set_to: tuple[Quantity, ...] = ()
    closes: bool = False
    inside: tuple[str, ...] = ()
    tested: tuple[str, ...] = ()
    clean: tuple[str, ...] = ()
    checked: tuple[str, ...] = ()
    undone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Work(Entry):
    """Time worked on a step or a part of a build, by the clock or as said.

    `began` is when the clock was started; pauses are not in `time`.
    """

    step: Ref | None = None
    part: Ref | None = None
    time: Quantity | None = None
    began: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Override(Entry):
    """A hold that was passed, with the reason; private until published."""

    hold: str
    step: Ref | None = None
    reason: OverrideReason = always(OverrideReason.OTHER)
    because: str = ""
    published: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Count(Entry):
    """Pieces really used, scrapped and left over.

    `revision` is the one they were made to, where that was said.
    """

    part: Ref
    revision: Ref | None = None
    used: int = 0
    scrapped: int = 0
    spare: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Order(Entry):
    """Something ordered or sent out to be made.

    `item` is what, in words, where that is no part or not all of it.
    """

    part: Ref | None = None
    item: str = ""
    revision: Ref | None = None
    quantity: int = 1
    price: Quantity | None = None
    due: date | None = None
    received: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Question(Entry):
    """What a rebuilder asked, and the entry that answers it."""

    part: Ref | None = None
    answered_by: Ref | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn(Entry):
    """Known faults that a rebuilder has taken in for a build."""

    errata: tuple[Ref, ...] = ()
    release: Ref | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Declined(Record):
    """A proposal that is not wanted, so that it is never made again; not published.

    `proposal` is its key, `about` what it would have concerned.
    """

    proposal: str
    about: tuple[Ref, ...] = ()
    because: str = ""
