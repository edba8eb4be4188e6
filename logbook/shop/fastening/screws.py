"""Screws, nuts and washers as bought: their sizes and limits, in mm.

Which nut or washer is in the drawer is a question, not a guess: nuts of one
thread differ by more than a pitch from standard to standard.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.tables import Row, table

NUTS = {
    "iso4032": "iso4032", "hexagon": "iso4032", "plain": "iso4032",
    "din934": "din934", "iso4035": "iso4035", "thin": "iso4035", "jam": "iso4035",
    "iso7040": "iso7040", "self-locking": "iso7040", "locknut": "iso7040",
    "lock nut": "iso7040", "hex": "iso4032", "hex nut": "iso4032",
    "thin locknut": "din985", "nylon insert": "iso7040",
    "iso10511": "iso10511", "din985": "din985", "thin self-locking": "din985",
}  # fmt: skip
"""Names of nuts, and the standard that each is taken for."""
RINGED = ("iso7040", "iso10511", "din985")
WASHERS = ("iso7089", "iso7093")
SERIES = (
    "iso4762", "iso7045", "iso14583", "iso7380", "iso10642", "iso7046", "iso4017",
)  # fmt: skip
COUNTERSUNK = ("iso10642", "iso7046")
LEAST_PITCHES = 1
MOST_PITCHES = 3
"""A screw stands one to three pitches through (FAA AC 43.13-1B 7-37; practice)."""


@dataclass(frozen=True, slots=True)
class Screw:
    """A metric screw of coarse pitch; the length of a countersunk one has its head.

    `low` and `high` are the limits of its length.
    """

    size: str
    pitch: float
    length: float
    low: float
    high: float

    @property
    def diameter(self) -> float:
        """Nominal thread diameter."""
        return float(self.size[1:])

    def __str__(self) -> str:
        """Give its name: M4×16."""
        return f"{self.size}×{self.length:g}"


@dataclass(frozen=True, slots=True)
class Nut:
    """A nut: limits of its height, and where a locking ring begins.

    `metal` is the least height of threaded metal; the ring of a self-locking nut
    lies between it and the top.
    """

    title: str
    high: float
    low: float
    metal: float
    ringed: bool
    source: str


@dataclass(frozen=True, slots=True)
class Washer:
    """A washer: its thickness and diameters with their limits."""

    title: str
    thick: float
    low: float
    high: float
    hole_high: float
    outside_low: float
    source: str


def size_name(text: str) -> str:
    """Give a metric thread size as its tables spell it: M4, M2.5.

    A coarse pitch may stand behind it, as M4x0.7.

    Raises:
        BadInput: the text is no metric size, or its pitch is not the coarse one.
    """
    size, cross, pitch = re.sub(r"\s*[×*X]\s*", "x", text).partition("x")
    if cross and re.fullmatch(r"\s*[Mm][0-9.,]+", size):
        _coarse_only(text, size, pitch)
        text = size
    found = re.fullmatch(r"\s*[Mm]?\s*([0-9]+(?:[.,][0-9]+)?)\s*(?:mm)?\s*", text)
    if not found:
        raise BadInput(
            f"“{text.strip()[:20]}” is no metric thread; accepted: M3, M4, M2.5 …"
        )
    return f"M{float(found[1].replace(',', '.')):g}"


def length_limits(length: float, grade: str = "A") -> tuple[float, float]:
    """Give the limits of a screw's length (ISO 4759-1): js15, from 150 mm on js17.

    Grade B has js17 throughout.

    Raises:
        BadInput: a length outside the table.
    """
    row = table("fasteners", "length_tolerance").band(length, "mm", "screw length")
    fine = grade == "A" and length <= 150
    half = row.number("js15" if fine else "js17")
    return length - half, length + half


@lru_cache(maxsize=4096)
def screw(size: str, length: float, grade: str = "A") -> Screw:
    """Give a screw by size and nominal length.

    Raises:
        BadInput: no such coarse thread, or a length outside the table.
    """
    name = size_name(size)
    pitch = table("fasteners", "pitch").named(name).number("pitch")
    return Screw(name, pitch, length, *length_limits(length, grade))


def is_screw(text: str) -> bool:
    """Tell whether this is a screw whose length can be reckoned with."""
    try:
        read_screw(text)
    except BadInput:
        return False
    return True


def read_screw(text: str, grade: str = "A") -> Screw:
    """Read a screw as M4x16 or M4 × 5/8 in.

    Raises:
        BadInput: the text is no screw.
    """
    size, cross, length = re.sub(r"\s*[×*Xx]\s*", "x", text.strip()).partition("x")
    pitch, second, behind = length.partition("x")
    if second:
        _coarse_only(text, size, pitch)
        length = behind
    if not cross:
        raise BadInput(f"“{text[:30]}” is no screw; accepted: size x length, as M4x16")
    return screw(size, float(parse_quantity(length, "mm").to("mm")), grade)


def _coarse_only(text: str, size: str, pitch: str) -> None:
    """Refuse a thread of another pitch than the coarse one, which the tables have."""
    name = size_name(size)
    coarse = table("fasteners", "pitch").named(name).number("pitch")
    if abs(float(parse_quantity(pitch, "mm").to("mm")) - coarse) > 1e-9:
        raise BadInput(
            f"“{text[:30]}” has no coarse thread; accepted: {name}x{coarse:g}, which "
            "the tables know"
        )


@lru_cache(maxsize=4096)
def nut(size: str, name: str) -> Nut:
    """Give a nut by size and standard, or by what it is called.

    Raises:
        BadInput: an unknown nut, or a size its table does not have.
    """
    wanted = re.sub(r"\s+m[0-9.]+$", "", name.strip().lower())
    wanted = re.sub(r"^(iso|din)[\s-]+", r"\1", wanted)
    if wanted not in NUTS:
        raise BadInput(f"“{name[:30]}” is no nut here; accepted: {', '.join(NUTS)}")
    held = table("fasteners", f"nut_{NUTS[wanted]}")
    row = held.named(size_name(size))
    return Nut(
        held.title,
        row.number("high"),
        row.number("low"),
        row.number("metal"),
        NUTS[wanted] in RINGED,
        held.cited,
    )


def washer(size: str, standard: str) -> Washer:
    """Give a washer by screw size and standard.

    Raises:
        BadInput: an unknown standard, or a size its table does not have.
    """
    wanted = standard.strip().lower().replace(" ", "").replace("-1", "")
    if wanted not in WASHERS:
        raise BadInput(
            f"“{standard[:30]}” is no washer here; accepted: {', '.join(WASHERS)}"
        )
    held = table("fasteners", f"washer_{wanted}")
    row = held.named(size_name(size))
    return Washer(
        held.title,
        row.number("thick"),
        row.number("thick_low"),
        row.number("thick_high"),
        row.number("hole_high"),
        row.number("outside_low"),
        held.cited,
    )


def lengths(series: str) -> list[float]:
    """Give the standard lengths of a screw series.

    Raises:
        BadInput: an unknown series.
    """
    wanted = series.strip().lower().replace(" ", "").replace("-1", "")
    return table("fasteners", "length_series").named(wanted).numbers("lengths")


def next_lengths(length: float, series: str) -> tuple[float | None, float | None]:
    """Give the next standard length below and above; None where there is none."""
    shorter = [one for one in lengths(series) if one < length - 1e-9]
    longer = [one for one in lengths(series) if one > length + 1e-9]
    return (max(shorter) if shorter else None, min(longer) if longer else None)


def shortest_from(length: float, series: str) -> float:
    """Give the shortest standard length that is not below `length`.

    Raises:
        BadInput: the series has none so long.
    """
    for one in lengths(series):
        if one >= length - 1e-9:
            return one
    raise BadInput(
        f"{series} has no screw of {length:g} mm or more; accepted: up to "
        f"{lengths(series)[-1]:g} mm"
    )


def head(standard: str, size: str) -> Row:
    """Give the head of a screw: diameters and height, as its table has them.

    Raises:
        BadInput: an unknown standard or size.
    """
    same = {
        "iso14583": "iso7045", "iso2009": "iso7046", "iso14581": "iso7046",
        "din912": "iso4762",
    }  # fmt: skip
    called = {"socketheadcap": "iso4762", "socketcap": "iso4762",
              "buttonhead": "iso7380", "button": "iso7380"}  # fmt: skip
    wanted = standard.strip().lower().replace(" ", "").removesuffix("-1")
    wanted = called.get(wanted.removesuffix("screw"), wanted)
    wanted = same.get(wanted, wanted)
    known = ("iso4762", "iso7380", "iso10642", "iso7046", "iso7045", "iso1580")
    if wanted not in known:
        raise BadInput(
            f"“{standard[:30]}” has no head table here; "
            f"accepted: {', '.join((*known, *same))}"
        )
    return table("fasteners", f"head_{wanted}").named(size_name(size))
