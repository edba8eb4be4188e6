"""Revision letters by ASME Y14.35 practice: 20 letters, two places at most."""

from __future__ import annotations

import pytest

from logbook.records.together.labels import next_label


@pytest.mark.parametrize(
    ("used", "following"),
    [
        ([], "-"), (["-"], "A"), (["H"], "J"), (["Y"], "AA"), (["AY"], "BA"),
        (["v2"], "v3"), (["rev 3"], "rev 4"), (["V1.2"], "V1.3"), (["r09"], "r10"),
        (["-", "B", "A"], "C"), (["first"], "first-2"),
    ],
)  # fmt: skip
def test_the_next_label(used: list[str], following: str) -> None:
    assert next_label(used) == following


def test_four_hundred_and_twenty_letter_labels_end_with_yy() -> None:
    labels = ["-"]
    for _ in range(420):
        labels.append(next_label(labels))
    assert labels[-1] == "YY"
    assert len(set(labels)) == 421
    assert not set("IOQSXZ") & set("".join(labels))
