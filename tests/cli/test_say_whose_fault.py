"""Whose fault it is, said in the line or later, and what settles it."""

from __future__ import annotations

import pytest

from logbook.errors import BadInput
from tests.cli.shop import Shop


@pytest.mark.parametrize(
    "cure",
    [
        "drilled it out to 5.5 and it holds",
        "took M4x16 instead",
        "sanded it",
        "reprinted with 3 walls",
        "shimmed with 0.2 card",
    ],
)
def test_failure_cause_and_cure_are_told_apart(shop: Shop, cure: str) -> None:
    shop.asked("part", "gate")
    said = f"gate cracked at the hole because the screw was too tight, {cure}"
    failure = shop.asked("say", said, "--yes")["records"][-1]
    assert failure["kind"] == "failure"
    assert failure["cause"]["said"] == "the screw was too tight"
    assert failure["cure"] == cure


@pytest.mark.parametrize(
    "line",
    ["collar hole spacing 41 should be 40, scrap", "collar hole is 1 mm off, scrap"],
)
def test_what_is_scrapped_for_its_size_keeps_the_size_and_whose_fault_it_is(
    shop: Shop, line: str
) -> None:
    shop.asked("part", "collar")
    answer = shop.asked("say", "--yes", "--met-by", "drawing", line)
    deviation = answer["records"][-1]
    assert deviation["kind"] == "deviation"
    assert deviation["disposition"] == "scrap"
    assert deviation["met_by_others"] == "the drawing"
    assert deviation.get("found") == "41 mm" or deviation["off"] == "1 mm"


def test_check_says_what_settles_an_undecided_failure(shop: Shop) -> None:
    shop.asked("part", "gate")
    failure = shop.asked("say", "gate cracked", "--yes")["records"][-1]
    said = shop.logbook("check")
    assert f'logbook dispose {failure["id"]} "use as is"' in said.out
    shop.asked("dispose", failure["id"], "use as is")
    assert "logbook dispose" not in shop.logbook("check").out


@pytest.mark.parametrize(
    ("said", "whose"),
    [
        ("only this piece", "this piece"),
        ("my mistake", "this piece"),
        ("drawing is wrong", "the drawing"),
    ],
)
@pytest.mark.parametrize("fact", ["gate cracked", "gate slot 35.9, drawn 35.5"])
def test_whose_fault_it_is_may_be_said_in_the_line(
    shop: Shop, fact: str, said: str, whose: str
) -> None:
    shop.asked("part", "gate")
    answer = shop.asked("say", f"{fact}, {said}", "--yes")
    assert answer["records"][-1]["kind"] in ("deviation", "failure")
    assert answer["records"][-1]["met_by_others"] == whose


def test_whose_fault_it_is_can_be_said_later(shop: Shop) -> None:
    answer = shop.asked("say", "diffuser cracked at the corner screw", "--yes")
    [failure] = [one for one in answer["records"] if one["kind"] == "failure"]
    told = f"logbook met {failure['id']} drawing"
    assert told in shop.logbook("check").out
    shop.asked("met", failure["id"], "drawing")
    [path] = shop.records("failures")
    assert 'met_by_others = "the drawing"' in path.read_text("utf-8")
    assert path.name.startswith(failure["id"])
    assert "logbook met" not in shop.logbook("check").out
    assert shop.logbook("erratum", failure["id"]).code == 0


def test_whose_fault_is_refused_of_what_has_none(shop: Shop) -> None:
    answer = shop.asked("note", "a long day")
    said = shop.logbook("met", answer["records"][-1]["id"], "machine")
    assert said.code == BadInput.exit_code
    assert "“a long day” has no fault to put down" in said.err


def test_whose_fault_told_of_a_note_is_not_dropped_without_a_word(shop: Shop) -> None:
    said = shop.logbook("say", "a long day", "--yes", "--met-by", "drawing")
    assert said.code == 0
    assert "--met-by drawing was not kept" in said.err
    kept = shop.logbook("say", "lamp went out", "--yes", "--met-by", "drawing")
    assert "was not kept" not in kept.err


@pytest.mark.parametrize(
    ("reason", "linked"),
    [
        ("", True),
        (", the opening is too wide", True),
        (", sole would not stick", False),
    ],
)
def test_what_is_scrapped_answers_only_a_fault_that_is_its_reason(
    shop: Shop, reason: str, linked: bool
) -> None:
    shop.asked("say", "base opening 181.6 should be 180", "--yes")
    said = shop.logbook("say", f"binned the base{reason}", "--yes")
    assert said.code == 0
    assert ("answers: base opening 181.6" in said.out) is linked
    [path] = shop.records("disposals")
    assert ("answers = " in path.read_text("utf-8")) is linked
