"""What was ordered or sent away, in other words: how many, at what price, for when.

The lines and prices are invented.
"""

from __future__ import annotations

from datetime import date

import pytest

from logbook.plain.lines import understand
from logbook.plain.named.names import singular
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT

MONDAY, FRIDAY = date(2026, 3, 16), date(2026, 3, 20)


@pytest.mark.parametrize(
    ("says", "item", "many", "price", "due"),
    [
        ("sent 4 brackets out for laser cutting, 62.00, ready monday",
         "bracket", 4, "62.00", MONDAY),
        ("10 sockets on order, 27.50, due monday", "socket", 10, "27.50", MONDAY),
        ("12 glass eyes on order, 54.00, due in three weeks",
         "glass eye", 12, "54.00", date(2026, 4, 4)),
        ("put in an order for 8 rubber feet, 6.40, here by friday",
         "rubber foot", 8, "6.40", FRIDAY),
        ("placed an order for 3 manifolds, 148.00, due friday",
         "manifold", 3, "148.00", FRIDAY),
        ("lid dxf v3 out to the cutter, 5 pcs, 71.00, by the 19th",
         "lid", 5, "71.00", date(2026, 3, 19)),
        ("gave the lid outline to the laser people, 6 pieces, 44.10, due on the 21st",
         "lid", 6, "44.10", date(2026, 3, 21)),
        ("mirror packed off for coating, 1 piece, 140.00, four weeks",
         "mirror", 1, "140.00", date(2026, 4, 11)),
        ("dial off for silvering, 1 piece, 70.00, back in two weeks",
         "dial", 1, "70.00", date(2026, 3, 28)),
        ("ordered 6 hooks, 8.00, in ten days", "hook", 6, "8.00", date(2026, 3, 24)),
        ("took the bed to the sanding shop, 1 piece, 15.00, back monday",
         "bed", 1, "15.00", MONDAY),
        ("carried 3 lids to the etching people, 21.00, back friday",
         "lid", 3, "21.00", FRIDAY),
        ("took 6 tubes to the plater, 40.00, back monday",
         "tube", 6, "40.00", MONDAY),
    ],
)  # fmt: skip
def test_an_order_keeps_what_how_many_the_price_and_when(
    says: str, item: str, many: int, price: str, due: date
) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.ORDER)
    facts = line.facts
    assert item in (facts.part, " ".join(singular(facts.item.split())))
    assert (facts.quantity, facts.price_text) == (many, price)
    assert facts.due == due
    assert not facts.wanted
    assert facts.when is None


@pytest.mark.parametrize(
    "says",
    [
        "gave the lid a second coat",
        "decided to let the lid dry for two weeks",
        "lid v3 is out of square",
        "bearing dropped off the bracket",
    ],
)
def test_what_is_not_sent_to_anyone_is_no_order(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is not Kind.ORDER
    assert line.facts.due is None


@pytest.mark.parametrize(
    ("line", "item", "beside", "many"),
    [
        ("ordered 5 m cable, 20 M4x12", "5 m cable", "M4x12", 20),
        ("ordered 10 m of braid and 50 blind rivets", "10 m of braid", "rivets", 50),
        ("bought 3 m of sleeving, 12 M3x8", "3 m of sleeving", "M3x8", 12),
        ("ordered 500 ml of oil and 4 brushes", "500 ml of oil", "brushes", 4),
        ("bought 2 kg of filler and 6 M5 washers", "2 kg of filler", "M5", 6),
        ("ordered 2 m of felt and 8 rubber feet", "2 m of felt", "feet", 8),
    ],
)
def test_an_amount_gets_no_count_of_what_is_ordered_beside_it(
    line: str, item: str, beside: str, many: int
) -> None:
    found = understand(line, PROJECT)
    assert (found.kind, found.facts.item) == (Kind.ORDER, item)
    assert found.facts.quantity is None
    [one] = found.facts.besides
    assert one.quantity == many
    assert beside in (one.item or one.part)


@pytest.mark.parametrize(
    ("line", "many"),
    [
        ("ordered 20 M4x12 and 5 m of cable", 20),
        ("ordered 3 hinges and 12 M3x8", 3),
        ("ordered 50 blind rivets", 50),
    ],
)
def test_what_is_counted_first_keeps_its_count(line: str, many: int) -> None:
    found = understand(line, PROJECT)
    assert found.facts.quantity == many
