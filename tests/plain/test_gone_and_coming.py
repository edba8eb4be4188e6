"""What is with somebody else, comes on a day, or went back to who sold it."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts(
    "hopper", "fence", "saddle", "crank", "drawer", "roller", "lamp", "seat"
)


def read(says: str) -> Understanding:
    return understand(says, WORDS)


@pytest.mark.parametrize(
    ("says", "part", "due"),
    [
        ("the seats have gone to the spray shop, back on friday", "seat", "2026-03-20"),
        ("both rollers went to the welding place", "roller", ""),
        ("hopper is at the plating place until the 3rd", "hopper", "2026-04-03"),
        ("the new cranks will come on friday", "crank", "2026-03-20"),
        ("saddle will arrive on the 21st", "saddle", "2026-03-21"),
        ("fence comes on the 3rd", "fence", "2026-04-03"),
        ("3 drawers due on the 21st", "drawer", "2026-03-21"),
        ("the lamp is in the post", "lamp", ""),
        ("hinge screws will be here on monday", "", "2026-03-16"),
        ("M5 screws arrive on thursday", "", "2026-03-19"),
    ],
)
def test_what_is_to_come_is_an_order(says: str, part: str, due: str) -> None:
    line = read(says)
    assert line.kind is Kind.ORDER
    if part:
        assert line.verdict is Verdict.TAKEN
        assert line.facts.part == part
    assert str(line.facts.due or "") == due
    assert "place" not in line.facts.item  # With whom it is, is no thing ordered.


@pytest.mark.parametrize(
    "says",
    [
        "glued 2 rollers, in the clamps until friday",
        "put 3 seats back on friday",
        "painted 3 drawers, second coat due on monday",
        "2 saddles must dry till monday",
        "lamp comes on after 3 s",
        "the inspector comes on friday",
        "fence stays off until monday",
        "hopper 178.3, back on friday",
    ],
)
def test_what_only_stays_or_is_to_be_done_until_then_is_no_order(says: str) -> None:
    assert read(says).kind is not Kind.ORDER


@pytest.mark.parametrize(
    ("says", "part", "piece"),
    [
        ("took lamp 3 back to the store", "lamp", "lamp 3"),
        ("brought the hopper back to the waterjet place", "hopper", ""),
        ("carried the bad roller back to the dealer", "roller", ""),
        ("handed the lamp back at the store", "lamp", ""),
        ("lamp 2 back to the supplier, flickers", "lamp", "lamp 2"),
        ("seat 3 back to the upholsterer, seam open", "seat", "seat 3"),
    ],
)
def test_what_went_back_to_who_sold_or_made_it_is_returned(
    says: str, part: str, piece: str
) -> None:
    line = read(says)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    facts = line.facts
    assert (facts.part, facts.piece, facts.disposition) == (part, piece, "return")


@pytest.mark.parametrize(
    "says",
    [
        "took the crank back to the bench",
        "brought the fence back to 90",
        "took the drawer back to the store room",
        "seat back to 450 after sanding",
    ],
)
def test_what_only_went_back_in_the_shop_is_not(says: str) -> None:
    line = read(says)
    assert line.verdict is not Verdict.TAKEN or line.facts.disposition != "return"
