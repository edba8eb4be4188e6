"""Several things bought in one line are an order each; what both cost is of neither."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.records.kinds.happenings import Order
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("lid", "gate")


def orders(line: str) -> list[tuple[int, str]]:
    """Give how many of what the orders of a line are."""
    records = world(known(WORDS))
    draft = draft_line(Draft(records, NOW), understand(line, WORDS))
    made = [one for one in draft.records if isinstance(one, Order)]
    named = [one.item or (one.part.name if one.part else "") for one in made]
    return [(one.quantity, name) for one, name in zip(made, named, strict=True)]


@pytest.mark.parametrize(
    ("line", "bought"),
    [
        (
            "bought 40 M5x12 screws and 2 kg of PETG",
            [(40, "M5x12 screws"), (1, "2 kg of PETG")],
        ),
        (
            "bought 10 M3x8 pan head and 1 sheet of 3 mm opal acrylic",
            [(10, "M3x8 pan head"), (1, "sheet of 3 mm opal acrylic")],
        ),
        (
            "ordered ten M4x20 and a bag of washers",
            [(10, "M4x20"), (1, "bag of washers")],
        ),
        ("ordered 2 lids and 3 gates", [(2, "lid"), (3, "gate")]),
        ("bought 4 rubber feet, 2 kg PETG", [(4, "rubber feet"), (1, "2 kg PETG")]),
        ("bought 3 mm and 5 mm plywood", [(1, "3 mm and 5 mm plywood")]),
        ("bought 4 rubber feet", [(4, "rubber feet")]),
        ("ordered nuts and bolts", [(1, "nuts and bolts")]),
    ],
)
def test_each_thing_is_an_order(line: str, bought: list[tuple[int, str]]) -> None:
    assert orders(line) == bought


def test_what_both_cost_stays_in_words() -> None:
    line = understand("bought 40 M5x12 screws and 2 kg of PETG for 38.50 €", WORDS)
    shown = in_one_line(line)
    assert "and an order of 2 kg of PETG" in shown
    assert "38.50 €" in shown.partition("only in words")[2]


def test_what_both_cost_is_said_of_one_order_only() -> None:
    line = understand("bought 10 screws and 2 kg of PETG, 46 euro", WORDS)
    first, second = (
        one for one in drafted(line, world(known(WORDS))) if isinstance(one, Order)
    )
    assert first.title == line.line
    assert second.title == "2 kg of PETG"
