"""Blind rivets: grip, length and hole.

Those by code are in inches, ISO ones in mm.
"""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.rivets import DIAMETER, INCH
from logbook.shop.given import POSITIVE, Given, Input, Kind
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table


def blind_by_code(code: str) -> Row:
    """Give diameter and grip range (inches) of a blind rivet by its code.

    Raises:
        BadInput: the code is not in the table.
    """
    for row in table("rivets", "blind_inch").rows:
        if row.text("code") == code.strip():
            return row
    return table("rivets", "blind_inch").named(code)


def blind_by_stack(diameter: float, stack: float) -> Row:
    """Give the shortest coded blind rivet (inches) whose grip holds a stack.

    Raises:
        BadInput: no such diameter, or no code that grips the stack.
    """
    rows = [
        row
        for row in table("rivets", "blind_inch").rows
        if abs(row.number("diameter") - diameter) < 1e-6
    ]
    if not rows:
        known = sorted(
            {row.number("diameter") for row in table("rivets", "blind_inch").rows}
        )
        shown = ", ".join(f"{one:g}" for one in known)
        raise BadInput(f"no coded rivet is {diameter:g} in; accepted: {shown} in")
    return _gripping(rows, stack, "in")


def _gripping(rows: list[Row], stack: float, unit: str) -> Row:
    """Give the first row that grips a stack; gaps of a table go to the next up."""
    for row in rows:
        if stack <= row.number("grip_high") + 1e-9:
            if stack < row.number("grip_low") and row is rows[0]:
                break
            return row
    low, high = rows[0].number("grip_low"), rows[-1].number("grip_high")
    raise BadInput(
        f"no rivet of this diameter grips {stack:g} {unit}; "
        f"accepted: {low:g} to {high:g} {unit}"
    )


def blind_metric(diameter: float) -> list[Row]:
    """Give the ISO blind rivets of a diameter, by length; mm.

    Raises:
        BadInput: the diameter is not in the table.
    """
    rows = [
        row
        for row in table("rivets", "blind_metric").rows
        if any(
            abs(float(one) - diameter) < 1e-9 for one in row.text("diameter").split("/")
        )
    ]
    if not rows:
        raise BadInput(
            f"no ISO blind rivet is {diameter:g} mm; "
            "accepted: 2.4, 3.0, 3.2, 4.0, 4.8, 5.0, 6.4 mm"
        )
    return rows


def blind_hole(diameter: float) -> tuple[float, float]:
    """Give the hole of an ISO blind rivet: d + 0.1 to d + 0.2 mm."""
    return round(diameter + 0.1, 9), round(diameter + 0.2, 9)


def _compute_blind(given: Given) -> Answer:
    if given.has("code"):
        row = blind_by_code(given.word("code"))
    elif given.has("diameter") and given.has("stack"):
        row = blind_by_stack(
            given.number("diameter") / INCH, round(given.number("stack") / INCH, 9)
        )
    else:
        raise BadInput("code is missing; accepted: a code, or diameter and stack")
    results = [
        Result(
            "code", row.text("code"), "", 0, "figure 1: 1/32 in; rest: 1/16 in grip"
        ),
        Result("diameter", row.number("diameter") * INCH, "mm", 3, "rivet diameter"),
        Result("grip_min", row.number("grip_low") * INCH, "mm", 3, "thinnest stack"),
        Result("grip_max", row.number("grip_high") * INCH, "mm", 3, "thickest stack"),
    ]
    for hole in table("rivets", "blind_hole_inch").rows:
        if abs(hole.number("diameter") - row.number("diameter")) < 1e-6:
            results += _hole_results(hole)
    return Answer(tuple(results), sources=(row.source,))


def _hole_results(row: Row) -> list[Result]:
    return [
        Result("hole_min", row.number("hole_low") * INCH, "mm", 3, "finished hole"),
        Result("hole_max", row.number("hole_high") * INCH, "mm", 3, "finished hole"),
        Result("drill", row.text("drill"), "", 0, "drill"),
    ]


def _compute_blind_hole(given: Given) -> Answer:
    inches = given.number("diameter") / INCH
    for row in table("rivets", "blind_hole_inch").rows:
        if abs(row.number("diameter") - inches) < 1e-6:
            return Answer(tuple(_hole_results(row)), sources=(row.source,))
    low, high = blind_hole(given.number("diameter"))
    blind_metric(given.number("diameter"))
    return Answer(
        (
            Result("hole_min", low, "mm", 2, "finished hole"),
            Result("hole_max", high, "mm", 2, "finished hole"),
        ),
        sources=(
            "ISO 15977, ISO 15981 application data: d + 0.1 to d + 0.2 mm (read)",
        ),
    )


def _compute_metric(given: Given) -> Answer:
    word = given.word("diameter").split("/")[0].removesuffix("mm").strip()
    try:
        diameter = float(word)
    except ValueError:
        raise BadInput(
            f"diameter: found “{given.word('diameter')}”; accepted: 3.2 or 3.0/3.2"
        ) from None
    rows = blind_metric(diameter)
    if given.has("length"):
        wanted = given.number("length")
        near = [row for row in rows if abs(row.number("length") - wanted) < 1e-9]
        if not near:
            have = ", ".join(f"{row.number('length'):g}" for row in rows)
            raise BadInput(f"length: found {wanted:g} mm; accepted: {have} mm")
        row = near[0]
    elif given.has("stack"):
        row = _gripping(rows, given.number("stack"), "mm")
    else:
        raise BadInput("length is missing; accepted: a length, or a stack to grip")
    low, high = blind_hole(diameter)
    return Answer(
        (
            Result("length", row.number("length"), "mm", 1, "length of the body"),
            Result("grip_min", row.number("grip_low"), "mm", 1, "thinnest stack"),
            Result("grip_max", row.number("grip_high"), "mm", 1, "thickest stack"),
            Result("hole_min", low, "mm", 2, "finished hole"),
            Result("hole_max", high, "mm", 2, "finished hole"),
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        name="blind-rivet-inch",
        also=("blind-rivet-code",),
        title="Blind rivet by inch code: grip range and hole",
        inputs=(
            Input("code", "as 43", kind=Kind.TEXT, optional=True),
            Input("diameter", "rivet diameter, with a stack", "mm", accept=POSITIVE,
                  optional=True, also=("d",)),
            Input("stack", "thickness to grip", "mm", accept=POSITIVE, optional=True,
                  also=("grip",)),
        ),
        compute=_compute_blind,
        formula="first figure: diameter in 1/32 in; rest: greatest grip in 1/16 in",
        source="US Army TM 10-5410-221-14/1 Table 4-3, numbering as IFI-114",
        how="read",
        example={"diameter": "1/8 in", "stack": "0.09 in"},
    ),
    Sum(
        name="blind-rivet-hole",
        title="Hole for a blind rivet",
        inputs=(DIAMETER,),
        compute=_compute_blind_hole,
        formula="inch sizes by table; ISO sizes d + 0.1 to d + 0.2 mm",
        source="US Army TM 10-5410-221-14/1 Table 4-3; ISO 15977, ISO 15981",
        how="read",
        example={"diameter": "3.2 mm"},
    ),
    Sum(
        name="blind-rivet",
        also=("blind-rivet-metric", "iso15981"),
        title="Blind rivet of ISO 15981: length and grip range",
        inputs=(
            Input("diameter", "as 3.2 or 3.0/3.2, mm", kind=Kind.TEXT, also=("d",)),
            Input("length", "length of the body", "mm", accept=POSITIVE, optional=True),
            Input("stack", "thickness to grip", "mm", accept=POSITIVE, optional=True,
                  also=("grip",)),
        ),
        compute=_compute_metric,
        formula="table value; the shortest whose grip range holds the stack",
        source="ISO 15981:2002 Table 1 (aluminium body and mandrel), second-hand",
        how="read",
        example={"diameter": "3.2", "stack": "4 mm"},
    ),
)  # fmt: skip
