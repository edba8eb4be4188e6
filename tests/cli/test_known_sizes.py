"""A plain line is held to the sizes on record before it is taken."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Run
from logbook.records.written.text import write_record
from tests.cli.shop import Shop
from tests.cli.typed import Terminal

ASKED = "asked about first; unasked it is kept as a note"


@pytest.fixture
def drawn(shop: Shop) -> Shop:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.asked("part", "bed", "--dimension", "width=240 ±0.5")
    shop.asked("measure", "gate", "face temperature", "58 °C")
    shop.asked("measure", "lid", "hole spacing", "40 mm")
    return shop


def newest_run(shop: Shop) -> str:
    newest = Project.open(shop.folder).snapshot.all(Run)[-1]
    return write_record(newest)


@pytest.mark.parametrize(
    ("line", "question"),
    [
        ("bed width 240.2 kg", "is a mass; width is drawn 240 mm; accepted: a length"),
        ("gate face temperature 52 kg", "was read 58 °C before"),
        ("bed width -3", "is width 3 mm under what is drawn, 240 mm?"),
        ("base opening 1785.2", "ten times what is drawn, 180.0 mm: 178.52 mm?"),
        ("base opening 178.6 at left, 1.785 at right", "a hundredth of what is drawn"),
        ("base opening 1785.2 should be 180", "ten times what is drawn"),
        ("filed the base opening to 78.55", "without its first figure: 178.55 mm?"),
        ("lid hole 40 mm", "which hole?"),
        ("gate temperature 61 °C", "which temperature?"),
    ],
)
def test_what_is_doubtful_is_asked_first(drawn: Shop, line: str, question: str) -> None:
    told = drawn.asked("say", "--", line)
    assert question in told["question"]
    assert told["would_be"] == ASKED


@pytest.mark.parametrize(
    "line",
    [
        "base opening 178.6",
        "base opening 176.2 should be 180",
        "bed width -0.4",
        "bed width 3 under",
        "base opening 7 1/16 in",
        "gate face temperature -5 °C",
    ],
)
def test_what_can_be_is_not_doubted(drawn: Shop, line: str) -> None:
    told = drawn.asked("say", "--", line)
    assert told["question"] in {"", "would another builder meet this?"}


def test_another_kind_is_never_taken_unasked(drawn: Shop) -> None:
    before = len(drawn.records("runs"))
    said = drawn.logbook("say", "--yes", "bed width 240.2 kg")
    assert "kept as a note" in said.err
    assert len(drawn.records("runs")) == before


def test_a_slip_is_put_right_in_the_words_too(
    drawn: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", Terminal("1\n\n"))
    drawn.logbook("say", "base opening 1785.2 at left")
    text = newest_run(drawn)
    assert text.startswith("# base opening 178.52 mm at left\n")
    assert 'value = "178.52 mm"\nplace = "left"' in text
    assert "Typed: base opening 1785.2 at left" in text


@pytest.mark.parametrize(
    ("line", "question"),
    [
        ("crossbar 1787 long should be 178.7", "ten times what is drawn"),
        ("crossbar 1787 long instead of 179.5", "ten times what is drawn"),
        ("hinge 78.2 wide should be 178.5", "without its first figure: 178.2 mm?"),
    ],
)
def test_a_first_reading_is_held_to_the_size_said_beside_it(
    drawn: Shop, line: str, question: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = drawn.asked("say", "--", line)
    assert question in told["question"]
    assert told["would_be"] == ASKED
    monkeypatch.setattr("sys.stdin", Terminal("2\n\n\n\n"))
    said = drawn.logbook("say", line)
    assert said.out.count(question) == 1
    assert "confirmed = true" in newest_run(drawn)


def test_a_slip_off_what_the_line_wants_that_nobody_settled_is_a_problem(
    drawn: Shop,
) -> None:
    drawn.logbook("say", "--yes", "crossbar 1787 long should be 178.7")
    assert "ten times what is drawn, 178.7 mm" in drawn.logbook("check").out


@pytest.mark.parametrize(
    "line",
    ["crossbar 30 long should be 178.7", "crossbar 178.6 long should be 178.7"],
)
def test_what_is_no_slip_off_what_the_line_wants_is_taken(
    drawn: Shop, line: str
) -> None:
    assert drawn.asked("say", "--", line)["would_be"] != ASKED


def test_yes_takes_a_slip_as_typed_and_its_doubt_stays_open(drawn: Shop) -> None:
    said = drawn.logbook("say", "--yes", "base opening 1785.2")
    assert "taken as typed, though “1785.2 mm” is ten times" in said.err
    text = newest_run(drawn)
    assert 'value = "1785.2 mm"' in text
    assert "confirmed" not in text


def test_a_name_its_unit_completes_is_that_size(drawn: Shop) -> None:
    drawn.logbook("say", "--yes", "gate face 61 °C after 2 hours in a 22 °C room")
    [path] = [p for p in drawn.records("dimensions") if "face" in p.name]
    assert "face-temperature" in path.name


def test_which_size_is_asked_once(drawn: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", Terminal("2\n\n"))
    said = drawn.logbook("say", "lid hole 40 mm")
    assert said.out.count("which hole?") == 1
    names = [path.name for path in drawn.records("dimensions")]
    assert any(name.endswith("-hole.md") for name in names)


@pytest.mark.parametrize("told", ["with 2 mm radius", "with 2 mm corner radius"])
def test_what_work_was_done_with_is_not_held_to_the_one_size(
    shop: Shop, told: str
) -> None:
    shop.asked("part", "base", "--dimension", "opening=180 ±1.2")
    said = shop.asked("say", f"made a second base {told}")
    assert said["would_be"] == "taken as it is understood"
    held = shop.asked("say", "sawed the base at 18.05")
    assert "a tenth of what is drawn" in str(held)
