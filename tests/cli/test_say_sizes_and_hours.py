"""Sizes and hours as a line tells them."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop
from tests.cli.typed import answering, kinds


def test_yesterday_at_four_is_when_it_was(shop: Shop) -> None:
    answer = shop.asked(
        "say", "yesterday 16:00 sawed the crossbar at 178.45", "--yes",
        "--when", "2026-03-08T09:00:00+01:00",
    )  # fmt: skip
    step = answer["records"][-1]
    assert step["kind"] == "step done"
    assert step["when"] == "2026-03-07T16:00:00+01:00"
    assert step["set_to"] == ["178.45 mm"]


def test_off_the_drawn_limits_is_a_deviation_without_being_told(shop: Shop) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    assert kinds(shop.asked("say", "base opening 180.4", "--yes"))[-1] == "run"
    answer = shop.asked("say", "base opening 178.6", "--yes", "--met-by", "machine")
    assert kinds(answer) == ["run", "deviation"]
    assert answer["records"][-1]["wanted"] == "180.0 mm"
    assert answer["records"][-1]["met_by_others"] == "my machine"


def test_a_number_with_two_meanings_is_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "base opening 1,234")
    assert said.code == 0, said.err
    [path] = shop.records("runs")
    assert 'value = "1.234 mm"' in path.read_text("utf-8")


@pytest.mark.parametrize(
    "said",
    [
        "model says 42", "drawing says 42", "supposed to be 42", "nominal 42",
        "instead of 42", "against 42 drawn", "42 in the model", "42 on paper",
    ],
)  # fmt: skip
def test_a_wanted_size_is_kept_however_it_is_said(shop: Shop, said: str) -> None:
    shop.asked("part", "camera mount")
    answer = shop.asked("say", f"camera mount came out at 41.7, {said}", "--yes")
    assert kinds(answer)[-1] == "deviation"
    assert answer["records"][-1]["wanted"] == "42 mm"
    assert answer["records"][-1]["found"] == "41.7 mm"


def test_an_hour_that_can_be_two_is_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "lid")
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "yesterday around four riveted the lid")
    assert "1 16:00 / 2 04:00" in said.out
    [path] = shop.records("steps-done")
    assert "T16:00:00" in path.read_text("utf-8")


def test_when_is_told_as_a_line_tells_it(shop: Shop) -> None:
    answer = shop.asked("note", "dusted the bench", "--when", "yesterday 16:00")
    assert "T16:00:00" in answer["records"][-1]["when"]
    refused = shop.logbook("note", "dusted the bench", "--when", "yesterday at four")
    assert refused.code == 2
    assert "16:00 or 04:00" in refused.err
    refused = shop.logbook("note", "dusted the bench", "--when", "sometime")
    assert "found “sometime”" in refused.err


@pytest.mark.parametrize("spelled", ["two hours", "half an hour", "1h20", "2 h"])
def test_hours_spelled_in_words_are_read_from_the_record_again(
    shop: Shop, spelled: str
) -> None:
    shop.asked("part", "gate")
    shop.asked("say", "--yes", f"gate sagged at 58 °C after {spelled}")
    assert shop.asked("check")["problems"] == []


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("length 12.3.4", "because “12.3.4” is no number"),
        ("camera arm 4o.1 long", "because “4o.1” is no number"),
    ],
)
def test_a_size_that_is_no_number_is_kept_as_a_note_and_says_why(
    files: Shop, line: str, why: str
) -> None:
    said = files.logbook("say", "--yes", line)
    assert said.out.startswith(f"note, kept as typed, {why}")
    assert len(said.out.strip().splitlines()) == 3
    assert len(files.records("notes")) == 1


def test_a_size_with_a_sign_behind_it_keeps_the_one_that_was_meant(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "bar")
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "bar 40.2 -0.1")
    assert "“40.2 -0.1” is two numbers: which was measured?" in said.out
    [path] = shop.records("runs")
    assert path.read_text("utf-8").count("value = ") == 1
    assert 'value = "40.2 mm"' in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "of"),
    [
        ("crossbar 178.3", ["length"]),
        ("crossbar 48 should be 50", ["size"]),
        ("crossbar 58 °C", ["temperature"]),
        ("crossbar hole spacing 48 should be 50, scrap", ["hole spacing"]),
    ],
)
def test_only_a_number_near_the_drawn_size_is_that_size(
    shop: Shop, line: str, of: list[str]
) -> None:
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1")
    answer = shop.asked("say", line, "--yes")
    runs = [one for one in answer["records"] if one["kind"] == "run"]
    named = [read["what"].rpartition(" ")[0] for run in runs for read in run["reading"]]
    assert named == of


def test_a_reading_says_on_which_of_several_pieces_it_is(shop: Shop) -> None:
    shop.asked("part", "crossbar")
    shop.asked("say", "two crossbars came out 179.5 and 179.7 long", "--yes")
    said = shop.logbook("say", "crossbar length 179.6", "--yes")
    assert "which crossbar? this build has 1, 2" in said.err
    said = shop.logbook("say", "crossbar 2 length 179.6", "--yes")
    assert "measured on crossbar-2" in said.out


def test_a_reading_put_right_is_told_as_such_and_not_as_kept(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("say", "base opening 178.62", "--yes")
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "the 178.62 on the base should read 178.66")
    assert "put right: measuring run" in said.out
    assert "kept:" not in said.out
