"""A feature that may be a part, a bought thing, a tool, told of where one failed."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW, PROJECT

EMPTY = Vocabulary(now=NOW)


@pytest.mark.parametrize(
    ("says", "called"),
    [
        ("rib cracked while steaming", "rib"),
        ("plank lifted at the bow", "plank"),
        ("the pad came off overnight", "pad"),
        ("o-ring swelled in the petrol", "o-ring"),
        ("blade chipped in the frost", "blade"),
        ("felt head melted", "felt head"),
        ("hinge screws pulled out of the door", "door"),
        ("split the plank at the last nail", "plank"),
        ("bearing seized, no grease", "bearing"),
        ("belt jumped off", "belt"),
        ("belt on and tensioned", "belt"),
    ],
)
def test_a_feature_that_failed_is_asked_about(says: str, called: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert called in line.question.choices


@pytest.mark.parametrize(
    ("says", "made"),
    [
        ("stripped the tripod thread", "tripod"),
        ("wire pulled out of the plug", "plug"),
        ("supply 23.7 V no load", "supply"),
    ],
)
def test_a_bought_thing_by_the_way_is_never_made(says: str, made: str) -> None:
    line = understand(says, PROJECT)
    taken = line.verdict is Verdict.TAKEN
    assert not (taken and line.facts.part_is_new and line.facts.part == made)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("burin slipped, deep line across the lid", "lid"),
        ("lint got trapped under the diffuser", "diffuser"),
        ("rib of the bed cracked", "bed"),
        ("pad on the lid came unstuck", "lid"),
    ],
)
def test_the_part_that_is_known_is_the_one_meant(says: str, part: str) -> None:
    line = understand(says, DEMO)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert line.facts.part == part


@pytest.mark.parametrize(
    "says",
    [
        "two cones of cotton left",
        "three tubs of wax left",
        "half a tin of lacquer left",
    ],
)
def test_what_it_comes_in_is_neither_counted_nor_made(says: str) -> None:
    assert understand(says, PROJECT).kind is Kind.NOTE


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("four of the clips left", Kind.COUNT),
        ("tap broke in the second hole", Kind.FAILURE),
        ("screw in the base sheared off", Kind.FAILURE),
    ],
)
def test_what_only_looks_so_is_taken_as_before(says: str, kind: Kind) -> None:
    line = understand(says, DEMO)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, kind)


def test_the_jaws_of_a_tool_are_not_offered() -> None:
    line = understand("clamp jaws marked the crossbar", DEMO)
    assert line.question is not None
    assert "jaws" not in line.question.choices


def test_a_number_of_a_tool_is_no_place() -> None:
    line = understand("number 51 drill snapped in the upper hole", PROJECT)
    assert line.facts.where == "upper hole"
    line = understand("block weeps at port 2", PROJECT)
    assert line.facts.where == "port 2"


@pytest.mark.parametrize(
    ("says", "piece"),
    [
        ("hook pulled out of lid 2", "lid 2"),
        ("screw fell out of bracket 3", "bracket 3"),
        ("lens dropped out of lamp 4", "lamp 4"),
        ("long crack in gate 2", "gate 2"),
    ],
)
def test_the_piece_it_came_out_of_is_the_one_that_failed(says: str, piece: str) -> None:
    line = understand(says, PROJECT)
    assert line.kind is Kind.FAILURE
    assert line.facts.piece.replace("-", " ") == piece


def test_a_hole_is_no_thing_that_is_counted_and_made() -> None:
    line = understand("eight slots in the bed, six was too few", PROJECT)
    assert line.kind is not Kind.COUNT


@pytest.mark.parametrize(
    "says",
    [
        "closed up the channel with a beech strip",
        "spot welded the channel shut",
        "tack welded the channel shut",
        "silver soldered the channel closed",
        "glued the channel shut",
    ],
)
def test_what_is_shut_is_the_part_however_it_is_shut(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert (line.facts.part, line.facts.closes) == ("channel", True)


@pytest.mark.parametrize(
    ("says", "where"),
    [
        ("broke the end mill in pocket 2", "pocket 2"),
        ("snapped the tap in boss 4", "boss 4"),
        ("lid binds in groove 1", "groove 1"),
    ],
)
def test_one_of_several_places_has_its_number(says: str, where: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.facts.where) == (Kind.FAILURE, where)


def test_the_depth_of_a_pocket_is_no_number_of_it() -> None:
    line = understand("lid pocket 2 deep", PROJECT)
    assert str(line.facts.readings[0].value) == "2 mm"
