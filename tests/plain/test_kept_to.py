"""What is stayed with, and what is left out of this one, was decided; a price is money.

The lines are invented.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    "says",
    [
        "We will stay with linen for the covers",
        "we will remain with the thinner cord",
        "remaining with linen",
        "I am sticking with oil",
        "we stick with the thinner cord",
        "we'll keep to beech",
        "no fan in this one",
        "no handle on this one",
        "no motor on this one, hand crank",
        "no switch in this build",
        "no feet under this one",
    ],
)
def test_what_is_stayed_with_or_left_out_is_decided(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)


@pytest.mark.parametrize(
    "says",
    [
        "tape will not stick to the oil",
        "they stay with us until friday",
        "glue is sticking to the clamp",
        "no light in this one",
        "no crack in this one",
        "no play in this one",
        "no luck this time",
        "no scratches on this one",
    ],
)
def test_what_only_is_so_was_decided_by_nobody(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or line.kind is not Kind.DECISION


@pytest.mark.parametrize(
    ("says", "item", "price"),
    [
        ("bought 2 more grips 4.20 a pair", "", "4.20"),
        ("bought 10 screws 3.50 a box", "screws", "3.50"),
        ("bought 3 m of webbing 1.20 per m", "3 m of webbing", "1.20"),
        ("got two springs for 1.50 each", "springs", "1.50"),
        ("ordered 6 rivets 0.35 apiece", "rivets", "0.35"),
        ("bought 6 more corner brackets, 2.10 each", "corner brackets", "2.10"),
    ],
)
def test_what_each_costs_is_no_part_of_what_was_bought(
    says: str, item: str, price: str
) -> None:
    facts = understand(says, PROJECT).facts
    assert (facts.item, facts.price_text, facts.readings) == (item, price, ())
    assert facts.part != "box"


def test_a_size_of_each_is_no_price() -> None:
    line = understand("collars 18.25 each", PROJECT)
    assert [str(one.value) for one in line.facts.readings] == ["18.25 mm"]
