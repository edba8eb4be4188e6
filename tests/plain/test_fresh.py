"""Lines nobody tuned for when they were written, in projects of three ages."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.plain.fresh import BATCHES, batch, judge

RIGHT_AT_LEAST = 0.80
RIGHT_AT_LEAST_OF = {
    13: 0.70, 21: 0.55, 22: 0.55, 23: 0.65, 25: 0.75, 26: 0.55, 27: 0.68,
    39: 0.75, 40: 0.65, 41: 0.65, 52: 0.65, 60: 0.60, 66: 0.63, 67: 0.75, 68: 0.53,
    73: 0.65, 75: 0.78,
    77: 0.75, 78: 0.78, 79: 0.62, 81: 0.75, 82: 0.72, 84: 0.75, 85: 0.72,
    101: 0.55,
}  # fmt: skip
"""Batches in shorthand, of parts unheard of, of long tales: more is asked about."""
WRONG_AT_MOST = 0.02
WRONG_AT_MOST_OF = {
    63: 0.04, 68: 0.09, 72: 0.05, 73: 0.10, 78: 0.04, 83: 0.04, 101: 0.10,
}  # fmt: skip
"""Batches told of parts that are called like features (a nut, a neck, a pad), and of
several facts in a sentence."""


@pytest.mark.parametrize("number", BATCHES)
def test_fresh_lines_are_right_or_asked_about(number: int) -> None:
    lines = batch(number)
    judged = [(line["says"], *judge(line)) for line in lines]
    found = Counter(verdict for _, verdict, _ in judged)
    wrong = [f"{says}: {why}" for says, verdict, why in judged if verdict == "wrong"]
    assert len(lines) >= 60
    least = RIGHT_AT_LEAST_OF.get(number, RIGHT_AT_LEAST)
    assert found["right"] >= least * len(lines), found
    most = WRONG_AT_MOST_OF.get(number, WRONG_AT_MOST)
    assert len(wrong) <= most * len(lines), "\n".join(wrong)
