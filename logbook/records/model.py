"""What the logbook records, as frozen dataclasses; one class for each kind.

Field names are the keys in the file. Facts only: whatever can be worked out
from other records (the state of a piece, whether a revision was tried) is not
stored but computed. `kinds.py` says which class belongs to which kind.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Any

from logbook.quantity import Absent, Quantity
from logbook.records.ids import Ref
from logbook.records.words import (
    Blame,
    CauseStatus,
    Disposition,
    ErratumStatus,
    Grade,
    OverrideReason,
    Severity,
    Source,
    State,
    Trim,
    WayRound,
)

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def always(default: Any) -> Any:
    """Declare a fact that is written even where it has its default."""
    return field(default=default, metadata={"always": True})


def listed(key: str) -> Any:
    """Declare a list of tables that stands in the file as `[[key]]`."""
    return field(default=(), metadata={"key": key})


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has. `when` is the instant it is about, with offset.

    `extra` holds what the file says beyond the known keys, so that a rewrite
    keeps it.
    """

    id: str
    title: str
    when: datetime = EPOCH
    formerly: tuple[str, ...] = ()
    prose: str = ""
    extra: Mapping[str, Any] = field(default_factory=dict)

    @property
    def ref(self) -> Ref:
        """Give the reference other records use for this one."""
        return Ref(self.title, self.id)


# -- what the design consists of -------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """The range of rooms the finished thing stands in."""

    coldest: Quantity | None = None
    hottest: Quantity | None = None
    driest: Quantity | None = None
    dampest: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Project(Record):
    """The design as a whole; `unit` is meant where a line names none."""

    format: int = always(1)
    unit: str = always("mm")
    tolerance: str = "none stated"
    climate: Climate | None = None
    target_chance: Quantity | None = None
    licence: str = ""
    published_at: str = ""
    intended_use: str = ""
    not_parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Remake:
    """What making a piece again would cost."""

    time: Quantity | None = None
    money: Quantity | None = None
    stock_left: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Part(Record):
    """A thing made or bought. `name` is what formulas call it."""

    name: str = ""
    source: Source = Source.MADE
    process: tuple[str, ...] = ()
    material: str = ""
    stock: Ref | None = None
    thickness: Quantity | None = None
    wears: bool = False
    assembly: bool = False
    remake: Remake | None = None
    aliases: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignFile:
    """A file of the design, known by its content (SHA-256 of the bytes).

    `text_sha256` is that of the same content with LF line ends, for text
    formats, so that a checkout with other line ends is still recognised.
    """

    path: str
    sha256: str
    text_sha256: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A characteristic that a revision changes; absent limits stay as they were.

    `to_suit` takes size and limits away: from then on it is made to suit a gap.
    """

    characteristic: Ref
    was: Quantity | None = None
    becomes: Quantity | None = None
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    withdrawn: bool = False
    to_suit: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision(Record):
    """A definition of a part, and the verdict for those who hold an earlier one."""

    part: Ref
    label: str
    follows: Ref | None = None
    changed: str = ""
    why: str = ""
    because: tuple[Ref, ...] = ()
    remake: str = ""
    mates_with: tuple[str, ...] = ()
    interchanges: bool | None = None
    material: str = ""
    changes: tuple[Change, ...] = listed("change")
    files: tuple[DesignFile, ...] = listed("file")


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """Operations that make a dimension: how many of one process count in it."""

    process: str
    count: int = 1
    machine: Ref | None = None
    shared: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Characteristic(Record):
    """Something measurable of a part, from the revision that brought it in on.

    Without limits the drawing gives none; `limits_from` names a general
    tolerance only where the drawing invokes it. `name` is what formulas use.
    """

    part: Ref
    since: Ref | None = None
    name: str = ""
    nominal: Quantity | None = None
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    limits_from: str = ""
    critical: bool = False
    suits: str = ""
    places: tuple[str, ...] = ()
    trim: Trim | None = None
    drawn_in: str = ""
    made_by: tuple[Feature, ...] = listed("feature")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(Record):
    """A line of the parts list: so many of a part in an assembly, at places."""

    part: Ref
    assembly: Ref | None = None
    quantity: int = 1
    spare: int = 0
    places: tuple[str, ...] = ()
    bought_as: str = ""
    price: Quantity | None = None
    critical: str = ""
    substitutes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a joint, from the head to the nut.

    `hole` is the width of its hole and `slot` the length where it is one. Of a
    board, `fixed` says that its hole stays round and holds it, `from_fixed` how
    far across the grain the others are from there.
    """

    part: Ref
    thickness: Quantity | None = None
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    role: str = "stock"
    standard: str = ""
    edge_distance: Quantity | None = None
    hole: Quantity | None = None
    head_in: bool = False
    slot: Quantity | None = None
    fixed: bool = False
    from_fixed: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(Record):
    """Layers and the fastener through them.

    `torque` is as tightened, `torque_with` the tool, `torque_result` what came of
    it; `tap_drill` is the drill before the tap, where a layer is tapped.
    """

    fastener: str
    head: str = ""
    nut: str = ""
    nut_height: Quantity | None = None
    thread_depth: Quantity | None = None
    room_behind: Quantity | None = None
    torque: Quantity | None = None
    torque_with: str = ""
    torque_result: str = ""
    preload: Quantity | None = None
    tap_drill: Quantity | None = None
    step: Ref | None = None
    quantity: int = 1
    layers: tuple[Layer, ...] = listed("layer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit(Record):
    """A closing dimension over characteristics, with limits; a gap on screen.

    `formula` uses `part.name` and `part@place.name`; `made_last` is the
    characteristic that is made to suit.
    """

    formula: str
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    made_last: Ref | None = None
    one_instrument: bool = False
    setup_error: Quantity | None = None
    coating: Quantity | None = None
    coated_faces: int = 0
    step: Ref | None = None
    chance: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step(Record):
    """An operation of the order of work; it closes when it cannot be undone.

    A step that hides something closes too. `set_to` holds what is set for it, each
    with its name: “drill 3.3 mm”.
    """

    number: int = 0
    makes: Ref | None = None
    uses: tuple[Ref, ...] = ()
    after: tuple[Ref, ...] = ()
    closes: bool = False
    inside: tuple[str, ...] = ()
    tested: tuple[str, ...] = ()
    clean: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    substitutes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    process: tuple[str, ...] = ()
    set_to: tuple[str, ...] = ()
    time: Quantity | None = None
    accept: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Record):
    """A declared reason not to do a step yet."""

    step: Ref
    grade: Grade = always(Grade.WAIT)
    until: str = ""
    because: str = ""


# -- what stands in the shop -----------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Build(Record):
    """One unit being made."""

    purpose: str = ""
    release: Ref | None = None
    units: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece(Record):
    """One made instance of a revision."""

    part: Ref
    revision: Ref | None = None
    build: Ref | None = None
    number: int = 1
    place: str = ""
    machine: Ref | None = None
    stock: Ref | None = None
    file: DesignFile | None = None
    settings: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine(Record):
    """A machine or hand process of this shop."""

    process: str = ""
    bed: tuple[Quantity, ...] = ()
    checked: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument(Record):
    """What readings are taken with. `uncertainty` is expanded, k = 2."""

    range: tuple[Quantity, ...] = ()
    resolution: Quantity | None = None
    uncertainty: Quantity | None = None
    scale_error: Quantity | None = None
    checked: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock(Record):
    """Material as bought: the size it was sold by and the size it has."""

    material: str = ""
    bought_as: Quantity | None = None
    measured: Quantity | None = None
    size: tuple[Quantity, ...] = ()
    pieces: int = 1
    price: Quantity | None = None
    lot: str = ""
    grain: str = ""


# -- what happened ---------------------------------------------------------------


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
    """A value at a place and in a state, or said not to be measured."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Run(Entry):
    """A measuring run: readings of one piece, in the order they were taken."""

    piece: Ref | None = None
    part: Ref | None = None
    instrument: Ref | None = None
    state: str = ""
    readings: tuple[Reading, ...] = listed("reading")


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
    cure: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Why something failed, and how sure that is."""

    said: str
    status: CauseStatus = always(CauseStatus.GUESSED)


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
    """What is done with a piece, and which entry that answers."""

    piece: Ref | None = None
    part: Ref | None = None
    disposition: Disposition
    answers: Ref | None = None
    because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone(Entry):
    """An operation carried out on a build."""

    step: Ref | None = None
    part: Ref | None = None
    piece: Ref | None = None
    time: Quantity | None = None
    set_to: tuple[Quantity, ...] = ()
    closes: bool = False
    inside: tuple[str, ...] = ()
    tested: tuple[str, ...] = ()
    clean: tuple[str, ...] = ()
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
    """Pieces really used, scrapped and left over."""

    part: Ref
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


# -- what was published ----------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """Something a release says: a list line, step, file, gap, caution, dimension."""

    id: str
    of: Ref
    says: str
    sha256: str
    form: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Release(Record):
    """A tagged set of revisions that was published, frozen with its statements."""

    label: str
    tag: str = ""
    commit: str = ""
    revisions: tuple[Ref, ...] = ()
    tried_by: tuple[Ref, ...] = ()
    summary: str = ""
    statements: tuple[Statement, ...] = listed("statement")
    files: tuple[DesignFile, ...] = listed("file")


@dataclass(frozen=True, slots=True, kw_only=True)
class Erratum(Record):
    """A published statement that is wrong or incomplete; a known fault on screen."""

    part: Ref | None = None
    revisions: tuple[Ref, ...] = ()
    statements: tuple[str, ...] = ()
    releases: tuple[str, ...] = ()
    from_entries: tuple[Ref, ...] = ()
    severity: Severity = always(Severity.UNKNOWN)
    how_to_tell: str = ""
    symptom: str = ""
    consequence: str = ""
    way_round: WayRound = always(WayRound.UNKNOWN)
    do_this: str = ""
    side_effects: str = ""
    stop_using_until: str = ""
    fixed_by: Ref | None = None
    status: ErratumStatus = always(ErratumStatus.REPORTED)
    published: date | None = None
