"""A plate that comes thicker than drawn: what the drawing says by now is no fault."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop
from tests.cli.typed import Terminal

LINE = "collar thickness 1/4 in instead of 6 mm"
HINT = "1 if it is what is sold: others buy the same"


@pytest.fixture
def collar(shop: Shop) -> Shop:
    shop.asked("part", "collar", "--dimension", "thickness=6.0 ±0.1")
    return shop


@pytest.fixture
def revised(collar: Shop) -> Shop:
    why = ("--why", "1/4 in is what is sold")
    collar.asked("revise", "collar", "--dimension", "thickness=6.35", *why)
    return collar


def test_what_the_drawing_says_by_now_is_no_deviation(revised: Shop) -> None:
    said = revised.logbook("say", "--yes", LINE)
    assert "rev A draws thickness 6.35 mm already: no deviation" in said.out
    assert revised.records("deviations") == []
    assert len(revised.records("runs")) == 1


@pytest.mark.parametrize(
    "line", [LINE.replace("1/4 in", "8.1 mm"), LINE.replace("6 mm", "5 mm")]
)
def test_what_no_revision_draws_is_one(revised: Shop, line: str) -> None:
    revised.logbook("say", "--yes", line)
    assert len(revised.records("deviations")) == 1


def test_before_the_drawing_says_so_it_is_one(collar: Shop) -> None:
    collar.logbook("say", "--yes", LINE)
    assert len(collar.records("deviations")) == 1


def test_a_piece_of_the_revision_before_is_off_its_own_drawing(collar: Shop) -> None:
    collar.asked("piece", "collar")
    collar.asked("revise", "collar", "--dimension", "thickness=6.35", "--why", "sold")
    collar.logbook("say", "--yes", f"collar-1 {LINE.removeprefix('collar ')}")
    assert len(collar.records("deviations")) == 1


def test_the_drawn_size_said_wrong_is_held_to_the_revision_in_hand(
    revised: Shop,
) -> None:
    said = revised.logbook("say", "--yes", "collar thickness 8.1 should be 6.35")
    assert "said to be drawn" not in said.out


def test_of_what_is_bought_the_question_says_who_would_meet_it(
    collar: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", Terminal("1\n\n"))
    assert HINT in collar.logbook("say", LINE).out
    [path] = collar.records("deviations")
    assert 'met_by_others = "the drawing"' in path.read_text("utf-8")
    monkeypatch.setattr("sys.stdin", Terminal("2\n\n"))
    collar.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    assert HINT not in collar.logbook("say", "base opening 178.6").out


@pytest.mark.parametrize(
    "line",
    [
        "tapped hole in collar stripped, put in a brass insert instead of a thread",
        "printed the collar 5.8 mm thick instead of 6 mm",
    ],
)
def test_of_what_is_not_bought_it_says_nothing_of_buying(
    collar: Shop, line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", Terminal("1\n1\n1\n\n"))
    assert HINT not in collar.logbook("say", line).out


GLUED = "1 if others would glue it so too; 2 if it was this once: not clean, not dry"


@pytest.mark.parametrize(
    ("process", "line", "hint"),
    [
        ("laser cutting", LINE, HINT),
        ("3D printing", "collar thickness 7.6 mm should be 8 mm", ""),
        ("sawing", "collar glue let go at the seam", GLUED),
        ("sawing", "the epoxy on the collar did not hold, it came off", GLUED),
        ("sawing", "collar cracked at the seam", ""),
    ],
)
def test_which_answer_fits_is_said_where_that_is_not_plain(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, process: str, line: str, hint: str
) -> None:
    shop.asked("part", "collar", "--process", process)
    monkeypatch.setattr("sys.stdin", Terminal("2\n\n\n"))
    said = shop.logbook("say", line)
    assert "would another builder meet this?" in said.out
    for one in (HINT, GLUED):
        assert (one in said.out) == (one == hint)
