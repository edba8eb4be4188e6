"""A known fault called by its number: of which page, shown with its title."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop

LID, GATE = "lid pinched a finger", "gate sagged at 58 °C"


@pytest.fixture
def numbered(shop: Shop) -> Shop:
    """Release 1.0 whose page has the lid first, then the gate; 1.1 has the gate alone.

    A build by each, the one by 1.0 at hand.
    """
    for part in ("gate", "lid"):
        shop.asked("part", part)
    shop.asked("release", "1.0", "--anyway")
    told = ("--met-by", "drawing", "--do", "scrap")
    shop.asked("failure", "gate", GATE, *told)
    shop.asked("failure", "lid", LID, *told)
    shop.asked("erratum", LID, "--severity", "safety")
    shop.asked(
        "revise", "lid", "--changed", "rounded", "--because", LID, "--remake", "yes"
    )
    shop.asked("release", "1.1", "--anyway")
    shop.asked("build", "shed-2", "--of", "1.1")
    shop.asked("build", "shed-1", "--of", "1.0")
    return shop


def test_the_page_numbers_them_so(numbered: Shop) -> None:
    page = numbered.logbook("errata", "1.0", "--print").out.casefold()
    assert f"### 1. {LID}" in page
    assert f"### 2. {GATE}".casefold() in page


@pytest.mark.parametrize(
    ("words", "of", "title"),
    [
        ("fault 2 does not occur with me", "fault 2 of release 1.0", GATE),
        ("known fault no. 1 did not happen here", "fault 1 of release 1.0", LID),
        ("fault 1 of release 1.1 isn't there", "fault 1 of release 1.1", GATE),
    ],
)
def test_a_number_is_of_the_page_of_the_release_built_by(
    numbered: Shop, words: str, of: str, title: str
) -> None:
    said = numbered.logbook("say", "--yes", words).out
    assert f"does not occur: {of}: {title}" in said
    assert said.index(of) < said.index("kept:")
    [status] = numbered.records("statuses")
    assert f"does not occur: {title}" in status.read_text()


def test_the_same_number_is_another_fault_in_a_build_by_another_release(
    numbered: Shop,
) -> None:
    said = numbered.logbook("say", "--yes", "--build", "shed-2", "fault 1 is not met")
    assert f"fault 1 of release 1.1: {GATE}" in said.out


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("fault 9 does not occur", "the page of release 1.0 has 2 known faults"),
        ("fault 1 of release 3.0 does not occur", "there is no release 3.0"),
    ],
)
def test_a_number_of_no_fault_guesses_none(
    numbered: Shop, words: str, why: str
) -> None:
    assert why in numbered.logbook("say", "--yes", words).out
    assert not numbered.records("statuses")


def test_in_a_build_by_no_release_the_page_is_asked_for(numbered: Shop) -> None:
    numbered.asked("build", "own")
    said = numbered.logbook("say", "--yes", "fault 2 does not occur with me").out
    assert "made by no release" in said
    assert not numbered.records("statuses")
    told = numbered.logbook("erratum", "fault 2", "--not-met")
    assert told.code == 5
    assert "accepted: fault 2 of release 1.0" in told.err


def test_the_verbs_take_the_number_and_say_which_it_is(numbered: Shop) -> None:
    said = numbered.logbook("erratum", "fault 2", "--consequence", "it droops")
    assert said.code == 0
    assert f"fault 2 of release 1.0: {GATE}" in said.err
    told = numbered.logbook("errata", "fault 1 of 1.1")
    assert f"known fault: {GATE}" in told.out
    assert "in every edition: fault " in told.out
    assert not (numbered.folder / "as-built/published").exists()
