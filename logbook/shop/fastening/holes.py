"""Holes for screws as sums: clearance, tapping drills, and the drills themselves."""

from __future__ import annotations

import re

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.drills import (
    clearance,
    clearance_inch,
    drill,
    numbered,
    tapping,
    thread_percent,
)
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum
from logbook.shop.tables import table


def _compute_clearance(given: Given) -> Answer:
    text = given.word("size")
    if text.strip()[:1] in "Mm":
        found = clearance(re.split(r"[x×*]", text.strip())[0])
        return Answer(
            tuple(Result(name, value, "mm", 1) for name, value in found.items()),
            sources=(table("holes", "clearance_metric").cited,),
        )
    names = clearance_inch(text)
    results = [Result(name, value, "", 0, "drill") for name, value in names.items()]
    results += [
        Result(f"{name}_diameter", 25.4 * drill(value), "mm", 2, f"of drill {value}")
        for name, value in names.items()
    ]
    return Answer(tuple(results), sources=(table("holes", "clearance_inch").cited,))


def _compute_tapping(given: Given) -> Answer:
    found = tapping(given.word("thread"))
    return Answer(
        (
            Result("drill", found.name, "", 0, "tapping drill"),
            Result("drill_diameter", found.drill, "mm", 2, "its diameter"),
            Result("nominal_minus_pitch", found.by_rule, "mm", 2, "d − P"),
            Result("percent", found.percent, "%", 0, "depth of thread with this drill"),
        )
    )


def _compute_percent(given: Given) -> Answer:
    diameter, pitch = given.number("diameter"), given.number("pitch")
    if given.number("drill") >= diameter:
        raise BadInput(
            f"drill: found {given.typed('drill')} for a thread of "
            f"{given.typed('diameter')}; accepted: less than the thread's diameter"
        )
    found = thread_percent(diameter, pitch, given.number("drill"))
    warnings: tuple[str, ...] = ()
    if not 50 <= found <= 85:
        warnings = ("Usual is 60 to 80 %: more breaks taps, less strips.",)
    return Answer(
        (Result("percent", found, "%", 0, "depth of thread"),), warnings=warnings
    )


def _compute_drill(given: Given) -> Answer:
    row_name = given.word("name")
    inches = drill(row_name)
    return Answer(
        (
            Result("diameter", 25.4 * inches, "mm", 3, "diameter"),
            Result("diameter_in", inches, "inch", 4, "the same in inches"),
        )
    )


def _compute_numbered(given: Given) -> Answer:
    inches = numbered(given.count("number"))
    root = inches * 2 / 3
    return Answer(
        (
            Result("diameter", 25.4 * inches, "mm", 3, "thread or shank diameter"),
            Result("diameter_in", inches, "inch", 3, "the same in inches"),
            Result(
                "wood_root", 25.4 * root, "mm", 2, "root of a wood screw, about 2/3"
            ),
            Result("lead_soft", 25.4 * 0.7 * root, "mm", 2, "lead hole in softwood"),
            Result("lead_hard", 25.4 * 0.9 * root, "mm", 2, "lead hole in hardwood"),
            Result("wood_root_in", root, "inch", 4, "root in inches"),
            Result("lead_soft_in", 0.7 * root, "inch", 4, "lead hole in inches"),
            Result("lead_hard_in", 0.9 * root, "inch", 4, "lead hole in inches"),
        ),
        assumptions=("lead hole 70 % of the root in softwood, 90 % in hardwood",),
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="clearance-hole",
        also=("clearance", "clearance-holes"),
        title="Clearance hole of a screw",
        inputs=(
            Input("size", "as M4, #8 or 1/4", kind=Kind.TEXT, also=("screw",)),
        ),
        compute=_compute_clearance,
        formula="table value",
        source="ISO 273:1979; ASME B18.2.8",
        how="read",
        example={"size": "M4"},
        relied_on=False,
    ),
    Sum(
        name="tap-drill",
        also=("tapping-drill", "core-hole"),
        title="Drill before tapping",
        inputs=(
            Input("thread", "as M4, M4x0.7, #4-40, 1/4-20", kind=Kind.TEXT,
                  also=("size",)),
        ),
        compute=_compute_tapping,
        formula="ISO 2306 rounds d − P to a stock drill; inch threads by table",
        source="ISO 2306; ASME tap drill tables",
        how="read",
        example={"thread": "M4x0.7"},
    ),
    Sum(
        name="thread-percent",
        also=("percent-thread",),
        title="Depth of thread that a drill leaves",
        inputs=(
            Input("diameter", "thread diameter", "mm", accept=POSITIVE, also=("d",)),
            Input("pitch", "pitch", "mm", accept=POSITIVE),
            Input("drill", "drill or hole", "mm", accept=POSITIVE, also=("hole",)),
        ),
        compute=_compute_percent,
        formula="76.98 × (D − drill) / P percent of a full thread",
        source="ISO 68-1 geometry, h = 0.6495 P",
        how="memory",
        example={"diameter": "3 mm", "pitch": "0.5 mm", "drill": "2.5 mm"},
    ),
    Sum(
        name="drill-size",
        also=("drill", "number-drill"),
        title="Diameter of a number, letter or fraction drill",
        inputs=(Input("name", "as #30, F, 17/64", kind=Kind.TEXT, also=("size",)),),
        compute=_compute_drill,
        formula="table value; fractions are themselves",
        source="ASME B94.11M",
        how="memory",
        example={"name": "#30"},
        relied_on=False,
    ),
    Sum(
        name="numbered-screw",
        also=("screw-number", "wood-screw"),
        title="Diameter of a numbered screw, and lead holes for a wood screw",
        inputs=(Input("number", "its number", kind=Kind.COUNT),),
        compute=_compute_numbered,
        formula="0.060 + 0.013 N inch; root 2/3 of the shank",
        source="ASME B1.1, B18; lead holes: Wood Handbook, from memory",
        how="read",
        example={"number": "8"},
        relied_on=False,
    ),
)  # fmt: skip
