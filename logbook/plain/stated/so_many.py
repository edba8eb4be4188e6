"""How many of a part a line of the parts list has, and how much each is."""

from __future__ import annotations

import re

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity

ACCEPTED = "pieces, not packs (4), how much (1.5 m), or both (2 x 400 mm)"
_TIMES = re.compile(r"(?P<number>\d+)\s*(?:[x×*]|pcs?\.?(?: of)?)\s*(?P<amount>.*\D.*)")
_DIMENSIONS = {"length", "area", "volume", "mass"}


def so_many(typed: str, amount: str = "") -> tuple[int | None, Quantity | None]:
    """Give pieces and how much each is: “4”, “1,5 m” and “2 x 400 mm”; None: not told.

    `amount` is how much it is where that is told by itself.

    Raises:
        BadInput: it is neither.
    """
    typed = typed.strip()
    both = _TIMES.fullmatch(typed)
    if both is not None:
        return int(both["number"]), _amount(both["amount"])
    if re.fullmatch(r"\d+", typed):
        return int(typed), _amount(amount) if amount else None
    if not typed:
        return None, _amount(amount) if amount else None
    return 1, _amount(typed)


def _amount(text: str) -> Quantity:
    """Read how much it is, with its unit: a bare number may be of anything.

    Raises:
        BadInput: it has no unit, or one of no stuff.
    """
    refusal = BadInput(f"quantity: found “{text}”; accepted: {ACCEPTED}")
    if not re.search(r"[^\W\d_]|[\"'″′]", text):
        raise refusal
    try:
        found = parse_quantity(text, "mm")
    except BadInput as bad:
        found_so = str(bad).partition("; accepted")[0]
        raise BadInput(f"quantity: {found_so}; accepted: {ACCEPTED}") from bad
    if found.metal or found.dimension not in _DIMENSIONS or found.value <= 0:
        raise refusal
    return found
