"""What was put into a part for good, or only over it; what nobody does on purpose."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts(
    "hopper", "fence", "saddle", "crank", "drawer", "roller", "cable", "seat", "rail"
)


def read(says: str) -> Understanding:
    return understand(says, WORDS)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("melted four inserts into the hopper", "hopper"),
        ("pressed 2 magnets into the fence", "fence"),
        ("heat set two inserts into the saddle", "saddle"),
        ("drove six dowels into the rail", "rail"),
        ("melted two nuts into the crank", "crank"),
        ("hammered a t-nut into the seat", "seat"),
        ("sank four M4 inserts in the drawer", "drawer"),
        ("melted two brass inserts into the plinth", "plinth"),
    ],
)
def test_fasteners_set_into_a_part_are_work_done(says: str, part: str) -> None:
    line = read(says)
    assert (line.kind, line.verdict, line.facts.part) == (
        Kind.STEP, Verdict.TAKEN, part,
    )  # fmt: skip


@pytest.mark.parametrize(
    "says",
    [
        "the hopper melted at the insert",
        "melted two inserts into the fence, both crooked",
        "stripped an M3 insert in the saddle",
        "sheared a bolt in the rail",
        "drove a screw into the cable",
        "drilled into the cable",
        "screwed through the lead",
    ],
)
def test_what_broke_on_the_way_is_no_plain_work(says: str) -> None:
    line = read(says)
    assert line.kind is Kind.FAILURE or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    ("says", "closes"),
    [
        ("sealed the seat with oil", False),
        ("sealed the drawer with two coats of shellac", False),
        ("sealed the end grain with wax", False),
        ("sealed the hopper with silicone", True),
        ("glued the saddle on for good", True),
        ("sealed the fence", True),
    ],
)
def test_a_coat_closes_nothing(says: str, closes: bool) -> None:
    assert read(says).facts.closes is closes


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("swapped the roller for a new one", "roller"),
        ("replaced the cable with another", "cable"),
        ("swapped the rail for a spare", "rail"),
    ],
)
def test_one_like_it_in_its_place_is_work_and_no_choice(says: str, part: str) -> None:
    line = read(says)
    assert (line.kind, line.verdict, line.facts.part) == (
        Kind.STEP, Verdict.TAKEN, part,
    )  # fmt: skip


@pytest.mark.parametrize(
    "says",
    [
        "swapped the spring for a softer one, pull 4 N now",
        "replaced the spring by a stiffer one",
        "changed the nozzle for a hardened one",
        "drilled the same hole in the opposite one",
    ],
)
def test_the_word_that_tells_which_one_is_no_part(says: str) -> None:
    for words in (WORDS, of_parts()):
        part = understand(says, words).facts.part
        assert part not in ("softer", "stiffer", "hardened", "opposite")
