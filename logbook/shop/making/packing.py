"""Finding a layout: a packing library looks for one, and it is believed once checked.

That none was found proves nothing. Sizes in µm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from logbook.shop.making.layouts import Blank, Cutting, Place, faults

MOST_BLANKS = 200


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
