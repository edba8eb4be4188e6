"""What a process usually does to a size, before the shop has figures of its own.

A process is named as a bench calls it; the defaults come from the table of processes.
Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from logbook.errors import BadInput
from logbook.records.kinds.ids import Ref
from logbook.records.together.whose_shop import same_builder
from logbook.shop.making.process import process_rows
from logbook.shop.tables import Row

_PROCESSES = (
    ("laser", "laser cutting, thin sheet", "size"),
    ("line bend", "line bending of acrylic", "bend position"),
    ("fold", "hand folding", "bend line position"),
    ("bend", "hand folding", "bend line position"),
    ("brak", "hand folding", "bend line position"),
    ("saw", "hacksaw and file", "length"),
    ("fil", "hacksaw and file", "length"),
    ("cut", "hacksaw and file", "length"),
    ("pillar", "pillar drilling", "hole position"),
    ("drill", "hand drilling", "hole position"),
    ("resin", "resin printing", "size"),
    ("print", "filament printing", "outside size"),
)


@dataclass(frozen=True, slots=True)
class Usual:
    """What a process usually does to a size: its published default, or a guess."""

    process: str
    offset: float
    scatter: float
    source: str

    @property
    def sd(self) -> float:
        """Standard deviation; the scatter is ± about 95 %."""
        return self.scatter / 2


@lru_cache(maxsize=1024)
def usual(word: str) -> Usual | None:
    """Give the default of a process as a bench calls it, None where none is known."""
    plain = word.lower()
    wanted = next(((p, f) for key, p, f in _PROCESSES if key in plain), (word, ""))
    try:
        row = process_rows(*wanted)[0]
    except BadInput:
        return None
    if row.text("unit") != "mm":
        return None
    return _usual(row)


def _usual(row: Row) -> Usual:
    high, feature = row.number("scatter_high"), row.text("feature")
    return Usual(f"{row.label}, {feature}", row.number("offset"), high, row.source)


class FigureKey(NamedTuple):
    """Of what a figure is: a process, on a machine (its id), in one builder's shop.

    No machine: of all of them. No builder: of the builds that name none.
    """

    process: str
    machine: str = ""
    builder: str = ""

    @property
    def of_all_machines(self) -> FigureKey:
        """Give the key of the same process and shop, whatever machine it is on."""
        return self._replace(machine="")

    def __str__(self) -> str:
        """Give it as one text: as advice is called by, and notes that it looked."""
        return "|".join(self).rstrip("|")


def figure_key(process: str, machine: Ref | None, builder: str = "") -> FigureKey:
    """Give the key of the figures of a process on a machine, in a builder's shop."""
    found = usual(process)
    return FigureKey(
        found.process if found else process.lower(),
        machine.id if machine else "",
        same_builder(builder),
    )


@lru_cache(maxsize=1024)
def usual_of(process: str) -> Usual | None:
    """Give the default that a process and feature name, as a figure is called."""
    name, _, feature = process.rpartition(", ")
    try:
        row = process_rows(name or process, feature if name else "")[0]
    except BadInput:
        return None
    return _usual(row) if row.text("unit") == "mm" else None
