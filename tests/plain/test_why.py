"""Why a failure came: told in a short clause, or denied, which is no cause."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "cause"),
    [
        ("scratch across the mask, straightedge slipped", "straightedge slipped"),
        ("slot 2 came out crooked, fence moved", "fence moved"),
        ("collar won't go on, paint built up", "paint built up"),
        ("varnish peeled off the bed, didn't sand", "didn't sand"),
        ("bed split at the end, forgot to predrill", "forgot to predrill"),
        ("cable nicked by a burr at the lid", "a burr"),
    ],
)
def test_a_short_clause_of_what_went_astray_tells_why(says: str, cause: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.FAILURE
    assert line.facts.cause is not None
    assert line.facts.cause.said == cause


@pytest.mark.parametrize(
    "says",
    [
        "the bracket split, it was not the glue",
        "lid cracked again, so it was not the heat",
        "diffuser cracked at the corner, not because of the screw",
    ],
)
def test_a_cause_that_is_denied_is_none(says: str) -> None:
    cause = understand(says, PROJECT).facts.cause
    assert cause is None or "short" not in cause.said


def test_the_cause_behind_a_denied_one_is_kept() -> None:
    says = "lid broke, not because of the heat but because I dropped it"
    cause = understand(says, PROJECT).facts.cause
    assert cause is not None
    assert cause.said == "I dropped it"


@pytest.mark.parametrize(
    "says",
    [
        "the cure with 6 walls did not help on the lid, snapped again",
        "the cure with the rivet nuts does not hold either, one spun in the sheet",
    ],
)
def test_a_cure_that_did_not_help_is_none(says: str) -> None:
    line = understand(says, PROJECT)
    assert line.facts.cure == ""
    assert line.verdict is not Verdict.KEPT


def test_a_part_that_moved_by_itself_is_no_cause() -> None:
    line = understand("mask slid while cutting, lid moved", PROJECT)
    assert line.facts.cause is None


@pytest.mark.parametrize(
    "says",
    [
        "folder set to 1.2 mm backset, bend comes 0.3 short",
        "folder set to 1.2 backset, flange came out 0.3 short",
    ],
)
def test_what_came_of_it_is_never_why(says: str) -> None:
    cause = understand(says, PROJECT).facts.cause
    assert cause is None or "short" not in cause.said


@pytest.mark.parametrize(
    "says",
    [
        "used 4 of the 24 screws, one striped its head",
        "fitted 4 inserts in the gate, one came out crooked",
        "glued the studs on the lid, two came off",
        "printed 3 gates, one of them warped",
        "riveted the lid, the other one cracked",
    ],
)
def test_what_befell_one_of_several_is_not_why(says: str) -> None:
    assert understand(says, PROJECT).facts.cause is None


@pytest.mark.parametrize(
    ("says", "why"),
    [
        ("base came out twisted, clamped it unevenly", "clamped it unevenly"),
        ("lid warped, cooled it unevenly", "cooled it unevenly"),
        ("cable dead, no light", ""),
        ("lamp 2 dead, no picture", ""),
        ("lamp dark, no power", "no power"),
    ],
)
def test_how_it_was_done_is_why_and_what_lacks_then_is_not(says: str, why: str) -> None:
    cause = understand(says, PROJECT).facts.cause
    assert (cause.said if cause else "") == why
