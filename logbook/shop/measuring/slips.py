"""Readings that look like slips: a decimal point missed, two figures changed round."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from statistics import median

FAR = 8.0
"""Times the spread of the other readings that nobody's hand makes; their spread is
that of the middle half, and a thousandth of the middle at least. Common practice,
no source."""


def slip_said(readings: Sequence[Fraction], unit: str = "") -> tuple[str, ...]:
    """Call out readings so far from the others that they look like typing slips.

    Judged by the median and the middle half of the readings, which one slip does
    not move; a slip of the decimal point is named as such.
    """
    if len(readings) < 3:
        return ()
    in_order = sorted(readings)
    middle = median(in_order)
    off = median(sorted(abs(one - middle) for one in in_order))
    # 1.4826: the median deviation of a normal spread is 0.6745 of its sd.
    room = FAR * max(float(off) * 1.4826, abs(float(middle)) / 1000)
    odd = [one for one in readings if abs(one - middle) > room]
    if not room or not odd or 2 * len(odd) >= len(readings):
        return ()
    shown = ", ".join(f"{float(one):.10g}" for one in dict.fromkeys(odd))
    point = any(
        abs(one * factor - middle) <= room
        for one in odd
        for factor in (Fraction(1, 100), Fraction(1, 10), 10, 100)
    )
    why = ", perhaps the decimal point" if point else ""
    behind = f" {unit}" if unit else ""
    return (
        (
            f"{shown}{behind} stands far from the others, about "
            f"{float(middle):.6g}{behind}: likely a slip in typing or reading{why}; "
            "put it right before using these figures"
        ),
    )
