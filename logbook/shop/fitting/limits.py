"""Limits by general tolerance: what a drawing without limits of its own may invoke.

ISO 2768-1 says nothing about a part unless the drawing invokes it: a size
without limits has none. Sizes are exact fractions of a millimetre.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, Table, table

CLASSES = ("f", "m", "c", "v")
CALLED = {"f": "fine", "m": "medium", "c": "coarse", "v": "very coarse"}
SMALLEST = Fraction(1, 2)
"""ISO 2768-1 defines nothing below 0.5 mm."""


@dataclass(frozen=True, slots=True)
class General:
    """A general tolerance: ± mm (for angles ± degrees), and where it is from."""

    deviation: Fraction
    source: str


def exact(row: Row, column: str) -> Fraction:
    """Give a figure of a table as the decimal that stands there."""
    return Fraction(repr(row.number(column)))


def linear(nominal: Fraction, letter: str) -> General:
    """Give the general tolerance of a linear size in mm (ISO 2768-1 Table 1).

    Raises:
        BadInput: the class is unknown, or the table defines nothing there.
    """
    return _general(table("iso2768", "linear"), nominal, letter, "size")


def radius(nominal: Fraction, letter: str) -> General:
    """Give the general tolerance of a radius or chamfer in mm (Table 2).

    Raises:
        BadInput: the class is unknown, or the size is below 0.5 mm.
    """
    return _general(table("iso2768", "radius"), nominal, letter, "radius")


def angle(shorter_leg: Fraction, letter: str) -> General:
    """Give the general tolerance of an angle in degrees, by its shorter leg in mm.

    Raises:
        BadInput: the class is unknown, or the leg is not above 0.
    """
    found = _general(table("iso2768", "angle"), shorter_leg, letter, "shorter leg")
    return General(found.deviation / 60, found.source)


def _general(held: Table, size: Fraction, letter: str, what: str) -> General:
    if letter not in CLASSES:
        raise BadInput(f"class “{letter}” is unknown; accepted: {', '.join(CLASSES)}")
    if what != "shorter leg" and size < SMALLEST:
        raise BadInput(
            f"{what} {plain_number(size)} mm has no general tolerance ({held.title}); "
            "accepted: 0.5 mm and more, else limits of its own on the drawing"
        )
    row = held.band(float(size), "mm", what)
    if row.cells[letter] == "":
        raise BadInput(
            f"{what} {plain_number(size)} mm has no general tolerance in class "
            f"{letter} ({held.title}); accepted: {_filled(held, letter)}, or limits "
            "of its own on the drawing"
        )
    return General(exact(row, letter), row.source)


def _filled(held: Table, letter: str) -> str:
    rows = [row for row in held.rows if row.cells[letter] != ""]
    low = max(rows[0].number("over"), float(SMALLEST))
    return f"from {low:g} to {rows[-1].number('to'):g} mm in that class"


def arc_text(degrees: Fraction) -> str:
    """Write an angle in degrees and minutes: 0°30′."""
    minutes = round(degrees * 60)
    return f"{minutes // 60}°{minutes % 60:02d}′"


def _compute_linear(given: Given) -> Answer:
    nominal, letter = given.exact("nominal"), given.word("class")
    rule = radius if given.word("kind") == "radius or chamfer" else linear
    found = rule(nominal, letter)
    return Answer(
        results=(
            Result("deviation", float(found.deviation), "mm", 2, "plus and minus"),
            Result("lower", float(nominal - found.deviation), "mm", 2, "lower limit"),
            Result("upper", float(nominal + found.deviation), "mm", 2, "upper limit"),
        ),
        assumptions=(f"the drawing invokes ISO 2768-{letter} ({CALLED[letter]})",),
        sources=(found.source,),
    )


def _compute_angle(given: Given) -> Answer:
    found = angle(given.exact("shorter_leg"), given.word("class"))
    return Answer(
        results=(
            Result("deviation", float(found.deviation), "°", 3, "plus and minus"),
            Result(
                "minutes",
                float(found.deviation * 60),
                "′",
                0,
                "the same in arc minutes",
            ),
            Result("text", arc_text(found.deviation), "", 0, "degrees and minutes"),
        ),
        assumptions=("the drawing invokes ISO 2768-1",),
        sources=(found.source,),
    )


_CLASS = Input(
    "class",
    "tolerance class the drawing invokes: fine, medium, coarse, very coarse",
    kind=Kind.CHOICE,
    choices=CLASSES,
    words={
        form.format(word): letter
        for letter in CLASSES
        for form in ("{}", "ISO 2768-{}", "ISO 2768-1-{}", "2768-{}", "ISO2768-{}")
        for word in (letter, CALLED[letter], *(letter + geometry for geometry in "HKL"))
    },
)

SUMS: tuple[Sum, ...] = (
    Sum(
        name="general-tolerance",
        also=("iso2768", "iso-2768", "general-tolerances"),
        title="General tolerance of a size, where the drawing invokes ISO 2768-1",
        inputs=(
            Input(
                "nominal", "nominal size on the drawing", "mm", accept=POSITIVE,
                also=("size", "nominal-size", "nominal-mm"),
            ),
            _CLASS,
            Input(
                "kind", "what sort of size", kind=Kind.CHOICE,
                choices=("linear", "radius or chamfer"), default="linear",
                words={"chamfer": "radius or chamfer", "length": "linear"},
            ),
        ),
        compute=_compute_linear,
        formula="limits = nominal ± table value of its size range and class",
        source="ISO 2768-1:1989 Tables 1 and 2",
        how="read",
        caution="Without an invocation on the drawing no limits are drawn at all.",
        example={"nominal": "180 mm", "class": "c"},
    ),
    Sum(
        name="general-tolerance-angle",
        also=("iso2768-angle", "angular-tolerance"),
        title="General tolerance of an angle, where the drawing invokes ISO 2768-1",
        inputs=(
            Input(
                "shorter_leg", "length of the shorter leg", "mm", accept=POSITIVE,
                also=("leg", "shorter-leg-mm"),
            ),
            _CLASS,
        ),
        compute=_compute_angle,
        formula="± table value by the length of the shorter leg",
        source="ISO 2768-1:1989 Table 3",
        how="read",
        example={"shorter_leg": "60 mm", "class": "m"},
    ),
)  # fmt: skip
