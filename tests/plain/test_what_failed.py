"""What failed, why and what cured it, where clauses could be taken for each other."""

from __future__ import annotations

import pytest

from logbook.plain.answers.held import held_to_records
from logbook.plain.lines import understand, understand_as
from logbook.plain.understanding import Kind, Understanding, Verdict
from tests.plain.fresh import PROJECTS
from tests.plain.records_of import drafted, known, world


def _read(line: str, project: str = "lines") -> Understanding:
    return understand(line, PROJECTS[project])


@pytest.mark.parametrize(
    "line",
    ["bed has a knot at the edge, turn it over", "lid cupped, clamp it overnight"],
)
def test_what_is_to_be_done_about_it_is_no_cause(line: str) -> None:
    assert _read(line).facts.cause is None


@pytest.mark.parametrize(
    ("line", "cure"),
    [
        ("it rattles, washer under it cured it", "washer under it cured it"),
        ("it rocks, washer under it fixed that", "washer under it fixed that"),
        ("it hums, felt below it stopped it", "felt below it stopped it"),
    ],
)
def test_what_cured_it_is_not_what_failed(line: str, cure: str) -> None:
    facts = _read(line, "demo").facts
    assert (facts.part, facts.cause, facts.cure) == ("", None, cure)


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ("lid sticks in summer", ""),
        ("bed split in the frost", ""),
        ("lamp dead on arrival", ""),
        ("lid buzzes with the lamp on full", ""),
        ("lid cracked at the hinge", "hinge"),
        ("bed split in the groove", "groove"),
    ],
)
def test_a_season_or_how_hard_it_ran_is_no_place(line: str, where: str) -> None:
    assert _read(line).facts.where == where


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("screwed the lid on and the lamp cracked", "lamp"),
        ("fitted the lamp in the collar, collar cracked", "collar"),
        ("pressed the cable into the lid, the lid split", "lid"),
        ("lid cracked and the lamp flickers", "lid"),
        ("riveted the lid on, rivets leaked", "lid"),
    ],
)
def test_the_part_that_failed_is_the_one_in_whose_clause_it_is_told(
    line: str, part: str
) -> None:
    failed = understand_as(line, Kind.FAILURE, PROJECTS["lines"])
    assert failed.facts.part == part


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("forgot: lid failure was my clamping, not the drawing", True),
        ("the lid crack was my clamping", True),
        ("the lid crack came from the dry glue joint", True),
        ("the lid crack was 3 mm long", False),
        ("the mask crack was my clamping", False),
    ],
)
def test_why_an_open_failure_came_about_is_no_second_failure(
    line: str, *, asked: bool
) -> None:
    project = PROJECTS["lines"]
    snapshot = world(known(project))
    made = drafted(understand("lid cracked at the corner", project), snapshot)
    told = held_to_records(understand(line, project), world([*snapshot, *made]))
    question = told.question.question if told.question else ""
    assert (question == "is that the cause of “lid cracked at the corner”?") is asked


@pytest.mark.parametrize(
    ("line", "cause", "cure"),
    [
        ("glue let go in the heat, pinned it too", False, False),
        ("bed split along the slot, dry wood", False, False),
        ("lid cracked, I forced it", False, False),
        ("crossbar rattles, cut it too short", True, False),
        ("varnish blistered, put on too thick", True, False),
        ("glue let go on the lid, clean the steel first", False, True),
        ("lid lifts, pinned it", False, True),
        ("lamp hums, ground wire off", True, False),
    ],
)
def test_what_was_done_to_it_is_its_cause_or_its_cure_only_where_it_is_told(
    line: str, *, cause: bool, cure: bool
) -> None:
    facts = _read(line).facts
    assert (facts.cause is not None, bool(facts.cure)) == (cause, cure)


@pytest.mark.parametrize(
    ("line", "piece"),
    [
        ("keep lid 2, scrap lid 1", "lid 1"),
        ("base 1 ok, base 2 for the bin", "base 2"),
        ("lid 1 goes in the bin, lid 2 ok", "lid 1"),
        ("scrapped lid 2 because lid 1 fits", "lid 2"),
    ],
)
def test_the_piece_that_is_scrapped_is_the_one_in_whose_clause_it_is_told(
    line: str, piece: str
) -> None:
    read = _read(line)
    assert (read.kind, read.facts.piece) == (Kind.DISPOSITION, piece)


@pytest.mark.parametrize(
    ("line", "pieces"),
    [
        ("bin lid 1 and 2", (1, 2)),
        ("lid 1 and 2 cracked", (1, 2)),
        ("lid 1 and 2 screws missing", ()),
        ("base 2 and lid scrapped", ()),
    ],
)
def test_two_numbers_behind_one_name_are_two_pieces(
    line: str, pieces: tuple[int, ...]
) -> None:
    assert _read(line).facts.pieces == pieces


@pytest.mark.parametrize(
    "line", ["base half done", "bed almost finished", "returned base 2, got 3"]
)
def test_what_is_nearly_done_or_only_counted_is_asked_about(line: str) -> None:
    assert _read(line).verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "where"),
    [
        ("gate-4 sagged too, in PETG by rev A", ""),
        ("gate sagged, made to rev A", ""),
        ("gate cracked in ABS", ""),
        ("gate-4 sagged too, in PETG by rev A, beside the lamp", "beside the lamp"),
        ("gate cracked in the corner", "corner"),
        ("gate split in the board", "board"),
    ],
)
def test_of_what_and_by_which_revision_it_was_made_is_no_place(
    says: str, where: str
) -> None:
    line = _read(says)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert line.facts.where == where
