"""What a line says came of a cure is told with the cure, not under what was seen."""

from __future__ import annotations

import pytest

from logbook.advice.faults.held_words import says_held, tells_of_outcome
from tests.cli.shop import Shop

SEEN = "**What was seen, and why**"


def errata(shop: Shop, line: str, *told: str) -> str:
    shop.logbook("start")
    said = shop.logbook("failure", "hinge", line, "--met-by", "drawing", *told)
    assert said.code == 0, said.err
    shop.logbook("part", "hinge", "--material", "steel")
    shop.logbook("release", "1.0", "--anyway")
    return shop.logbook("errata", "1.0", "--print").out


@pytest.mark.parametrize(
    ("outcome", "do"),
    [
        ("held for an hour", ()),
        ("works now", ()),
        ("it runs free now", ("--do", "rework")),
    ],
)
def test_what_came_of_a_cure_stands_behind_the_cure(
    empty: Shop, outcome: str, do: tuple[str, ...]
) -> None:
    page = errata(
        empty,
        f"hinge pin works loose, peened it over, {outcome}",
        *("--cure", "peened it over"),
        *do,
    )
    assert f"“peened it over” (said of it: “{outcome}”)" in page
    assert "nobody has said that it holds" not in page
    assert "not tried yet" not in page
    assert SEEN not in page
    assert "### 1. Hinge pin works loose\n" in page


def test_an_instruction_is_followed_by_what_came_of_it_too(empty: Shop) -> None:
    line = "hinge sags, put a spacer of 2 mm under it, works now"
    page = errata(empty, line, "--cure", "put a spacer of 2 mm under it")
    assert "**Do this now**: put a spacer of 2 mm under it (said of it: “works" in page
    assert SEEN not in page


def test_what_was_seen_before_the_cure_stays_seen(empty: Shop) -> None:
    line = "hinge pin let go, held for an hour before, peened it over"
    page = errata(empty, line, "--cure", "peened it over")
    assert "said of it" not in page


def test_rework_told_in_the_line_is_what_to_do_and_not_what_was_seen(
    empty: Shop,
) -> None:
    line = "hinge seat is too deep, pin drops through, shimmed it with 0.3 tape"
    page = errata(empty, line, "--cause", "pin drops through", "--do", "rework")
    assert "rework yours, as was done with hinge-1: shimmed it with 0.3 tape" in page
    assert f"{SEEN}: cause: pin drops through." in page


@pytest.mark.parametrize(
    "words",
    [
        ", held for an hour",
        " and it held",
        ", works now",
        ", runs free now",
        ", it turns smoothly",
        "a rubber strip fixed it",
    ],
)
def test_words_that_say_that_it_held(words: str) -> None:
    assert says_held(words)


@pytest.mark.parametrize(
    "words",
    [
        ", held for an hour, then let go",
        ", only held for an hour",
        ", runs hot now",
        ", does not hold",
        "press it till it holds",
        ", should hold now",
    ],
)
def test_words_that_do_not(words: str) -> None:
    assert not says_held(words)


@pytest.mark.parametrize("clause", ["still cracked", "the lamp works", "under load"])
def test_clauses_that_tell_of_no_outcome(clause: str) -> None:
    assert not tells_of_outcome(clause)
