"""A cure has helped where something shows it, not where a piece was only measured."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.advice.faults.helped import HELPED, NOT_KNOWN, helped
from logbook.advice.faults.shown import NOTHING_SHOWS
from logbook.advice.faults.trying import cure_words
from logbook.project import Project
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.workshop import Piece
from logbook.records.states.tried import tried_words
from tests.cli.shop import Shop


def at(day: int) -> tuple[str, str]:
    return "--when", f"2026-03-{day:02}T09:00"


def standing(shop: Shop, cure: str) -> tuple[str, str]:
    """Give the words before the cure of the first fault, and how the cure stands."""
    snapshot = Project.open(shop.folder).snapshot
    entry = next(
        one for one in snapshot.entries if isinstance(one, Deviation | Failure)
    )
    revision = snapshot.lookup(cure, Revision)
    return helped(snapshot, entry), cure_words(snapshot, revision, (entry,))


@pytest.fixture
def shop(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Shop:
    """A workshop with nothing on record yet."""
    made = Shop(tmp_path, capsys)
    made.asked("start", "--yes", *at(1))
    return made


@pytest.fixture
def collar(shop: Shop) -> Shop:
    """A collar that came too thick, and the revision that is to cure it."""
    shop.asked(
        "part", "collar", "--dimension", "thickness=6.0 ±0.1",
        "--dimension", "bore=6.0 ±0.1", *at(1),
    )  # fmt: skip
    shop.asked(
        "deviation", "collar", "collar came in 1/4 in plate", "--dimension",
        "thickness", "--found", "6.35", "--met-by", "drawing", "--cure", "M4x20",
        *at(2),
    )  # fmt: skip
    shop.asked(
        "revise", "collar", "--changed", "6.35 plate, M4x20", "--dimension",
        "thickness=6.35", "--because", "collar came in 1/4 in plate", *at(3),
    )  # fmt: skip
    shop.asked("piece", "collar", *at(3))
    return shop


def test_another_size_read_on_the_cure_shows_nothing(collar: Shop) -> None:
    collar.asked("measure", "collar", "bore", "6.05", "--piece", "2", *at(4))
    missing = f"tried, but {NOTHING_SHOWS}"
    assert standing(collar, "collar rev A") == (NOT_KNOWN, missing)
    collar.asked("measure", "collar", "thickness", "6.37", "--piece", "2", *at(5))
    assert standing(collar, "collar rev A") == (HELPED, "tried")


def test_the_step_that_takes_the_part_done_with_the_cure_shows_it(
    collar: Shop,
) -> None:
    collar.asked("step", "fit the lamp", "--uses", "collar", *at(4))
    collar.asked("measure", "collar", "bore", "6.05", "--piece", "2", *at(5))
    assert standing(collar, "collar rev A")[0] == NOT_KNOWN
    collar.asked("step", "fit the lamp", "--done", *at(6))
    assert standing(collar, "collar rev A") == (HELPED, "tried")


@pytest.fixture
def bar(shop: Shop) -> Shop:
    """A bar made to suit its opening, after one that could not be as drawn."""
    shop.asked("part", "base", "--dimension", "opening=180.0", *at(1))
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1", *at(1))
    shop.asked(
        "gap", "crossbar in base", "base.opening - crossbar.length", "--limits",
        "0.1 to 0.5", "--last", "crossbar.length", "--one-instrument", *at(1),
    )  # fmt: skip
    shop.asked("build", "build 1", *at(1))
    shop.asked("measure", "base", "opening", "left=178.6", "right=178.62", *at(2))
    shop.asked(
        "deviation", "crossbar", "crossbar cannot be as drawn", "--dimension",
        "length", "--found", "178.3", "--met-by", "drawing", "--cure",
        "measure the opening, take 0.3 off", *at(3),
    )  # fmt: skip
    shop.asked(
        "revise", "crossbar", "--changed", "to suit the opening", "--to-suit",
        "length", "--because", "crossbar cannot be as drawn", *at(4),
    )  # fmt: skip
    return shop


@pytest.mark.parametrize(
    ("length", "expected"),
    [
        ("178.8", (NOT_KNOWN, "tried, but crossbar in base: goes in only by force")),
        ("178.0", (NOT_KNOWN, "tried, but crossbar in base: looser than wanted")),
        ("178.3", (HELPED, "tried")),
    ],
)
def test_a_piece_made_to_suit_helped_only_where_its_gap_came_out(
    bar: Shop, length: str, expected: tuple[str, str]
) -> None:
    bar.asked("piece", "crossbar", *at(5))
    bar.asked("measure", "crossbar", "length", length, "--piece", "2", *at(6))
    label, stands = standing(bar, "crossbar rev A")
    assert label == expected[0]
    assert stands.startswith(expected[1])
    notes = bar.logbook("notes", "--print").out
    assert ("What helped" in notes) == (label == HELPED)
    [came] = [line for line in notes.splitlines() if "**Crossbar in base: is" in line]
    assert expected[1].rpartition(": ")[2].removeprefix("tried") in came


def test_of_a_piece_made_to_suit_an_opening_nobody_read_nothing_is_known(
    bar: Shop,
) -> None:
    bar.asked("build", "build 2", *at(5))
    bar.asked("piece", "crossbar", *at(6))
    bar.asked("measure", "crossbar", "length", "178.3", "--piece", "2", *at(6))
    missing = f"tried, but {NOTHING_SHOWS}"
    assert standing(bar, "crossbar rev A") == (NOT_KNOWN, missing)


def test_a_failure_is_not_cured_by_a_piece_that_was_only_made(shop: Shop) -> None:
    shop.asked("failure", "gate", "gate sagged", "--cure", "PETG", *at(1))
    shop.asked(
        "revise", "gate", "--changed", "PETG", "--because", "gate sagged", *at(2)
    )
    shop.asked("piece", "gate", *at(3))
    missing = f"tried, but {NOTHING_SHOWS}"
    assert standing(shop, "gate rev A") == (NOT_KNOWN, missing)
    shop.asked("status", "gate-2", "still good", "--after", "40 h", *at(4))
    assert standing(shop, "gate rev A") == (HELPED, "tried")


OFF = "tried, but no piece of it came out as drawn"


def test_a_revision_none_of_whose_pieces_is_as_drawn_is_said_to_be_so(
    shop: Shop,
) -> None:
    def stands() -> str:
        snapshot = Project.open(shop.folder).snapshot
        return tried_words(snapshot, snapshot.lookup("mask first issue", Revision))

    shop.asked("part", "mask", "--dimension", "aperture=36.0 ±0.1", *at(1))
    shop.asked("piece", "mask", *at(2))
    assert stands() == "tried"
    off = ("measure", "mask", "aperture", "36.18", "--met-by", "machine")
    shop.asked(*off, *at(3))
    assert stands() == OFF
    assert f"- First issue, {OFF}." in shop.logbook("notes", "--print").out
    shop.asked("piece", "mask", *at(4))
    shop.asked("measure", "mask", "aperture", "36.02", "--piece", "2", *at(5))
    assert stands() == "tried"


def test_a_size_only_said_to_be_off_was_not_made_as_drawn_whoevers_fault_it_is(
    shop: Shop,
) -> None:
    shop.asked("part", "mask", "--dimension", "aperture=36.0 ±0.1", *at(1))
    off = ("mask a kerf large", "--dimension", "aperture", "--met-by", "machine")
    shop.asked("deviation", "mask", *off, "--found", "36.18", *at(2))
    assert f"- First issue, {OFF}." in shop.logbook("notes", "--print").out
    shop.asked("measure", "mask", "aperture", "36.05", "--piece", "1", *at(3))
    assert "- First issue, tried." in shop.logbook("notes", "--print").out


def test_a_cure_none_of_whose_pieces_is_as_drawn_is_not_tried_without_a_word(
    collar: Shop,
) -> None:
    collar.asked("measure", "collar", "thickness", "6.35", "--piece", "2", *at(4))
    assert standing(collar, "collar rev A") == (HELPED, "tried")
    collar.asked("measure", "collar", "bore", "6.9", "--piece", "2", *at(5))
    assert standing(collar, "collar rev A") == (NOT_KNOWN, OFF)


def test_a_size_that_cannot_be_made_as_drawn_was_not_made_so(bar: Shop) -> None:
    text = bar.logbook("notes", "--print").out
    assert f"- First issue, {OFF}." in text.partition("### Crossbar\n")[2]


# -- built in, and no piece on record ------------------------------------------------


@pytest.fixture
def fitted(collar: Shop) -> Shop:
    """A second build in which the collar was fitted, with no piece of it on record."""
    snapshot = Project.open(collar.folder).snapshot
    assert [one.title for one in snapshot.all(Piece)] == ["collar-1", "collar-2"]
    collar.asked("step", "fit the lamp", "--uses", "collar", *at(3))
    collar.asked("status", "collar-2", "scrapped", *at(4))
    collar.asked("revise", "collar", "--changed", "as bought", *at(5))
    collar.asked("build", "build 2", *at(6))
    return collar


def test_a_step_done_with_a_part_of_which_no_piece_is_on_record_is_said_and_asked(
    fitted: Shop,
) -> None:
    assert fitted.asked("offered")["offered"] == []
    fitted.asked("step", "fit the lamp", "--done", *at(7))
    why = "no piece of it is on record, but “fit the lamp” was done in build 2"
    assert f"- Rev B, untried ({why})" in fitted.logbook("notes", "--print").out
    [asked] = fitted.asked("offered")["offered"]
    assert asked["asks"] == (
        "“fit the lamp” is done in build 2: was it with collar rev B?"
    )
    fitted.asked("offered", "take", asked["id"], "yes", *at(8))
    text = fitted.logbook("notes", "--print").out
    assert "- Rev B, tried" in text
    assert "collar-3 (rev B, made)" in text
    assert fitted.asked("offered")["offered"] == []


def test_a_step_taken_apart_again_asks_for_no_piece(fitted: Shop) -> None:
    fitted.asked("step", "fit the lamp", "--done", *at(7))
    fitted.asked("step", "fit the lamp", "--undone", *at(8))
    assert fitted.asked("offered")["offered"] == []
    assert "- Rev B, untried" in fitted.logbook("notes", "--print").out
