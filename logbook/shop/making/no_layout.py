"""What no layout can do: blanks that can never come out, and how many at most.

Sizes in µm.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.shop.making.layouts import Blank, Cutting


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
