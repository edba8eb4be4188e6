"""Records that cannot both be true are told with file and line; the rest goes on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from logbook.errors import ProblemsFound
from tests.cli.shop import Shop


def by_hand(file: Path, before: str, after: str) -> int:
    """Change a record as an editor does; give the line that was changed."""
    text = file.read_text("utf-8")
    assert before in text
    file.write_text(text.replace(before, after), "utf-8")
    return text[: text.index(before)].count("\n") + 1


def problems(shop: Shop) -> list[str]:
    said = shop.logbook("check", "--json")
    assert said.code == ProblemsFound.exit_code
    found: list[str] = said.json["problems"]
    return found


def test_a_reading_of_another_kind_is_told_with_its_line(shop: Shop) -> None:
    shop.asked("measure", "crossbar", "length", "left=178.3", "right=178.4")
    [run] = shop.records("runs")
    line = by_hand(run, '"178.4 mm"', '"178.4 °C"')
    where = f"{run.relative_to(shop.folder)}:{line}: reading 2 value"
    [problem] = [p for p in problems(shop) if p.startswith(where)]
    assert "“178.4 °C”, a temperature, but length is drawn as 179.7 mm" in problem
    assert "accepted: a length" in problem


def test_a_reading_of_another_kind_than_before_is_told(shop: Shop) -> None:
    shop.asked("measure", "gate", "face", "a=58 °C", "b=59 °C", "c=60 °C")
    [run] = shop.records("runs")
    line = by_hand(run, '"59 °C"', '"59 kg"')
    where = f"{run.relative_to(shop.folder)}:{line}: reading 2 value"
    [problem] = [p for p in problems(shop) if p.startswith(where)]
    assert "is a mass; face was read" in problem
    assert "accepted: a temperature" in problem


def test_a_negative_reading_is_told(shop: Shop) -> None:
    shop.asked("measure", "crossbar", "length", "178.3")
    [run] = shop.records("runs")
    by_hand(run, '"178.3 mm"', '"-3 mm"')
    assert any("“-3 mm” is negative" in problem for problem in problems(shop))


def test_a_slip_is_told_until_it_is_settled(shop: Shop) -> None:
    shop.asked("measure", "crossbar", "length", "left=178.3", "right=178.4")
    [run] = shop.records("runs")
    line = by_hand(run, '"178.4 mm"', '"1784 mm"')
    where = f"{run.relative_to(shop.folder)}:{line}: reading 2 value"
    [problem] = [p for p in problems(shop) if p.startswith(where)]
    assert "ten times what is drawn, 179.7 mm: 178.4 mm?" in problem
    assert "confirmed = true" in problem
    by_hand(run, '"1784 mm"\n', '"1784 mm"\nconfirmed = true\n')
    assert "ten times" not in shop.logbook("check", "--json").out


def test_a_drawing_amended_to_another_kind_is_told_at_each_reading(shop: Shop) -> None:
    shop.asked("measure", "crossbar", "length", "178.3")
    [file] = [f for f in shop.records("dimensions") if "length" in f.name]
    text = file.read_text("utf-8")
    file.write_text(re.sub(r'"(17[0-9.]+) mm"', r'"\1 °C"', text), "utf-8")
    [problem] = [p for p in problems(shop) if "reading 1 value" in p]
    assert "or mend as-built/dimensions" in problem


@pytest.mark.parametrize("fact", ["wanted", "found"])
def test_a_deviation_of_another_kind_is_told(shop: Shop, fact: str) -> None:
    words = ("--dimension", "length", "--wanted", "179.7", "--found", "178")
    shop.asked("deviation", "crossbar", "short", *words, "--do", "use as is")
    [file] = shop.records("deviations")
    text = file.read_text("utf-8")
    line = text[: text.index(f"{fact} =")].count("\n") + 1
    file.write_text(re.sub(rf'{fact} = "\S+ mm"', f'{fact} = "2 h"', text), "utf-8")
    where = f"{file.relative_to(shop.folder)}:{line}: {fact}: found “2 h”, a time"
    assert any(problem.startswith(where) for problem in problems(shop))


def test_limits_the_wrong_way_round_are_told_and_other_advice_goes_on(
    shop: Shop,
) -> None:
    [file] = [f for f in shop.records("dimensions") if "length" in f.name]
    line = by_hand(file, 'lower_limit = "179.6 mm"', 'lower_limit = "190 mm"')
    where = f"{file.relative_to(shop.folder)}:{line}: lower_limit"
    [problem] = [p for p in problems(shop) if p.startswith(where)]
    assert "190 mm, above the upper limit 179.8 mm" in problem
    shop.asked("measure", "base", "opening", "178.6")
    held = shop.logbook("conformity", "base-1", "--json").json
    assert [row["results"] for row in held["pieces"][0]["rows"]] == ["178.60 mm"]


def test_a_deviation_is_told_that_names_a_value_its_reading_no_longer_has(
    shop: Shop,
) -> None:
    shop.asked("say", "base opening 178.60 should be 180", "--yes")
    [run] = shop.records("runs")
    by_hand(run, '"178.60 mm"', '"178.66 mm"')
    [file] = shop.records("deviations")
    line = file.read_text("utf-8").split("found =")[0].count("\n") + 1
    [problem] = problems(shop)
    assert problem.startswith(f"{file.relative_to(shop.folder)}:{line}: found: found")
    assert "178.60 mm, but the reading it was made from is 178.66 mm now" in problem
    by_hand(file, 'found = "178.60 mm"', 'found = "178.66 mm"')
    assert shop.logbook("check", "--json").json["problems"] == []


def test_a_size_that_was_read_again_later_is_no_contradiction(shop: Shop) -> None:
    shop.asked("say", "base opening 178.60 should be 180", "--yes")
    shop.asked("measure", "base", "opening", "179.90")
    assert shop.logbook("check", "--json").json["problems"] == []


def test_two_pieces_in_one_place_are_a_problem_naming_both(shop: Shop) -> None:
    for _ in range(2):
        shop.asked("piece", "base")
    for file in shop.records("pieces"):
        by_hand(file, "build =", 'place = "left"\nbuild =')
    [problem] = [p for p in problems(shop) if "both at left" in p]
    assert "base-1" in problem
    assert "base-2" in problem
    shop.asked("dispose", "base-1", "scrap")
    assert shop.logbook("check").code == 0


def test_a_reading_whose_size_is_of_another_part_than_its_piece_is_told(
    shop: Shop,
) -> None:
    shop.asked("measure", "lid", "length", "179.6")
    shop.asked("measure", "crossbar", "width", "20.0")
    runs = {path.name.split("-")[1]: path for path in shop.records("runs")}
    named = {
        one: re.search(rf'"({one}-1 \w+)"', runs[one].read_text("utf-8"))
        for one in runs
    }
    assert named["lid"]
    assert named["crossbar"]
    by_hand(runs["lid"], named["lid"][1], named["crossbar"][1])
    [problem] = problems(shop)
    assert (
        "reading 1 what: found length of lid, but crossbar-1 is a crossbar" in problem
    )
    assert "accepted: a size of crossbar, or a piece of lid" in problem
