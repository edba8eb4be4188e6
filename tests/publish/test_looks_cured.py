"""Known faults that look cured: said with the line that says so, asked of once.

The scene is the copy stand; its failures and corrections are invented.
"""

from __future__ import annotations

import json

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

LOOKS = "looks cured, nobody has said so"


def looking(stand: Stand) -> list[str]:
    return [one for one in stand.look("check")[1].splitlines() if LOOKS in one]


def rocks(stand: Stand, *more: str) -> None:
    told(stand, "failure", "base", "base rocks", "--met-by", "drawing", *more)


def test_a_size_that_was_changed_since_it_was_found_wrong(stand: Stand) -> None:
    told(stand, "measure", "base", "opening", "178.1", "--met-by", "drawing", "--do",
         "use as is")  # fmt: skip
    assert not looking(stand)
    told(stand, "revise", "base", "--changed", "wider", "--dimension", "opening=182")
    (line,) = looking(stand)
    assert "base rev A changed the opening from 180.0 mm to 182 mm" in line
    assert '--fixed-by "base rev A"; if it is still there: ' in line
    known = line.partition("logbook erratum ")[2].partition(" ")[0]
    told(stand, "erratum", known, "--fixed-by", "base rev A")
    assert not looking(stand)


def test_another_size_that_was_changed_says_nothing_of_it(stand: Stand) -> None:
    told(stand, "measure", "base", "opening", "178.1", "--met-by", "drawing", "--do",
         "use as is")  # fmt: skip
    told(stand, "revise", "base", "--changed", "taller", "--dimension", "height=40")
    assert not looking(stand)


def test_what_was_to_be_done_is_done_in_a_revision(stand: Stand) -> None:
    rocks(stand, "--cure", "three felt pads")
    told(stand, "revise", "base", "--changed", "three felt pads under the uprights")
    assert "changed “three felt pads under the uprights”" in looking(stand)[0]


def test_what_the_cause_names_is_changed_and_the_release_says_it_once(
    stand: Stand,
) -> None:
    rocks(stand, "--cause", "one flange bends out")
    told(stand, "revise", "base", "--changed", "longer flanges", "--remake", "no")
    assert len(looking(stand)) == 1
    said = told(stand, "release", "1.2", "--anyway")
    assert said.count(LOOKS) == 1
    assert "nobody has said whether base rev A" not in said
    assert len(looking(stand)) == 1


def test_a_revision_that_did_something_else_is_asked_about_as_before(
    stand: Stand,
) -> None:
    rocks(stand, "--cause", "one flange bends out")
    told(stand, "revise", "base", "--changed", "a cable hole", "--remake", "no")
    assert not looking(stand)
    before = " ".join(stand.look("release", "1.2", "--check")[1].split())
    assert (
        "base rocks: nobody has said whether base rev A (release 1.2) has it" in before
    )
    for verb in ("--revision", "--not-revision", "--fixed-by"):
        assert f'{verb} "base rev A"' in before, (
            "what says it is named before it is out"
        )
    said = told(stand, "release", "1.2", "--anyway")
    assert "base rocks: nobody has said whether base rev A (release 1.2) has it" in said


def test_nothing_is_said_of_a_revision_that_has_it_or_is_known_to_be_without_it(
    stand: Stand,
) -> None:
    for option in ("--revision", "--not-revision"):
        here = stand.copy(stand.bench.top.parent / option)
        rocks(here, "--cause", "one flange bends out")
        told(here, "revise", "base", "--changed", "longer flanges")
        assert looking(here)
        told(here, "erratum", "base rocks", option, "base rev A")
        assert not looking(here)


def test_what_is_to_be_taken_instead_is_on_the_list_and_the_old_one_off(
    stand: Stand,
) -> None:
    told(stand, "part", "M5x16", "--source", "bought")
    told(stand, "line", "M5x16", "2")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "failure", "M5x16", "it does not reach", "--met-by", "drawing",
         "--cure", "take M5x20", "--do", "scrap")  # fmt: skip
    assert not looking(stand)
    told(stand, "part", "M5x20", "--source", "bought")
    told(stand, "line", "M5x20", "2")
    told(stand, "line", "M5x16", "0")
    (line,) = looking(stand)
    assert "M5x16 is on the list no more, and the list has M5x20 now" in line
    assert line.endswith('--fixed-by "M5x20 first issue"')
    told(stand, "erratum", "it does not reach", "--fixed-by", "M5x20 first issue")
    assert not looking(stand)


def test_what_an_instruction_names_that_was_on_the_list_before_cures_nothing(
    stand: Stand,
) -> None:
    rocks(stand, "--cure", "wedge it with the crossbar")
    assert not looking(stand)


# -- once its author has said it -----------------------------------------------------


def facts(stand: Stand, title: str) -> dict[str, str]:
    page = json.loads(stand.look("errata", "1.1", "--json")[1])
    return next(one for one in page["faults"] if one["title"] == title)


def test_a_fault_with_a_cure_and_no_words_of_it_is_done_as_the_cure_draws_it(
    stand: Stand,
) -> None:
    rocks(stand)
    told(stand, "revise", "base", "--changed", "longer flanges")
    told(stand, "erratum", "base rocks", "--fixed-by", "base rev A")
    rests = facts(stand, "base rocks")
    assert rests["do_this"] == "make it to base rev A (not released): longer flanges"
    assert rests["way_round"] == "way round available"
    assert rests["status"] == "fixed"


def test_what_is_bought_is_not_said_to_be_made_by_a_guide(stand: Stand) -> None:
    told(stand, "failure", "lamp", "lamp flickers", "--met-by", "drawing")
    told(stand, "part", "dimmer", "--source", "bought")
    told(stand, "line", "dimmer", "1")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "erratum", "lamp flickers", "--fixed-by", "dimmer first issue")
    rests = facts(stand, "lamp flickers")
    assert rests["do_this"] == "take the dimmer"
    assert rests["guide"] == ""
