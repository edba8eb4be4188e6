"""Buying and cutting to length: bars to buy, cut list, packs and their price."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import POSITIVE, Given, Input, Kind, at_least, in_words
from logbook.shop.sums import Sum

MOST_PIECES = 2000


@dataclass(slots=True)
class Bar:
    """A bar being cut: what is left, and the pieces taken from it, in mm."""

    left: Fraction
    pieces: list[Fraction] = field(default_factory=list)

    def take(self, piece: Fraction, kerf: Fraction) -> bool:
        """Take a piece if it fits; the last piece needs no cut behind it."""
        if piece > self.left:
            return False
        self.pieces.append(piece)
        self.left = max(Fraction(0), self.left - piece - kerf)
        return True


def cut_bars(
    pieces: Sequence[Fraction],
    bar: Fraction,
    kerf: Fraction,
    offcuts: Sequence[Fraction],
) -> list[Bar]:
    """Give a cut list: longest piece first, into the tightest rest, offcuts first.

    Raises:
        BadInput: a piece is longer than a bar and every offcut.
    """
    bars = [Bar(offcut) for offcut in offcuts]
    for piece in sorted(pieces, reverse=True):
        fitting = [each for each in bars if each.left >= piece]
        if fitting:
            min(fitting, key=lambda each: each.left).take(piece, kerf)
            continue
        if piece > bar:
            raise BadInput(
                f"pieces: found {float(piece):g} mm; accepted: up to the bar of "
                f"{float(bar):g} mm"
            )
        bars.append(Bar(bar))
        bars[-1].take(piece, kerf)
    return bars


def least_bars(pieces: Sequence[Fraction], bar: Fraction, kerf: Fraction) -> int:
    """Give a number of bars that no cut list can go below."""
    return math.ceil(sum(piece + kerf for piece in pieces) / (bar + kerf))


def cheapest_packs(
    need: int, sizes: Sequence[int], prices: Sequence[Fraction]
) -> tuple[int, ...]:
    """Give how many of each pack to buy: cheapest, then least left over."""
    best: list[tuple[Fraction, int, tuple[int, ...]]] = [
        (Fraction(0), 0, (0,) * len(sizes))
    ]
    for wanted in range(1, need + 1):
        choices = []
        for place, (size, price) in enumerate(zip(sizes, prices, strict=True)):
            cost, got, packs = best[max(0, wanted - size)]
            more = (*packs[:place], packs[place] + 1, *packs[place + 1 :])
            choices.append((cost + price, got + size, more))
        best.append(min(choices))
    return best[need][2]


def _each(given: Given, name: str, count: int) -> list[Fraction]:
    values = list(given.exacts(name))
    if len(values) == 1:
        values *= count
    if len(values) != count:
        raise BadInput(
            f"{in_words(name)}: found {len(values)} for {count}; accepted: one for all "
            "or one each"
        )
    return values


def _cut_list(given: Given) -> Answer:
    lengths = given.exacts("pieces")
    counts = [int(each) for each in _each(given, "count", len(lengths))]
    pieces = [one for one, n in zip(lengths, counts, strict=True) for _ in range(n)]
    if len(pieces) > MOST_PIECES:
        raise BadInput(f"count: found {len(pieces)} pieces; accepted: {MOST_PIECES}")
    kerf, trim = given.exact("kerf"), given.exact("trim")
    bar = given.exact("bar") - 2 * trim
    offcuts = given.exacts("offcuts")
    bars = cut_bars(pieces, bar, kerf, offcuts)
    bought = len(bars) - len(offcuts)
    least = least_bars(pieces, bar, kerf)
    results = [
        Result("bars", bought, "pcs", 0, "to buy"),
        Result("least_bars", least, "pcs", 0, "none can do with fewer, offcuts aside"),
        Result("total_length", float(sum(pieces)), "mm", 1, "of the pieces"),
    ]
    if given.has("price"):
        cost = float(given.exact("price") * bought)
        results.append(Result("price", cost, given.unit("price"), 2, "in all"))
    return Answer(
        tuple(results),
        tables=(_cut_rows(bars, len(offcuts)),),
        assumptions=("one kerf behind every piece but where the rest is used up",),
        warnings=("another cut list might save a bar",)
        if not offcuts and bought > least
        else (),
    )


def _cut_rows(bars: Sequence[Bar], offcuts: int) -> Rows:
    rows = tuple(
        (
            "offcut" if number < offcuts else "bar",
            number + 1,
            " + ".join(f"{float(piece):g}" for piece in each.pieces) or "not used",
            float(each.left),
        )
        for number, each in enumerate(bars)
    )
    columns = (
        Column("from"),
        Column("no."),
        Column("cut (mm)"),
        Column("left", "mm", 1),
    )
    return Rows("cut list, longest first", columns, rows)


def _buy(given: Given) -> Answer:
    sizes = [int(each) for each in given.exacts("pack_sizes")]
    prices = given.exacts("prices")
    if len(prices) != len(sizes):
        raise BadInput(
            f"prices: found {len(prices)} for {so_many(sizes, 'pack')}; "
            "accepted: one each"
        )
    units = {value.unit for value in given.values["prices"] if value.unit}
    if len(units) > 1:
        raise BadInput(
            f"prices: found {' and '.join(sorted(units))}; accepted: one currency"
        )
    wanted = given.count("need") + given.count("spares")
    need = max(0, wanted - given.count("in_stock"))
    packs = cheapest_packs(need, sizes, prices)
    got = sum(n * size for n, size in zip(packs, sizes, strict=True))
    cost = float(sum(n * price for n, price in zip(packs, prices, strict=True)))
    unit = next(iter(units), "")
    return Answer(
        (
            Result("packs", sum(packs), "pcs", 0, "to buy"),
            Result("pieces", got, "pcs", 0, "in them"),
            Result("left_over", got - need, "pcs", 0, "after use, spares aside"),
            Result("price", cost, unit, 2, "in all"),
        ),
        tables=(
            Rows(
                "packs",
                (Column("packs"), Column("of"), Column("price", unit, 2)),
                tuple(
                    (n, size, float(n * price))
                    for n, size, price in zip(packs, sizes, prices, strict=True)
                    if n
                ),
            ),
        ),
        assumptions=("postage and discounts not counted",),
    )


def _count(name: str, meaning: str, default: str = "", *, many: bool = False) -> Input:
    return Input(
        name,
        meaning,
        kind=Kind.COUNT,
        accept=at_least(0 if default == "0" else 1, 100_000),
        default=default,
        many=many,
    )


SUMS = (
    Sum(
        name="cut-list",
        title="Bars to buy and how to cut them",
        inputs=(
            Input(
                "pieces",
                "lengths wanted",
                "mm",
                accept=POSITIVE,
                many=True,
                also=("lengths",),
            ),
            _count("count", "how many of each", "1", many=True),
            Input(
                "bar",
                "length of a bar as sold",
                "mm",
                accept=POSITIVE,
                also=("stock_length",),
            ),
            Input("kerf", "full width of a cut", "mm", accept=at_least(0)),
            Input(
                "trim",
                "lost at each end of a bar",
                "mm",
                accept=at_least(0),
                default="0 mm",
            ),
            Input(
                "offcuts",
                "lengths in stock, used first",
                "mm",
                accept=POSITIVE,
                many=True,
                optional=True,
            ),
            Input("price", "of one bar", "", Kind.MONEY, at_least(0), optional=True),
        ),
        compute=_cut_list,
        formula="longest piece first into the tightest rest; bars >= sum(piece + kerf) "
        "/ (bar + kerf)",
        source="best-fit decreasing; a heuristic with its lower bound",
        how="computed",
        example={
            "pieces": ("180 mm", "60 mm"),
            "count": ("2", "4"),
            "bar": "1000 mm",
            "kerf": "1.5 mm",
            "price": "6.40 EUR",
        },
        also=("bars", "cutlist"),
    ),
    Sum(
        name="buy",
        title="Packs to buy and what they cost",
        inputs=(
            _count("need", "pieces needed"),
            _count("spares", "to have beside them (see spares)", "0"),
            _count("in_stock", "already there", "0"),
            _count("pack_sizes", "pieces in a pack, for each pack sold", many=True),
            Input(
                "prices",
                "of a pack, for each",
                "",
                Kind.MONEY,
                at_least(0),
                many=True,
                also=("price",),
            ),
        ),
        compute=_buy,
        formula="cheapest packs that hold need + spares - in stock, then least left",
        source="exact search over all packs",
        how="computed",
        example={
            "need": "26",
            "spares": "4",
            "pack_sizes": ("10", "50"),
            "prices": ("1.90 EUR", "6.50 EUR"),
        },
        also=("packs",),
    ),
)
