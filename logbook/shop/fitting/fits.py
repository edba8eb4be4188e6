"""Grades, limits and fits of ISO 286 as sums."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import decimals
from logbook.shop.fitting.iso286 import (
    LARGEST,
    deviations,
    fit,
    grade_width,
    parse_class,
)
from logbook.shop.given import Given, Input, Kind, above
from logbook.shop.sums import Sum


def _compute_grade(given: Given) -> Answer:
    word = given.word("grade").strip().upper().removeprefix("IT").strip()
    if not word.isdigit():
        raise BadInput(f"grade: found “{given.word('grade')}”; accepted: IT5 to IT14")
    width = grade_width(given.exact("nominal"), int(word))
    return Answer(
        (
            Result("tolerance", float(width), "µm", 0, "width of the grade"),
            Result("tolerance_mm", float(width / 1000), "mm", 3, "the same in mm"),
        )
    )


_SIZED = re.compile(
    r"\s*[Øø⌀]?\s*(?P<size>[0-9][0-9.,]*)\s*(?P<unit>mm|in|inch|\")?\s+?"
    r"(?P<rest>[A-Za-z].*)|\s*[Øø⌀]?\s*(?P<size2>[0-9]+(?:[.,][0-9]+)?)"
    r"(?P<rest2>[A-Za-z]{1,2}[0-9].*)"
)


def _sized(given: Given, name: str) -> tuple[Fraction, str]:
    """Give nominal size and class, also where both stand together, as 25 H7.

    Raises:
        BadInput: no size, or two that differ.
    """
    text, size = given.word(name), None
    if found := _SIZED.fullmatch(text):
        figure, text = found["size"] or found["size2"], found["rest"] or found["rest2"]
        size = parse_quantity(figure, found["unit"] or "mm").to("mm")
        if not 0 < size <= LARGEST:
            raise BadInput(
                f"{name}: found size {figure}; accepted: {_NOMINAL.accepted}"
            )
    if not given.has("nominal"):
        if size is None:
            raise BadInput(
                f"nominal is missing (nominal size); accepted: {_NOMINAL.accepted}, "
                f"or {name} with its size, as 25 {text.strip()[:20]}"
            )
        return size, text
    if size is not None and size != given.exact("nominal"):
        raise BadInput(
            f"{name}: found size {plain_number(size)} mm beside a nominal size of "
            f"{given.typed('nominal')}; accepted: one of them"
        )
    return given.exact("nominal"), text


def _places(*deviations: Fraction) -> int:
    """Decimals that show these deviations in µm: one only for js of odd grades."""
    return 0 if all(one.denominator == 1 for one in deviations) else 1


def _compute_limits(given: Given) -> Answer:
    nominal, word = _sized(given, "class")
    letter, grade = parse_class(word)
    found = deviations(nominal, letter, grade)
    places = _places(found.upper, found.lower)
    fine = max(3 + places, decimals(nominal))
    kind = "hole" if letter.isupper() else "shaft"
    return Answer(
        (
            Result(
                "upper_deviation",
                float(found.upper),
                "µm",
                places,
                "from the nominal",
                signed=True,
            ),
            Result(
                "lower_deviation",
                float(found.lower),
                "µm",
                places,
                "from the nominal",
                signed=True,
            ),
            Result("largest", float(found.largest), "mm", fine, "upper limit of size"),
            Result(
                "smallest", float(found.smallest), "mm", fine, "lower limit of size"
            ),
        ),
        assumptions=(f"{word.strip()} is the class of a {kind}",),
    )


def _compute_fit(given: Given) -> Answer:
    found = fit(*_sized(given, "fit"))
    hole, shaft = found.hole, found.shaft
    places = _places(hole.upper, hole.lower, shaft.upper, shaft.lower)
    return Answer(
        (
            Result("character", found.character, "", 0, "what the fit is like"),
            Result("max_clearance", float(found.most), "µm", places, "most clearance"),
            Result(
                "min_clearance", float(found.least), "µm", places,
                "least clearance; negative is interference",
            ),
            Result(
                "hole", (float(hole.upper), float(hole.lower)), "µm", places,
                "upper and lower deviation of the hole", signed=True,
            ),
            Result(
                "hole_limits", (float(hole.smallest), float(hole.largest)), "mm",
                max(3 + places, decimals(hole.nominal)), "smallest and largest hole",
            ),
            Result(
                "shaft", (float(shaft.upper), float(shaft.lower)), "µm", places,
                "upper and lower deviation of the shaft", signed=True,
            ),
            Result(
                "shaft_limits", (float(shaft.smallest), float(shaft.largest)), "mm",
                max(3 + places, decimals(shaft.nominal)), "smallest and largest shaft",
            ),
        )
    )  # fmt: skip


_NOMINAL = Input(
    "nominal", "nominal size", "mm", accept=above(0, LARGEST),
    also=("size", "diameter", "nominal-size", "nominal-mm"),
)  # fmt: skip


_MAY_BE_BESIDE = replace(
    _NOMINAL,
    meaning="nominal size, where it does not stand with the class",
    optional=True,
)


SUMS: tuple[Sum, ...] = (
    Sum(
        name="tolerance-grade",
        also=("iso286-grade", "it-grade", "iso286-it"),
        title="Width of a standard tolerance grade",
        inputs=(_NOMINAL, Input("grade", "grade, as IT7", kind=Kind.TEXT)),
        compute=_compute_grade,
        formula="table value of the size range: over the one, up to the other",
        source="ISO 286-1:2010 Table 1",
        how="read",
        example={"nominal": "25 mm", "grade": "IT7"},
    ),
    Sum(
        name="limit-deviations",
        also=("iso286", "iso286-limits", "tolerance-class"),
        title="Limits of size of a tolerance class, as H7 or g6",
        inputs=(
            _MAY_BE_BESIDE,
            Input(
                "class", "tolerance class: capitals a hole, small letters a shaft; or "
                "25 H7",
                kind=Kind.TEXT, also=("tolerance-class",),
            ),
        ),
        compute=_compute_limits,
        formula="fundamental deviation ± grade; holes K to U moved by IT(n) − IT(n−1)",
        source="ISO 286-1:2010 Tables 1, 4, 5; ISO 286-2:2010",
        how="read",
        example={"nominal": "25 mm", "class": "H7"},
    ),
    Sum(
        name="fit",
        also=("iso286-fit", "limits-and-fits"),
        title="Character and clearances of a fit, as H7/g6",
        inputs=(
            _MAY_BE_BESIDE,
            Input("fit", "hole class / shaft class, or 25 H7/g6", kind=Kind.TEXT),
        ),
        compute=_compute_fit,
        formula="most = largest hole − smallest shaft; least = smallest hole − largest "
        "shaft",
        source="ISO 286-1:2010 Tables 1, 4, 5; ISO 286-2:2010",
        how="read",
        caution="A press fit also asks what the material bears and how warm it gets.",
        example={"nominal": "25 mm", "fit": "H7/g6"},
    ),
)  # fmt: skip
