"""What goes back to who sold or made it is returned; what goes back on is not."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    "says",
    [
        "tuners go back to the shop, wrong post size",
        "sending the nozzle set back, wrong thread",
        "shipping the walnut back, full of worm",
        "returned the canvas, wrong weight",
        "relays to be returned, 24 V ones came",
        "bearings going back, 6201 came instead of 6001",
        "plywood had a void in it, sent it back",
        "opal sheet scratched on arrival, sent it back",
        "leather is going back, scratched",
        "the oak goes back to the yard, full of shakes",
        "posted the castors back, wrong thread came",
    ],
)
def test_what_was_bought_goes_back_without_a_question(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.part) == ("return", "")
    assert line.facts.readings == ()


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("collars go back to the cutter, outline mirrored", "collar"),
        ("took lamp 2 back to the store, it hums", "lamp"),
        ("sent the chipped mirror back for a new one", "mirror"),
        ("taking the hinges back to the dealer, too short", "hinge"),
        ("mask 2 goes back, edge is burnt", "mask"),
    ],
)
def test_a_part_that_goes_back_is_named(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.part) == ("return", part)


def test_a_thing_never_heard_of_that_failed_is_asked_about() -> None:
    line = understand("reed goes back to the seller, dents uneven", PROJECT)
    assert line.question is not None
    assert line.question.choices == ("reed", "no part")


@pytest.mark.parametrize(
    "says",
    [
        "lid goes back on after paint",
        "gate goes back in with the new screws",
        "cable goes back through the channel",
        "the bed goes back to being oak",
        "crossbar goes back to 178.3",
        "the lid goes back in the oven",
        "mask went back together",
    ],
)
def test_what_goes_back_to_its_place_is_not_returned(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.facts.disposition != "return"
