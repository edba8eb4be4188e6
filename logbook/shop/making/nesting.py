"""Blanks out of sheet stock: whether they come out, with kerf, margin and grain.

A packing library looks for a layout; every layout it offers is checked again
here, cut by cut, before it is believed. A layout is proof that the blanks come
out. That none was found proves nothing, unless a size or the area forbids it.
Sizes are whole micrometres, so that nothing is lost to rounding.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import Given, Input, Kind, at_least
from logbook.shop.sums import Sum

MOST_BLANKS = 200
_SIZES = re.compile(r"(?<=[0-9.a-z\"″])\s*[x×*]\s*(?=[0-9.])|\s+by\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle in µm; `length` lies along the grain."""

    length: int
    width: int


@dataclass(frozen=True, slots=True)
class Place:
    """A blank laid in a stock: corner and sides in µm as they lie there."""

    blank: int
    stock: int
    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class Cutting:
    """How the stock is cut: kerf and margin in µm."""

    kerf: int
    margin: int
    grain_kept: bool
    straight_through: bool


def find_layout(
    stocks: Sequence[Blank], blanks: Sequence[Blank], cutting: Cutting
) -> list[Place]:
    """Give the best layout found, perhaps not of all blanks; each one verified."""
    best: list[Place] = []
    for packer in _packers(cutting):
        places = _pack(packer, stocks, blanks, cutting)
        if len(places) > len(best) and not faults(places, stocks, blanks, cutting):
            best = places
        if len(best) == len(blanks):
            break
    return best


def _packers(cutting: Cutting) -> Iterator[Any]:
    import rectpack

    names = ["GuillotineBssfSas", "GuillotineBlsfLas", "GuillotineBafSlas"]
    if not cutting.straight_through:
        names = ["MaxRectsBssf", "MaxRectsBl", "MaxRectsBaf", "SkylineBlWm", *names]
    sorts = [
        rectpack.SORT_AREA,
        rectpack.SORT_LSIDE,
        rectpack.SORT_SSIDE,
        rectpack.SORT_PERI,
        rectpack.SORT_NONE,
    ]
    for name in names:
        for sort in sorts:
            yield rectpack.newPacker(
                pack_algo=getattr(rectpack, name),
                sort_algo=sort,
                rotation=not cutting.grain_kept,
            )


def _pack(
    packer: Any, stocks: Sequence[Blank], blanks: Sequence[Blank], cutting: Cutting
) -> list[Place]:
    """Pack blanks grown by one kerf into stocks less margins, grown by one kerf."""
    kerf, margin = cutting.kerf, cutting.margin
    for number, blank in enumerate(blanks):
        packer.add_rect(blank.length + kerf, blank.width + kerf, rid=number)
    for number, stock in enumerate(stocks):
        room = kerf - 2 * margin
        if min(stock.length, stock.width) + room > 0:
            packer.add_bin(stock.length + room, stock.width + room, bid=number)
    packer.pack()
    places = []
    for at, x, y, length, width, blank in packer.rect_list():
        stock = packer[at].bid
        places.append(
            Place(blank, stock, x + margin, y + margin, length - kerf, width - kerf)
        )
    return sorted(places, key=lambda place: (place.stock, place.x, place.y))


def faults(
    places: Sequence[Place],
    stocks: Sequence[Blank],
    blanks: Sequence[Blank],
    cutting: Cutting,
) -> list[str]:
    """Check a layout from scratch: sizes, grain, margins, kerf, through cuts."""
    found = []
    if len({place.blank for place in places}) != len(places):
        found.append("a blank is laid twice")
    for place in places:
        found += _place_faults(place, stocks[place.stock], blanks[place.blank], cutting)
    for one, other in combinations(places, 2):
        if one.stock == other.stock and not _apart(one, other, cutting.kerf):
            found.append(f"blanks {one.blank + 1} and {other.blank + 1} share the cut")
    if cutting.straight_through and not found:
        for number in range(len(stocks)):
            laid = [place for place in places if place.stock == number]
            if not _cuts_through(laid):
                found.append(f"stock {number + 1} cannot be cut straight through")
    return found


def _place_faults(
    place: Place, stock: Blank, blank: Blank, cutting: Cutting
) -> list[str]:
    found = []
    turned = (place.length, place.width) != (blank.length, blank.width)
    if turned and (place.width, place.length) != (blank.length, blank.width):
        found.append(f"blank {place.blank + 1} has another size")
    elif turned and cutting.grain_kept:
        found.append(f"blank {place.blank + 1} lies across the grain")
    edge = cutting.margin
    if min(place.x, place.y) < edge or (
        place.x + place.length > stock.length - edge
        or place.y + place.width > stock.width - edge
    ):
        found.append(f"blank {place.blank + 1} reaches into the margin")
    return found


def _apart(one: Place, other: Place, kerf: int) -> bool:
    return (
        one.x + one.length + kerf <= other.x
        or other.x + other.length + kerf <= one.x
        or one.y + one.width + kerf <= other.y
        or other.y + other.width + kerf <= one.y
    )


def _cuts_through(places: Sequence[Place]) -> bool:
    """Tell whether cuts from edge to edge can separate all blanks."""
    if len(places) < 2:
        return True
    for along in (True, False):
        ordered = sorted(places, key=lambda place: _ends(place, along=along))
        reach = 0
        for count, place in enumerate(ordered):
            low, high = _ends(place, along=along)
            if count and low >= reach:
                first, rest = ordered[:count], ordered[count:]
                return _cuts_through(first) and _cuts_through(rest)
            reach = max(reach, high)
    return False


def _ends(place: Place, *, along: bool) -> tuple[int, int]:
    if along:
        return place.x, place.x + place.length
    return place.y, place.y + place.width


def impossible(
    stocks: Sequence[Blank], blanks: Sequence[Blank], cutting: Cutting
) -> str:
    """Say why the blanks can never come out, empty where it cannot be said."""
    free = [
        Blank(stock.length - 2 * cutting.margin, stock.width - 2 * cutting.margin)
        for stock in stocks
    ]
    for number, blank in enumerate(blanks, 1):
        if not any(_fits(blank, room, cutting) for room in free):
            return f"blank {number} fits into no piece of stock"
    room = sum(max(one.length, 0) * max(one.width, 0) for one in free)
    wanted = sum(blank.length * blank.width for blank in blanks)
    if wanted > room:
        return "the blanks together are larger than the stock"
    return _never_together(free, blanks, cutting)


def _never_together(
    free: Sequence[Blank], blanks: Sequence[Blank], cutting: Cutting
) -> str:
    """Say that no two blanks share a piece of stock, where there are more of them.

    Two rectangles lie beside or above each other, so that their sides add up
    one way or the other.
    """
    kinds = sorted(set(blanks), key=lambda one: (one.length, one.width))
    alone = len(blanks) > len(free) and not any(
        _two_fit(one, other, room, cutting.kerf)
        for room in free
        for at, first in enumerate(kinds)
        for second in kinds[at if blanks.count(first) > 1 else at + 1 :]
        for one in _ways(first, cutting)
        for other in _ways(second, cutting)
    )
    if not alone:
        return ""
    pieces = "one piece" if len(free) == 1 else f"{len(free)} pieces"
    return f"no two of them come out of one piece of stock, and there is {pieces}"


def _two_fit(
    one: tuple[int, int], other: tuple[int, int], room: Blank, kerf: int
) -> bool:
    beside = one[0] + kerf + other[0] <= room.length
    above = one[1] + kerf + other[1] <= room.width
    each = all(a <= room.length and b <= room.width for a, b in (one, other))
    return each and (beside or above)


def _fits(blank: Blank, room: Blank, cutting: Cutting) -> bool:
    return any(a <= room.length and b <= room.width for a, b in _ways(blank, cutting))


def _ways(blank: Blank, cutting: Cutting) -> list[tuple[int, int]]:
    """Give the ways a blank may lie: along, and turned where the grain may."""
    ways = [(blank.length, blank.width)]
    if not cutting.grain_kept:
        ways.append((blank.width, blank.length))
    return ways


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
            f"{counts}: found {len(numbers)} for {len(sizes)} sizes; accepted: one for "
            "all or one for each"
        )
    if sum(numbers) > MOST_BLANKS:
        raise BadInput(
            f"{counts}: found {sum(numbers)} in all; accepted: up to {MOST_BLANKS}"
        )
    return [
        size for size, count in zip(sizes, numbers, strict=True) for _ in range(count)
    ]


def most_of(stocks: Sequence[Blank], blank: Blank, cutting: Cutting) -> int:
    """Give the greatest number of one blank for which a layout was found."""
    room = sum(stock.length * stock.width for stock in stocks)
    bound = min(room // (blank.length * blank.width), MOST_BLANKS)
    best = 0
    while best < bound:
        laid = len(find_layout(stocks, [blank] * int(bound), cutting))
        if laid <= best:
            break
        best, bound = laid, min(bound, laid)
    return best


def at_most(stocks: Sequence[Blank], blank: Blank, cutting: Cutting) -> int:
    """Give a number of one blank that no layout can exceed.

    Each blank takes its area and a kerf along two sides. Where it fits one way
    round only, equal rectangles come in whole columns and rows and no better.
    """
    total = 0
    for stock in stocks:
        room = [
            side - 2 * cutting.margin + cutting.kerf
            for side in (stock.length, stock.width)
        ]
        sides = blank.length + cutting.kerf, blank.width + cutting.kerf
        ways = [sides] if cutting.grain_kept else [sides, sides[::-1]]
        grids = [
            (room[0] // along) * (room[1] // across)
            for along, across in dict.fromkeys(ways)
            if along <= room[0] and across <= room[1]
        ]
        area = max(room[0], 0) * max(room[1], 0) // (sides[0] * sides[1])
        total += grids[0] if len(grids) == 1 else area if grids else 0
    return total


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
