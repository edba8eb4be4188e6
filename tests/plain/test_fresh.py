"""Lines nobody tuned for when they were written, in projects of three ages."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.plain.fresh import BATCHES, batch, judge

RIGHT_AT_LEAST = 0.80
RIGHT_AT_LEAST_OF = {
    13: 0.70, 21: 0.55, 22: 0.55, 23: 0.65, 25: 0.75, 26: 0.55, 27: 0.68,
    39: 0.75, 40: 0.65, 41: 0.65, 52: 0.65, 60: 0.60,
}  # fmt: skip
"""Batches in shorthand, of parts unheard of, of long tales: more is asked about."""
WRONG_AT_MOST = 0.02


@pytest.mark.parametrize("number", BATCHES)
def test_fresh_lines_are_right_or_asked_about(number: int) -> None:
    lines = batch(number)
    judged = [(line["says"], *judge(line)) for line in lines]
    found = Counter(verdict for _, verdict, _ in judged)
    wrong = [f"{says}: {why}" for says, verdict, why in judged if verdict == "wrong"]
    assert len(lines) >= 60
    least = RIGHT_AT_LEAST_OF.get(number, RIGHT_AT_LEAST)
    assert found["right"] >= least * len(lines), found
    assert len(wrong) <= WRONG_AT_MOST * len(lines), "\n".join(wrong)
