"""What several sums of readings ask: the readings, a confidence, one side or two."""

from __future__ import annotations

from logbook.shop.given import Input, Kind, between

READINGS = Input(
    "readings", "readings, with or without a unit", kind=Kind.FIGURE, many=True,
    also=("data", "values"),
)  # fmt: skip


CONFIDENCE = Input(
    "confidence", "level of confidence, as 0.95", kind=Kind.NUMBER,
    accept=between(0, 1), default="0.95", also=("coverage", "level"), share=True,
)  # fmt: skip


SIDES = Input(
    "sides", "one- or two-sided", kind=Kind.CHOICE, choices=("two", "one"),
    default="two",
    words={"two-sided": "two", "one-sided": "one", "2": "two", "1": "one"},
)  # fmt: skip
