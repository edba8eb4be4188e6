"""Blanks out of sheet stock: whether they come out, with kerf, margin and grain.

A layout is proof that the blanks come out. That none was found proves nothing,
unless a size or the area forbids it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import Given, Input, Kind, at_least, in_words
from logbook.shop.making.layouts import Blank, Cutting, Place
from logbook.shop.making.no_layout import at_most, impossible
from logbook.shop.making.packing import MOST_BLANKS, find_layout, most_of
from logbook.shop.sums import Sum

_SIZES = re.compile(r"(?<=[0-9.a-z\"″])\s*[x×*]\s*(?=[0-9.])|\s+by\s+", re.IGNORECASE)


def read_size(name: str, text: str) -> Blank:
    """Read a size typed as `180x95`, `180 x 95 mm` or `7 x 3 3/4 in`.

    Raises:
        BadInput: it is not two lengths above zero.
    """
    parts = [part.strip() for part in _SIZES.split(text)]
    if len(parts) != 2:
        raise BadInput(f"{name}: found “{text}”; accepted: two sizes, 180x95 mm")
    try:
        second = parse_quantity(parts[1], "mm")
        first = parse_quantity(parts[0], second.unit)
        sides = [round(float(each.to("mm")) * 1000) for each in (first, second)]
    except BadInput as error:
        raise type(error)(f"{name}: {error}") from None
    if min(sides) <= 0:
        raise BadInput(f"{name}: found “{text}”; accepted: sizes above 0 mm")
    return Blank(*sides)


def _sized(given: Given, name: str, counts: str) -> list[Blank]:
    sizes = [read_size(name, text) for text in given.words(name)]
    numbers = [int(each) for each in given.numbers(counts)]
    if len(numbers) == 1:
        numbers *= len(sizes)
    if len(numbers) != len(sizes):
        raise BadInput(
            f"{in_words(counts)}: found {len(numbers)} for {so_many(sizes, 'size')}; "
            "accepted: one for all or one for each"
        )
    if sum(numbers) > MOST_BLANKS:
        raise BadInput(
            f"{in_words(counts)}: found {sum(numbers)} in all; accepted: up to "
            f"{MOST_BLANKS}"
        )
    return [
        size for size, count in zip(sizes, numbers, strict=True) for _ in range(count)
    ]


def _layout(given: Given) -> Answer:
    stocks = _sized(given, "stock", "stock_count")
    blanks = _sized(given, "blanks", "count")
    cutting = Cutting(
        round(given.number("kerf") * 1000),
        round(given.number("margin") * 1000),
        given.word("grain") == "kept",
        given.word("cuts") == "straight through",
    )
    reason = impossible(stocks, blanks, cutting)
    places = find_layout(stocks, blanks, cutting)
    come_out = len(places) == len(blanks)
    if come_out:
        verdict = "yes"
    else:
        verdict = f"no: {reason}" if reason else "no layout found, which is no proof"
    area = sum(one.length * one.width for one in stocks)
    used = sum(place.length * place.width for place in places)
    results = [
        Result("come_out", verdict),
        Result("placed", len(places), "pcs", 0, f"of {len(blanks)}"),
        Result("used", 100 * used / area, "%", 0, "of the stock's area"),
        Result("rest_area", (area - used) / 1e6, "mm²", 0, "offcuts and dust"),
    ]
    if len(set(blanks)) == 1:
        most = max(len(places), most_of(stocks, blanks[0], cutting))
        top = at_most(stocks, blanks[0], cutting)
        said = "no more can fit" if most == top else f"as found; {top} at the very most"
        results.append(Result("most", most, "pcs", 0, f"of this blank: {said}"))
    return Answer(
        tuple(results),
        tables=(_layout_rows(places, blanks, cutting),) if places else (),
        assumptions=_layout_assumptions(cutting),
    )


def _layout_assumptions(cutting: Cutting) -> tuple[str, ...]:
    said = [
        (
            "stock is square and as large as given; one kerf lies between "
            "neighbours, none is needed at an edge that is kept"
        )
    ]
    if cutting.grain_kept:
        said.append("the first size of each blank lies along the first of the stock")
    if not cutting.straight_through:
        said.append("cuts may stop inside the sheet; a saw or shear wants cuts through")
    return tuple(said)


def _layout_rows(
    places: Sequence[Place], blanks: Sequence[Blank], cutting: Cutting
) -> Rows:
    rows = []
    for place in places:
        blank = blanks[place.blank]
        turned = (place.length, place.width) != (blank.length, blank.width)
        rows.append(
            (
                place.stock + 1,
                place.blank + 1,
                place.x / 1000,
                place.y / 1000,
                place.length / 1000,
                place.width / 1000,
                turned,
            )
        )
    kept = ", grain kept" if cutting.grain_kept else ""
    return Rows(
        f"layout, checked for kerf and margin{kept}",
        (
            Column("stock"),
            Column("blank"),
            Column("from left", "mm", 1),
            Column("from below", "mm", 1),
            Column("along", "mm", 1),
            Column("up", "mm", 1),
            Column("turned"),
        ),
        tuple(rows),
    )


SUMS = (
    Sum(
        name="blanks-from-stock",
        title="Whether blanks still come out of a sheet or offcut",
        inputs=(
            Input(
                "stock",
                "sizes of the pieces in stock, 400x150; first size along the grain",
                kind=Kind.TEXT,
                many=True,
                also=("offcut", "sheet"),
            ),
            Input(
                "stock_count",
                "how many of each",
                kind=Kind.COUNT,
                accept=at_least(1),
                many=True,
                default="1",
            ),
            Input(
                "blanks",
                "sizes wanted, 180x95; first size along the grain",
                kind=Kind.TEXT,
                many=True,
                also=("blank", "size"),
            ),
            Input(
                "count",
                "how many of each",
                kind=Kind.COUNT,
                accept=at_least(1),
                many=True,
                default="1",
                also=("quantity", "number"),
            ),
            Input(
                "kerf",
                "full width of a cut, 0 for a shear",
                "mm",
                accept=at_least(0),
            ),
            Input(
                "margin",
                "kept free along every edge of the stock",
                "mm",
                accept=at_least(0),
                default="0 mm",
            ),
            Input(
                "grain",
                "whether blanks may be turned",
                kind=Kind.CHOICE,
                choices=("any", "kept"),
                words={"no": "any", "yes": "kept", "keep": "kept"},
                default="any",
            ),
            Input(
                "cuts",
                "any, or straight through from edge to edge",
                kind=Kind.CHOICE,
                choices=("any", "straight through"),
                default="any",
            ),
        ),
        compute=_layout,
        formula="rectangles one kerf apart inside the margins; layout by a packing "
        "library, then checked piece by piece",
        source="geometry; the search is a heuristic",
        how="computed",
        caution="Finding no layout is no proof that there is none, unless it says why.",
        example={
            "stock": ("400x150",),
            "blanks": ("180x95",),
            "count": "2",
            "kerf": "1 mm",
        },
        also=("nest", "layout", "blanks"),
    ),
)
