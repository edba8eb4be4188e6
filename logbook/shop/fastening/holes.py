"""Holes for screws: clearance, tapping drills, sinks, and the drills themselves."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.screws import WASHERS, head, size_name, washer
from logbook.shop.given import POSITIVE, Given, Input, Kind, between
from logbook.shop.sums import Sum
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


def sink_depth(sink: float, hole: float, included: float = 90.0) -> float:
    """Give the depth of a sink of this diameter over a hole, in its own unit."""
    return (sink - hole) / 2 / math.tan(math.radians(included) / 2)


@dataclass(frozen=True, slots=True)
class Sink:
    """A 90° sink for a countersunk head; mm.

    The sink is opened to the theoretical diameter; the head then sits below
    the face by `sunk_low` to `sunk_high`. `left` is the sheet under the sink.
    """

    diameter: float
    hole: float
    depth: float
    sunk_low: float
    sunk_high: float
    left: float | None

    @property
    def breaks_through(self) -> bool:
        """Whether the sheet is no thicker than the sink is deep."""
        return self.left is not None and self.left <= 0


def sink(
    size: str, standard: str, hole: float, sheet: float | None, diameter: float | None
) -> Sink:
    """Work out the sink of a countersunk screw.

    Raises:
        BadInput: no countersunk head of this standard and size.
    """
    row = head(standard, size)
    if "dk_theoretical" not in row.cells:
        raise BadInput(
            f"{standard} is not countersunk; accepted: iso7046, iso2009, iso10642"
        )
    wide = row.number("dk_theoretical") if diameter is None else diameter
    depth = round(sink_depth(wide, hole), 9)
    largest = float(row.cells.get("dk") or row.number("dk_theoretical"))
    smallest = row.number("dk_min")
    return Sink(
        wide,
        hole,
        depth,
        round((wide - largest) / 2, 9),
        round((wide - smallest) / 2, 9),
        None if sheet is None else round(sheet - depth, 9),
    )


def washer_cover(size: str, standard: str, hole: float) -> tuple[float, float]:
    """Give how far a washer overlaps a hole: centred, and pushed aside; mm."""
    one = washer(size, standard)
    diameter = float(size_name(size)[1:])
    centred = (one.outside_low - hole) / 2
    aside = centred - (hole - diameter) / 2 - (one.hole_high - diameter) / 2
    return round(centred, 9), round(aside, 9)


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


_HEAD_WORDS = {
    "dk": "greatest head diameter", "dk_plain": "plain head, greatest diameter",
    "dk_knurled": "knurled head, greatest diameter", "k": "greatest head height",
    "dk_min": "least head diameter", "k_min": "least head height",
    "s": "socket across flats", "dk_theoretical": "theoretical sharp diameter",
}  # fmt: skip


def _compute_head(given: Given) -> Answer:
    row = head(given.word("standard"), given.word("size"))
    results = tuple(
        Result(name, float(value), "mm", 2, _HEAD_WORDS[name])
        for name, value in row.cells.items()
        if name != "size" and value != ""
    )
    knurled = "dk_knurled" in row.cells
    return Answer(
        results,
        warnings=("Counterbore for the larger, knurled head.",) if knurled else (),
        sources=(row.table.cited,),
    )


def _compute_sink_depth(given: Given) -> Answer:
    depth = sink_depth(
        given.number("sink"), given.number("hole"), given.number("angle")
    )
    if depth < 0:
        raise BadInput("the sink is narrower than the hole; accepted: a wider sink")
    return Answer((Result("depth", depth, "mm", 2, "depth of the sink"),))


def _compute_sink(given: Given) -> Answer:
    size = given.word("size")
    hole = given.maybe("hole")
    if hole is None:
        hole = clearance(size)["medium"]
    found = sink(
        size, given.word("standard"), hole, given.maybe("sheet"), given.maybe("sink")
    )
    results = [
        Result("sink", found.diameter, "mm", 2, "diameter to open the sink to"),
        Result("hole", found.hole, "mm", 2, "clearance hole"),
        Result("sink_depth", found.depth, "mm", 2, "depth of the sink"),
        Result("sunk_min", found.sunk_low, "mm", 2, "head below the face, least"),
        Result("sunk_max", found.sunk_high, "mm", 2, "head below the face, most"),
    ]
    if found.left is not None:
        results.append(
            Result("left_under", found.left, "mm", 2, "sheet under the sink")
        )
        results.append(
            Result("breaks_through", found.breaks_through, "", 0, "the hole grows")
        )
    return Answer(tuple(results))


def _compute_cover(given: Given) -> Answer:
    centred, aside = washer_cover(
        given.word("size"), given.word("washer"), given.number("hole")
    )
    return Answer(
        (
            Result("centred", centred, "mm", 2, "cover all round when centred"),
            Result("worst", aside, "mm", 2, "screw and washer pushed to one side"),
        ),
        warnings=("The washer can slip off the edge of the hole.",)
        if aside < 0
        else (),
    )


_SIZE = Input("size", "screw size, as M4", kind=Kind.TEXT, also=("screw", "thread"))

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
    Sum(
        name="screw-head",
        also=("head",),
        title="Head of a screw: diameters and height",
        inputs=(
            Input("standard", "iso4762, iso7380, iso10642, iso7046, iso2009, iso14581, "
                  "iso7045, iso14583 or iso1580", kind=Kind.TEXT),
            _SIZE,
        ),
        compute=_compute_head,
        formula="table value; countersunk at 90°: k = (dk − d) / 2",
        source="the standard named",
        how="read",
        example={"standard": "iso4762", "size": "M4"},
        relied_on=False,
    ),
    Sum(
        name="sink-depth",
        also=("countersink-depth",),
        title="Depth of a sink of given diameter",
        inputs=(
            Input("sink", "diameter of the sink", "mm", accept=POSITIVE,
                  also=("sink-diameter", "sink-dia")),
            Input("hole", "hole", "mm", accept=POSITIVE),
            Input("angle", "included angle of the sink", "°", accept=between(0, 180),
                  default="90°", also=("included", "included-angle")),
        ),
        compute=_compute_sink_depth,
        formula="(sink − hole) / 2 / tan(angle / 2)",
        source="geometry",
        how="computed",
        example={"sink": "6.72 mm", "hole": "3.4 mm"},
        relied_on=False,
    ),
    Sum(
        name="countersink",
        also=("countersunk", "countersunk-screw"),
        title="Sink for a countersunk screw: diameter, depth, and the sheet under it",
        inputs=(
            _SIZE,
            Input("standard", "iso7046, iso2009, iso14581 or iso10642", kind=Kind.TEXT,
                  default="iso7046"),
            Input("hole", "clearance hole; ISO 273 medium without", "mm",
                  accept=POSITIVE, optional=True),
            Input("sheet", "thickness of the sheet", "mm", accept=POSITIVE,
                  optional=True, also=("t", "thickness")),
            Input("sink", "diameter of the sink; theoretical head without", "mm",
                  accept=POSITIVE, optional=True),
        ),
        compute=_compute_sink,
        formula="depth = (sink − hole) / 2; head below the face = (sink − head) / 2",
        source="ISO 7046, ISO 10642; geometry at 90°",
        how="computed",
        caution="Three countersunk families share one thread: M4 heads are 7.5, 8.96 "
        "or 9.4 mm sharp.",
        example={"size": "M4", "sheet": "3 mm"},
    ),
    Sum(
        name="washer-cover",
        also=("washer-overlap",),
        title="How far a washer covers an oversize hole",
        inputs=(
            _SIZE,
            Input("hole", "hole under the washer", "mm", accept=POSITIVE),
            Input("washer", "which washer", kind=Kind.CHOICE, choices=WASHERS,
    words={"normal": "iso7089", "large": "iso7093", "wide": "iso7093"},
                  default="iso7089"),
        ),
        compute=_compute_cover,
        formula="(least outside − hole) / 2, less (hole − d) / 2 and (greatest washer "
        "hole − d) / 2",
        source="ISO 7089, ISO 7093-1; geometry",
        how="computed",
        example={"size": "M4", "hole": "6 mm"},
    ),
)  # fmt: skip
