"""Work on a thing nobody has named yet that may be a part, or have the feature made.

The lines are invented.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import NO_PART, Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("primed the crown with gesso", "crown"),
        ("sewed the belly shut", "belly"),
        ("faced the head tube both sides", "head tube"),
        ("cut the mortises in both legs, 50 min", "leg"),
        ("routed the slots in the sprag", "sprag"),
        ("carved the second head", "head"),
        ("sanded the neck smooth", "neck"),
        ("spot welded the bail, 10 min", "bail"),
    ],
)
def test_which_part_was_worked_on_is_asked(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.ASKED, Kind.STEP)
    assert line.question is not None
    assert line.question.choices[-2:] == (part, NO_PART)


@pytest.mark.parametrize(
    "says",
    ["drilled the pilot holes", "changed the blade", "deburred the edges",
     "cut the mortises, 50 min"],
)  # fmt: skip
def test_a_feature_or_a_blade_changed_asks_after_no_part(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.STEP
    assert not line.facts.part
    assert all(one.about != "part" for one in line.doubts if one.needed)


@pytest.mark.parametrize(
    ("says", "part", "inside", "closes"),
    [
        ("silver soldered the channel closed", "channel", False, True),
        ("laid the cable in the hollow leg", "cable", True, False),
        ("cable pulled through the hollow pier", "cable", True, False),
        ("blacked the inside of the collar", "collar", False, False),
        ("put the cable in before the lid, as told", "cable", False, False),
        ("put the hollow lid on", "lid", False, False),
        ("laid the cable in the sun", "cable", False, False),
    ],
)
def test_what_lies_inside_and_what_is_shut_is_told(
    says: str, part: str, inside: bool, closes: bool
) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STEP)
    facts = line.facts
    assert (facts.part, facts.inside, facts.closes) == (part, inside, closes)


def test_what_is_to_be_done_in_its_order_is_still_asked() -> None:
    line = understand("put the cable in before the lid", PROJECT)
    assert line.verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "taken"),
    [
        ("glued the box shut, clamps off tomorrow", True),
        ("painted the lid, second coat tomorrow", True),
        ("soldered the cable, lid goes on tomorrow", True),
        ("glued the lid on, tomorrow", False),
        ("cut the lid tomorrow", False),
        ("painted the lid tomorrow", False),
    ],
)
def test_what_lies_ahead_behind_work_done_is_not_when_it_was(
    says: str, taken: bool
) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.STEP
    assert (line.verdict is Verdict.TAKEN) is taken
    if taken:
        assert line.facts.when is None
