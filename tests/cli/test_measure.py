"""`measure` says what is wrong with a value, and logs what is off its drawing."""

from __future__ import annotations

import pytest

from logbook.errors import BadInput, NeedsAnswer
from tests.cli.shop import Shop
from tests.cli.typed import Terminal


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["length", "4o.1"], "the letter o where a digit should stand; accepted: 40.1"),
        (["length", "left=1O.2"], "accepted: 10.2"),
        (["length", "l2.5"], "the letter l"),
        (["length"], "no value for crossbar length; accepted: logbook measure"),
        ([], "logbook measure crossbar DIMENSION 40.1"),
        (["left=3", "right=4"], "the dimension first"),
        (["length="], "no value for crossbar length"),
    ],
)
def test_what_is_wrong_is_said_in_one_sentence(
    shop: Shop, words: list[str], said: str
) -> None:
    shop.asked("part", "crossbar")
    answer = shop.logbook("measure", "crossbar", *words)
    assert answer.code == BadInput.exit_code
    assert said in answer.err
    assert len(answer.err.strip().splitlines()) == 1
    assert shop.records("runs") == []


def test_a_dimension_may_be_typed_with_its_value(shop: Shop) -> None:
    run = shop.asked("measure", "crossbar", "length=178.45")["records"][-1]
    assert run["reading"][0]["value"] == "178.45 mm"
    assert run["reading"][0]["what"].startswith("length ")
    assert "place" not in run["reading"][0]


@pytest.mark.parametrize(
    "words", [("measure", "base", "opening", "178.6"), ("say", "base opening 178.6")]
)
def test_off_the_drawn_limits_is_a_deviation_whichever_verb_tells_it(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    monkeypatch.setattr("sys.stdin", Terminal("m\n"))
    said = shop.logbook(*words)
    assert said.out.count("would another builder meet this?") == 1
    [path] = shop.records("deviations")
    text = path.read_text("utf-8")
    assert 'wanted = "180.0 mm"' in text
    assert 'found = "178.6 mm"' in text
    assert 'met_by_others = "my machine"' in text


def test_within_its_limits_nothing_is_asked(shop: Shop) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    records = shop.asked("measure", "base", "opening", "180.4")["records"]
    assert records[-1]["kind"] == "run"


def test_no_value_after_the_sign_asks_for_one(shop: Shop) -> None:
    answer = shop.logbook("measure", "crossbar", "length", "left=")
    assert "no value after =" in answer.err


OPENING = ("part", "base", "--dimension", "opening=180.0 ±1.2")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("52 kg", "is a mass; opening is drawn 180.0 mm; accepted: a length"),
        ("-3", "is negative; opening is drawn 180.0 mm"),
    ],
)
def test_what_cannot_be_of_the_size_is_refused(
    shop: Shop, typed: str, said: str
) -> None:
    shop.asked(*OPENING)
    answer = shop.logbook("measure", "base", "opening", "--", typed)
    assert answer.code == BadInput.exit_code
    assert said in answer.err
    assert shop.records("runs") == []


def test_a_size_never_drawn_keeps_to_the_kind_it_was_read_in(shop: Shop) -> None:
    shop.asked("measure", "gate", "face", "58 °C")
    answer = shop.logbook("measure", "gate", "face", "52 kg")
    assert "is a mass; face was read 58 °C before" in answer.err
    assert len(shop.records("runs")) == 1


def test_a_slip_nobody_answers_for_is_not_taken(shop: Shop) -> None:
    shop.asked(*OPENING)
    answer = shop.logbook("measure", "base", "opening", "left=1785.2")
    assert answer.code == NeedsAnswer.exit_code
    assert "ten times what is drawn, 180.0 mm: 178.52 mm?" in answer.err
    assert "or --yes" in answer.err
    assert shop.records("runs") == []


def test_yes_takes_a_slip_as_typed_and_says_so(shop: Shop) -> None:
    shop.asked(*OPENING)
    answer = shop.logbook("measure", "base", "opening", "1785.2", "--yes")
    assert answer.code == 0
    assert "taken as typed, though “1785.2 mm” is ten times" in answer.err
    [path] = shop.records("runs")
    assert 'value = "1785.2 mm"\nconfirmed = true' in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("key", "kept"), [("1", '"178.52 mm"'), ("2", '"1785.2 mm"\nconfirmed = true')]
)
def test_a_slip_is_asked_about_at_the_terminal(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, key: str, kept: str
) -> None:
    shop.asked(*OPENING)
    monkeypatch.setattr("sys.stdin", Terminal(f"{key}\n\n"))
    said = shop.logbook("measure", "base", "opening", "1785.2")
    assert "178.52 mm was meant" in said.out
    [path] = shop.records("runs")
    assert f"value = {kept}" in path.read_text("utf-8")


@pytest.mark.parametrize(("size", "off"), [("179.7", False), ("178.3", True)])
@pytest.mark.parametrize(
    "line",
    [
        ("measure", "crossbar", "length", "{}", "--piece", "1", "--met-by", "piece"),
        ("say", "crossbar-1 length {}", "--yes"),
    ],
)
def test_a_piece_is_held_to_the_revision_it_was_made_to(
    shop: Shop,
    line: tuple[str, ...],
    size: str,
    off: bool,
) -> None:
    early, later = (("--when", f"2026-03-0{day}T09:00") for day in (1, 2))
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1", *early)
    shop.asked("piece", "crossbar", *early)
    new = ("revise", "crossbar", "--changed", "shorter", "--dimension", "length=178.3")
    shop.asked(*new, *later)
    shop.asked(*(word.format(size) for word in line))
    assert bool(shop.records("deviations")) == off


def test_a_size_made_to_suit_is_told_what_its_gap_accepts(shop: Shop) -> None:
    shop.asked("part", "base", "--process", "folding", "--dimension", "opening=180.0")
    shop.asked("part", "crossbar", "--process", "sawing", "--dimension", "length=179.7")
    shop.asked(
        "gap", "crossbar in base", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length",
    )  # fmt: skip
    early = shop.logbook("measure", "crossbar", "length", "178.3")
    assert "its gap gives no limits yet; measure the other pieces first" in early.out
    assert shop.logbook("undo").code == 0
    shop.asked("measure", "base", "opening", "178.6")
    said = shop.logbook("measure", "crossbar", "length", "178.3").out
    assert (
        "length 178.3 mm: within; made to suit: finish 178.30 mm, accept 178." in said
    )
    assert "does not suit" in shop.logbook("measure", "crossbar", "length", "177").out


@pytest.mark.parametrize(
    "nominal", [(), ("--nominal", "58.0")], ids=["drawn", "named here"]
)
def test_whose_fault_is_not_dropped_where_no_limits_are_drawn(
    shop: Shop, nominal: tuple[str, ...]
) -> None:
    size = () if nominal else ("--dimension", "width=58.0")
    shop.asked("part", "gate", *size)
    blame = ("--met-by", "drawing", "--do", "scrap")
    shop.asked("measure", "gate", "width", "58.6", *nominal, *blame)
    [path] = shop.records("deviations")
    text = path.read_text("utf-8")
    assert 'wanted = "58.0 mm"' in text
    assert 'met_by_others = "the drawing"' in text
    assert 'disposition = "scrap"' in text
    shop.asked("measure", "gate", "width", "58.0", *blame)
    shop.asked("measure", "gate", "width", "58.6")
    assert len(shop.records("deviations")) == 1
