"""Limits of error of hand tools for measuring, and what they mean as u."""

from __future__ import annotations

import math

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.digits import spread_places
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.measuring.gum import standard_uncertainty
from logbook.shop.sums import Sum
from logbook.shop.tables import table


def tape_error(grade: str, length: float, *, hook: bool) -> float:
    """Give the limit of error of a tape or rule in mm; the length in mm.

    a + b × metres rounded up, and c once with a hook or end face.
    """
    row = table("instruments", "tapes").named(grade)
    metres = math.ceil(round(length / 1000, 9))
    extra = row.number("c") if hook else 0.0
    return row.number("a") + row.number("b") * metres + extra


def caliper_error(range_mm: float, kind: str, *, outside: bool) -> float:
    """Give the limit of error of a caliper in mm (DIN 862).

    Raises:
        BadInput: a range or kind outside the table.
    """
    rows = table("instruments", "calipers")
    row = rows.up_to("range", range_mm, "mm")
    if kind not in rows.columns[1:]:
        raise BadInput(
            f"“{kind}” is no caliper here; accepted: {', '.join(rows.columns[1:])}"
        )
    return (row.number(kind) + (0 if outside else 20)) / 1000


def square_error(grade: str, blade: float) -> float:
    """Give the deviation of a square at its blade's end in mm (DIN 875)."""
    row = table("instruments", "squares").named(grade)
    return (row.number("constant") + blade / row.number("over")) / 1000


def rule_error(form: str, length: float) -> float:
    """Give the limit of error of a steel rule in mm (DIN 866); the length in mm."""
    row = table("instruments", "rules").named(form)
    return (row.number("constant") + row.number("per_metre") * length / 1000) / 1000


def _answer(error: float) -> Answer:
    u = standard_uncertainty(error, "rectangular")
    places = spread_places(u)
    return Answer(
        (
            Result("mpe", error, "mm", places, "limit of error"),
            Result("u", u, "mm", places, "standard uncertainty, rectangular"),
            Result(
                "U", 2 * u, "mm", places, "expanded uncertainty from it alone, k = 2"
            ),
        )
    )


def _compute_tape(given: Given) -> Answer:
    return _answer(
        tape_error(
            given.word("class"), 1000 * given.number("length"), hook=given.yes("hook")
        )
    )


def _compute_caliper(given: Given) -> Answer:
    outside = given.word("use") == "outside"
    return _answer(
        caliper_error(given.number("range"), given.word("kind"), outside=outside)
    )


def _compute_square(given: Given) -> Answer:
    return _answer(square_error(given.word("grade"), given.number("blade")))


def _compute_rule(given: Given) -> Answer:
    return _answer(rule_error(given.word("form"), given.number("length")))


SUMS: tuple[Sum, ...] = (
    Sum(
        name="tape-error",
        also=("tape", "rule-error"),
        title="Limit of error of a tape or rule",
        inputs=(
            Input("class", "class printed on it", kind=Kind.CHOICE,
                  choices=("I", "II", "III"),
                  words={"1": "I", "2": "II", "3": "III"}),
            Input("length", "length measured", "m", accept=POSITIVE),
            Input("hook", "one end is a hook or an end face", kind=Kind.YES,
                  default="no"),
        ),
        compute=_compute_tape,
        formula="a + b × whole metres, rounded up, and c once with a hook",
        source="EU 2014/32 MI-008; UK SI 2016/1153",
        how="read",
        example={"class": "II", "length": "2.4 m"},
        relied_on=False,
    ),
    Sum(
        name="caliper-error",
        also=("caliper",),
        title="Limit of error of a caliper",
        inputs=(
            Input("range", "its measuring range", "mm", accept=POSITIVE),
            Input("kind", "vernier or digital, and its step", kind=Kind.CHOICE,
                  choices=("vernier 0.05", "vernier 0.02", "digital 0.01"),
                  default="digital 0.01"),
            Input("use", "which faces", kind=Kind.CHOICE,
                  choices=("outside", "inside", "depth"), default="outside"),
        ),
        compute=_compute_caliper,
        formula="table value by range; inside and depth 0.02 mm more; u = limit / √3",
        source="DIN 862",
        how="read",
        caution="The maker's data sheet wins: ISO 13385-1:2019 fixes no figure.",
        example={"range": "300 mm"},
        relied_on=False,
    ),
    Sum(
        name="square-error",
        also=("try-square",),
        title="Deviation of a square at the end of its blade",
        inputs=(
            Input("grade", "grade", kind=Kind.CHOICE, choices=("0", "1", "2")),
            Input("blade", "length of the blade", "mm", accept=POSITIVE),
        ),
        compute=_compute_square,
        formula="grade 0: 5 + L/50; 1: 10 + L/20; 2: 20 + L/10 µm, L in mm",
        source="DIN 875",
        how="memory",
        example={"grade": "1", "blade": "100 mm"},
        relied_on=False,
    ),
    Sum(
        name="steel-rule-error",
        also=("steel-rule",),
        title="Limit of error of a steel rule",
        inputs=(
            Input("form", "form of the standard; the better rules are A",
                  kind=Kind.CHOICE, choices=("A", "B")),
            Input("length", "length measured", "mm", accept=POSITIVE),
        ),
        compute=_compute_rule,
        formula="form A: 20 + 20 L; B: 50 + 50 L µm, L in m",
        source="DIN 866",
        how="memory",
        caution="Cheap workshop rules are sold to the classes of tapes instead: take "
        "the sum tape-error.",
        example={"form": "A", "length": "300 mm"},
        relied_on=False,
    ),
)  # fmt: skip
