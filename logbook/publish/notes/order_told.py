"""An order told in the diary: what, how many, what for, and what was said of it.

What is wrong with what was bought, and what there was instead, a rebuilder needs most.
"""

from __future__ import annotations

import re

from logbook.records.kinds.happenings import Order
from logbook.records.together.likeness import stems
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import whole_title

ORDERED, BOUGHT, RECEIVED = "Ordered", "Bought", "Received"
_BOUGHT = re.compile(r"(?i)^(?:i |we )?(?:just )?(?:bought|purchased|picked up|got)\b")
_SAYS_ORDER = stems("bought purchased ordered order received picked got sent for some")
_MOST_UNTOLD = 1
"""Words of a line without a comma that may be left out of what is told of it."""


def order_told(snapshot: Snapshot, order: Order) -> tuple[str, str]:
    """Give what was done, and of what; with all that its line says beside."""
    done = BOUGHT if _BOUGHT.match(order.title) else ORDERED
    done = RECEIVED if order.received else done
    part = snapshot.find(order.part)
    name = part.title if part else ""
    what = order.item or name or order.title
    several = order.quantity != 1 or not what[:1].isdigit()
    told = f"{order.quantity} × {what}" if several else what
    if name and name.casefold() not in what.casefold():
        told += f", for the {name}"
    said = _said_beside(order, f"{what} {name}")
    price = str(order.price) if order.price else ""
    priced = not price or price.split()[0] in f"{told} {said}"
    return done, "; ".join(filter(None, (told, said, "" if priced else price)))


def _said_beside(order: Order, told: str) -> str:
    """Give what a line says behind its first clause; all of it where it has but one."""
    first, _, rest = whole_title(order).partition(", ")
    if rest:
        return "" if rest.casefold() in told.casefold() else rest.rstrip(". ")
    left = stems(first) - stems(told) - _SAYS_ORDER
    return f"“{first}”" if len(left) > _MOST_UNTOLD else ""
