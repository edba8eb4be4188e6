"""What was used against the parts list; all numbers are invented."""

from __future__ import annotations

from typing import Any

import pytest

from logbook.advice.pieces.counts import pack_of
from logbook.errors import ProblemsFound
from tests.cli.shop import Shop


def counted(shop: Shop, part: str, *more: str) -> dict[str, Any]:
    found = shop.asked("counts", *more)["advice"]
    [one] = [advice for advice in found if advice["about"].startswith(part)]
    return {**one, **{n["name"]: n["value"] for n in one["numbers"]}}


def test_a_count_says_where_the_list_falls_short(shop: Shop) -> None:
    shop.asked("line", "M4x20 screw", "4", "--spare", "1")
    assert "nothing is on record" in counted(shop, "M4x20")["says"]
    shop.asked("count", "M4x20 screw", "--used", "6", "--scrapped", "2", "--left", "1")
    found = counted(shop, "M4x20")
    assert (found["list"], found["used"], found["scrapped"]) == (4, 6, 2)
    assert found["left_over"] == 1
    assert "the list is 2 short" in found["says"]
    assert "2 spoiled against 1 spare on the list" in found["says"]


def test_what_is_left_alone_says_nothing_of_what_was_used(shop: Shop) -> None:
    shop.asked("line", "M4x20 screw", "4")
    shop.asked("count", "M4x20 screw", "--left", "3")
    said = counted(shop, "M4x20")["says"]
    assert "3 left over; how many were used was not counted" in said
    assert "fewer than listed" not in said


def test_an_assembly_that_goes_in_twice_takes_its_lines_twice(shop: Shop) -> None:
    shop.asked("line", "upright", "2")
    shop.asked("line", "M3x8 screw", "4", "--into", "upright")
    shop.asked("line", "M3x8 screw", "1")
    found = counted(shop, "M3x8")
    assert found["list"] == 4 * 2 + 1
    assert "4 in upright" in found["says"]
    assert "1 in the whole" in found["says"]


def test_pieces_on_record_stand_for_a_count(shop: Shop) -> None:
    shop.asked("line", "base", "1")
    shop.asked("piece", "base")
    shop.asked("piece", "base")
    shop.asked("dispose", "base-1", "scrap")
    found = counted(shop, "base")
    assert (found["used"], found["scrapped"]) == (1, 1)
    assert any("nobody counted" in line for line in found["assumed"])


def test_two_units_take_the_list_twice(shop: Shop) -> None:
    shop.asked("line", "base", "3")
    shop.asked("build", "pair", "--units", "2")
    assert counted(shop, "base", "pair")["list"] == 6


@pytest.mark.parametrize(
    ("words", "pieces"),
    [
        ("ISO 7380 M4x16", 1),
        ("pack of 50", 50),
        ("M4x16, box of 100", 100),
        ("25 pcs, any supplier", 25),
        ("bag of 0", 1),
    ],
)
def test_a_pack_is_read_from_how_it_is_bought(words: str, pieces: int) -> None:
    assert pack_of(words) == pieces


def test_a_number_that_is_a_whole_pack_is_asked_about(shop: Shop) -> None:
    shop.asked("line", "M3 screw", "50", "--bought-as", "pack of 50")
    assert "is 50 pieces or a pack?" in counted(shop, "M3 screw")["says"]


def test_files_without_a_line_and_lines_without_a_file(shop: Shop) -> None:
    (shop.folder / "jig.dxf").write_text("0\nEOF\n", "utf-8")
    shop.asked("line", "base", "1")
    answer = shop.asked("counts")
    assert answer["lines_without_file"] == ["base"]
    [stray] = answer["files_without_line"]
    assert (stray["path"], stray["because"]) == ("jig.dxf", "no revision names it")
    shop.asked("revise", "crossbar", "--changed", "drawn", "--file", "jig.dxf")
    [stray] = shop.asked("counts")["files_without_line"]
    assert stray["because"] == "crossbar has no line on the parts list"


def test_an_assembly_inside_itself_is_a_problem_and_the_rest_is_counted(
    shop: Shop,
) -> None:
    shop.asked("line", "upright", "1", "--into", "frame")
    shop.asked("line", "frame", "1", "--into", "upright")
    shop.asked("line", "base", "1")
    said = shop.logbook("counts", "--json")
    assert said.code == ProblemsFound.exit_code
    assert any("inside itself" in problem for problem in said.json["problems"])
    assert any(one["about"].startswith("base") for one in said.json["advice"])


def test_a_count_of_nothing_is_refused(shop: Shop) -> None:
    assert shop.logbook("count", "base").code == 2
    assert shop.logbook("count", "base", "--used", "-1").code == 2
