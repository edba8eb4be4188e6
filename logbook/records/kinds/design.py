"""What the design consists of: the project, parts, revisions, characteristics."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.quantity import Quantity
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record, always, fitted, listed
from logbook.records.kinds.words import Source, Trim
from logbook.units import is_length


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

    format: int = always(1, "the number of a format, 1", lambda n: n >= 1)
    unit: str = always("mm", "mm or in", is_length)
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
    formats, so that a checkout with other line ends is still recognised. `unit` is
    what its numbers are in, told where the file itself names none.
    """

    path: str
    sha256: str
    text_sha256: str = ""
    unit: str = fitted(
        "",
        "a unit of length, such as mm, m or in",
        lambda word: not word or is_length(word),
    )


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
    """A definition of a part, and the verdict for those who hold an earlier one.

    `compensated` says what its files allow for already, kerf, shrinkage, tight holes;
    `nominal` where for nothing, and empty where nobody has said. `joins` are others
    that were opened beside the one it follows, and whose changes it has too.
    """

    part: Ref
    label: str
    follows: Ref | None = None
    joins: tuple[Ref, ...] = ()
    changed: str = ""
    why: str = ""
    because: tuple[Ref, ...] = ()
    remake: str = ""
    mates_with: tuple[str, ...] = ()
    interchanges: bool | None = None
    compensated: str = ""
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
