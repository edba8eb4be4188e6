"""What stands in the shop: builds and their pieces, machines, instruments, stock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from logbook.quantity import Quantity
from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record


@dataclass(frozen=True, slots=True, kw_only=True)
class Build(Record):
    """One unit being made. `builder` is whose shop makes it; empty: not on record."""

    builder: str = ""
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
    """A machine or hand process of a shop; `set_anew` is when it was last set.

    Pieces made before that say nothing of what it does now: those of the builder who
    set it (`set_anew_by`), those of all where nobody is named.
    """

    process: str = ""
    bed: tuple[Quantity, ...] = ()
    checked: date | None = None
    set_anew: datetime | None = None
    set_anew_by: str = ""


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
