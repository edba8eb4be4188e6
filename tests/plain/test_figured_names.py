"""Names with figures in them, names of files, names whose words are turned round."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.understanding import NO_PART, Kind, Understanding
from logbook.plain.words.vocabulary import Vocabulary

WORDS = Vocabulary(
    now=datetime(2026, 3, 7, 12, 0, tzinfo=UTC),
    parts={
        "2mm shim TOP plate": ("n_2mm_shim_top_plate",),
        "0.75mm shim TOP plate": (),
        "15-50mm shim TOP plate": (),
        "Mask Plate Top": ("plate top",),
        "lens board 24mm": (),
        "y-lamp arm": (),
        "z-lamp arm": (),
        "lid": (),
        "crossbar": (),
        "base": (),
    },
)


def _sizes(line: Understanding) -> list[str]:
    return [str(one.value) for one in line.facts.readings]


@pytest.mark.parametrize(
    ("said", "part"),
    [
        ("2mm shim TOP plate", "2mm shim TOP plate"),
        ("2 mm shim top plate", "2mm shim TOP plate"),
        ("2mm-shim-TOP-plate", "2mm shim TOP plate"),
        ("n_2mm_shim_top_plate", "2mm shim TOP plate"),
        ("2mm shim TOP plate.stl", "2mm shim TOP plate"),
        ("0.75mm shim TOP plate", "0.75mm shim TOP plate"),
        ("15-50mm shim TOP plate", "15-50mm shim TOP plate"),
        ("lens board 24mm", "lens board 24mm"),
        ("y-lamp arm.STL", "y-lamp arm"),
        ("crossbar.dxf", "crossbar"),
        ("drawings/crossbar.dxf", "crossbar"),
    ],
)
def test_a_name_is_known_whatever_figures_it_has(said: str, part: str) -> None:
    for rest in ("127.3 should be 127.76", "is 127.3 wide", "width 127.3"):
        line = understand(f"{said} {rest}", WORDS)
        assert (line.facts.part, _sizes(line)) == (part, ["127.3 mm"]), rest


def test_a_piece_of_a_name_with_figures_is_told_by_its_number() -> None:
    line = understand("2mm shim TOP plate-2 cracked at the rim", WORDS)
    assert (line.kind, line.facts.part) == (Kind.FAILURE, "2mm shim TOP plate")
    assert line.facts.piece.endswith(("-2", " 2"))


def test_a_figure_that_stands_in_names_stays_a_size_elsewhere() -> None:
    line = understand("lid thickness 2mm should be 3mm", WORDS)
    assert (line.facts.part, _sizes(line)) == ("lid", ["2mm"])
    assert understand("2mm lid", WORDS).facts.part != "2mm shim TOP plate"


@pytest.mark.parametrize(
    "line",
    [
        "2mm shim plate top came out 127.3 long, drawing says 127.76",
        "shim plate top 2mm 127.3 should be 127.76",
        "plate top shim 127.3 should be 127.76",
    ],
)
def test_words_around_a_name_that_others_have_too_ask_which(line: str) -> None:
    asked = understand(line, WORDS)
    question = asked.question
    assert question is not None
    assert (question.about, question.needed) == ("part", True)
    assert "Mask Plate Top" in question.choices
    assert "2mm shim TOP plate" in question.choices
    told = answered(asked, question, "2mm shim TOP plate", WORDS)
    assert (told.facts.part, _sizes(told)) == ("2mm shim TOP plate", ["127.3 mm"])
    assert not any(one.needed for one in told.doubts)


def test_the_words_of_a_name_turned_round_ask_which_where_none_was_read() -> None:
    asked = understand("lamp arm y 12.3 wide", WORDS)
    assert asked.question is not None
    assert asked.question.choices == ("y-lamp arm", NO_PART)
    told = answered(asked, asked.question, "y-lamp arm", WORDS)
    assert (told.facts.part, _sizes(told)) == ("y-lamp arm", ["12.3 mm"])
    assert "lamp" not in told.facts.what


@pytest.mark.parametrize(
    "line", ["Mask Plate Top 127.3 wide", "plate top 127.3 wide", "lid top 3.1 thick"]
)
def test_a_name_alone_asks_nothing(line: str) -> None:
    doubts = understand(line, WORDS).doubts
    assert not any(one.about == "part" for one in doubts)


def test_what_was_of_another_part_says_how_to_put_it_right() -> None:
    line = understand("crossbar 127.3 was not the lid, it was the base", WORDS)
    assert line.question is not None
    assert "say it again of the right one" in line.question.question
    told = understand("lid 127.3 was not the width, odd", WORDS).question
    assert told is None or "say it again" not in told.question
