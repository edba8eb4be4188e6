"""Drills by name, and the holes of screws: clearance and tapping."""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.fastening.screws import size_name
from logbook.shop.tables import table

FULL_THREAD = 0.6495
"""Height of a full thread over the pitch (ISO 68-1)."""


def drill(name: str) -> float:
    """Give the diameter in inches of a number, letter or fraction drill.

    Raises:
        BadInput: no such drill.
    """
    text = re.sub(
        r"^(?:NO\.?|NUMBER|LETTER|DRILL)\s+|\s+DRILL$", "", name.strip().upper()
    )
    if re.fullmatch(r"[0-9]+/[0-9]+(\s*IN|\")?", text):
        return float(parse_quantity(text.removesuffix("IN"), "in").to("in"))
    if text.isdigit():
        text = f"#{text}"
    drills = table("holes", "drills")
    if text not in drills.names():
        raise BadInput(
            f"“{name.strip()[:20]}” is no drill in the table; accepted: #1 to #60, "
            "A to Z, or a fraction of an inch such as 17/64"
        )
    return drills.named(text).number("inch")


def numbered(number: int) -> float:
    """Give the diameter in inches of a numbered machine or wood screw.

    Raises:
        BadInput: a number below 0 or above 24.
    """
    if not 0 <= number <= 24:
        raise BadInput(f"found screw no. {number}; accepted: 0 to 24")
    return (60 + 13 * number) / 1000


def clearance(size: str) -> dict[str, float]:
    """Give the clearance holes of a metric screw in mm: fine, medium, coarse.

    Raises:
        BadInput: the size is not in the table.
    """
    row = table("holes", "clearance_metric").named(size_name(size))
    return {name: row.number(name) for name in ("fine", "medium", "coarse")}


def inch_size(text: str) -> str:
    """Give an inch screw or thread size as its tables spell it: #8, 1/4, #10-32.

    `No. 8`, `8`, `1/4 in` and a thread series behind it (UNC, UNF) are understood.
    """
    plain = re.sub(
        r"\s*(?:UNC|UNF|UNEF|UN)(?:-\d[AB])?$", "", text.strip(), flags=re.IGNORECASE
    )
    plain = re.sub(r"^(?:no\.?|number)\s*(?=\d)", "#", plain, flags=re.IGNORECASE)
    plain = re.sub(r"\s*(?:in\b\.?|inch|\"|″)", "", plain)
    plain = re.sub(r"\s*-\s*|\s*(?:x|×)\s*(?=\d)", "-", plain)
    return re.sub(r"^(?=\d+(?:-|$))", "#", plain)


def clearance_inch(size: str) -> dict[str, str]:
    """Give the clearance drills of an inch screw by name: close, normal, loose.

    Raises:
        BadInput: the size is not in the table.
    """
    row = table("holes", "clearance_inch").named(inch_size(size))
    return {name: row.text(name) for name in ("close", "normal", "loose")}


@dataclass(frozen=True, slots=True)
class Tapping:
    """A tapping drill: what ISO 2306 or the inch tables say, and d − P; mm."""

    drill: float
    name: str
    diameter: float
    pitch: float

    @property
    def by_rule(self) -> float:
        """Diameter less pitch."""
        return round(self.diameter - self.pitch, 9)

    @property
    def percent(self) -> float:
        """Depth of thread with this drill, in percent of a full one."""
        return thread_percent(self.diameter, self.pitch, self.drill)


def thread_percent(diameter: float, pitch: float, hole: float) -> float:
    """Give the depth of thread in percent: 76.98 (D − hole) / P."""
    return 100 * (diameter - hole) / (2 * FULL_THREAD * pitch)


def tapping(thread: str) -> Tapping:
    """Give the tapping drill of M4, M4x0.7, #4-40 or 1/4-20.

    Raises:
        BadInput: the thread is not in the tables.
    """
    if thread.strip()[:1] in "Mm":
        return _metric_tapping(thread)
    row = table("holes", "tap_inch").named(inch_size(thread))
    name = row.text("drill")
    size, _, per_inch = row.label.rpartition("-")
    diameter = numbered(int(size[1:])) if size[0] == "#" else drill(size)
    return Tapping(drill(name) * 25.4, name, diameter * 25.4, 25.4 / float(per_inch))


def _metric_tapping(thread: str) -> Tapping:
    size, _, pitch = re.sub(r"[×*X]", "x", thread).partition("x")
    pitch = re.sub(r"\s*-?\s*[4-8][GH]\s*$", "", pitch, flags=re.IGNORECASE).strip()
    diameter = float(size_name(size)[1:])
    try:
        row = table("holes", "tap_metric").named(size_name(size))
    except BadInput:
        return _by_rule(size_name(size), diameter, pitch)
    coarse = row.number("pitch")
    if pitch and abs(float(parse_quantity(pitch, "mm").to("mm")) - coarse) > 1e-9:
        return _by_rule(size_name(size), diameter, pitch)
    hole = row.number("drill")
    return Tapping(hole, f"{hole:g} mm", diameter, coarse)


def _by_rule(size: str, diameter: float, pitch: str) -> Tapping:
    """Give diameter less pitch, where no table has the thread.

    Without a pitch the coarse one of ISO 261 is taken.
    """
    if pitch:
        step = float(parse_quantity(pitch, "mm").to("mm"))
    else:
        step = table("fasteners", "pitch").named(size).number("pitch")
    if not 0 < step < diameter:
        raise BadInput(f"found a pitch of {step:g} mm; accepted: below {diameter:g}")
    hole = round(diameter - step, 9)
    return Tapping(hole, f"{hole:g} mm, by d − P", diameter, step)
