"""What each build cost, as far as its money is on record."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from logbook.publish.parts.hours_told import is_under_way
from logbook.quantity import quantity
from logbook.records.kinds.happenings import Order
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot


def money_told(snapshot: Snapshot) -> Iterator[str]:
    """Say what the orders of each build came to, currency by currency.

    An order that only says that something was received is not counted again.
    """
    for build in snapshot.all(Build):
        sums: dict[str, Fraction] = defaultdict(Fraction)
        for order in snapshot.all(Order):
            price = order.price
            if price is None or order.received or price.metal:
                continue
            if snapshot.find(order.build, Build) is build and price.unit:
                sums[price.unit] += price.to(price.unit)
        if sums:
            said = " and ".join(
                str(quantity(round(total * 100) / Fraction(100), unit))
                for unit, total in sums.items()
            )
            far = " so far" if is_under_way(snapshot, build) else ""
            yield f"{build.title}: {said} on order{far} (as said)"
