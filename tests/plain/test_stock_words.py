"""Words of stock, such as board, name a part where only a part can be meant."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import describe, in_one_line
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.design import Characteristic, Part
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

EMPTY = Vocabulary(now=NOW)
LENS_BOARD = of_parts("lens board", "base")


@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("board length 600.4 should be 600", Kind.READING, "board"),
        ("board: length 600.4 should be 600", Kind.READING, "board"),
        ("the board length 600.4 should be 600", Kind.READING, "board"),
        ("board length drawn 600 ±0.5", Kind.DRAWN, "board"),
        ("plate width drawn 100 ±0.2", Kind.DRAWN, "plate"),
        ("plate: width 99.2 should be 100", Kind.READING, "plate"),
        ("made the board", Kind.STEP, "board"),
        ("part board", Kind.DRAWN, "board"),
        ("part: side plate", Kind.DRAWN, "side plate"),
        ("part crossbar", Kind.DRAWN, "crossbar"),
    ],
)
def test_it_is_a_part_and_made(says: str, kind: Kind, part: str) -> None:
    line = understand(says, EMPTY)
    assert (line.verdict, line.kind, line.facts.part) == (Verdict.TAKEN, kind, part)
    made = [one for one in drafted(line, world(known(EMPTY))) if isinstance(one, Part)]
    assert [one.title for one in made] == [part]


def test_a_part_told_by_its_name_alone_is_said_to_be_one_and_has_no_size() -> None:
    line = understand("part board", EMPTY)
    assert in_one_line(line) == "part · board (new)"
    made = drafted(line, world(known(EMPTY)))
    assert not [one for one in made if isinstance(one, Characteristic)]


@pytest.mark.parametrize(
    "says",
    [
        "plate thickness 5.8 should be 6",
        "the 6 mm plate is really 6.35",
        "cut the plate to 120.2",
        "sheet width 1000 as sold",
        "cut it from the board",
        "board 17.6 thick",
    ],
)
def test_it_may_be_stock_and_makes_no_part(says: str) -> None:
    line = understand(says, EMPTY)
    assert line.facts.part == ""


@pytest.mark.parametrize(
    "says", ["part broke", "part 3 broke", "part of the board", "part time", "part it"]
)
def test_what_only_begins_with_part_makes_none(says: str) -> None:
    assert understand(says, EMPTY).kind is not Kind.DRAWN


def test_a_part_of_its_own_is_made_beside_a_longer_name() -> None:
    assert understand("part board", LENS_BOARD).facts.part == "board"
    assert understand("part baes", LENS_BOARD).kind is Kind.NOTE
    assert understand("part base", LENS_BOARD).kind is Kind.NOTE


def test_a_known_part_that_ends_so_is_asked_about() -> None:
    line = understand("board length 600.4 should be 600", LENS_BOARD)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.choices[:2] == ("lens board", "board")


@pytest.mark.parametrize(
    ("says", "name"),
    [
        ("yesterday 17:00 sawed the board at 600.4", "board"),
        ("plate chipped at the screw hole", "plate"),
    ],
)
def test_where_it_stays_in_words_it_is_said_how_it_becomes_a_part(
    says: str, name: str
) -> None:
    rows = dict(describe(understand(says, EMPTY)))
    assert rows["only in words"] == name
    assert rows["for a part say"] == f"“part {name}”"


def test_nothing_of_it_is_said_where_a_part_is_told() -> None:
    rows = dict(describe(understand("sawed the crossbar from the board", EMPTY)))
    assert "for a part say" not in rows
