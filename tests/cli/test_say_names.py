"""By which names a plain line knows a part, and when a new one is made."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.shop import Shop
from tests.cli.typed import answering


def parts(answer: Any) -> list[str]:
    return [r["title"] for r in answer["records"] if r["kind"] == "part"]


def test_a_design_file_lends_its_name_and_becomes_the_part_on_first_use(
    files: Shop,
) -> None:
    answer = files.asked("say", "x rail bracket hole 5.3 should be 5", "--yes")
    assert parts(answer) == ["x-rail-bracket"]
    [revision] = [r for r in answer["records"] if r["kind"] == "revision"]
    assert [file["path"] for file in revision["file"]] == ["x-rail-bracket.stl"]
    assert len(revision["file"][0]["sha256"]) == 64
    again = files.asked("say", "x-rail bracket cracked at the hole", "--yes")
    assert parts(again) == []


def test_a_name_of_two_humps_and_one_with_number_and_mark_are_known(
    files: Shop,
) -> None:
    spring = files.asked("say", "gate spring snapped", "--yes")
    assert parts(spring) == ["GateSpring"]
    arm = files.asked("say", "camera arm 40.2 long", "--yes")
    assert parts(arm) == ["camera arm"]
    assert "B" in {r.get("label") for r in arm["records"]}


@pytest.mark.parametrize(
    "line",
    [
        "caliper battery dead",
        "arm came out 0.5 short",
        "cap",
        "glue had not dried so the frame slipped",
        "ordered two toothed belts",
        "nozzle clogged",
    ],
)
def test_taken_unasked_no_part_is_made_where_its_name_is_not_sure(
    files: Shop, line: str
) -> None:
    assert parts(files.asked("say", line, "--yes")) == []


def test_a_name_that_is_not_sure_is_asked_about_once(
    files: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "")
    said = files.logbook("say", "arm broke at the neck")
    assert said.code == 0, said.err
    assert "1 camera arm / 2 arm / 3 no part" in said.out
    [path] = files.records("failures")
    assert 'piece = "camera arm-1' in path.read_text("utf-8")


def test_a_failure_of_no_sure_part_stays_a_failure(files: Shop) -> None:
    answer = files.asked("say", "arm broke at the neck, glued it", "--yes")
    failure = answer["records"][-1]
    assert failure["kind"] == "failure"
    assert "part" not in failure
    assert failure["cure"] == "glued it"


def test_an_unknown_name_of_three_words_is_taken_whole(shop: Shop) -> None:
    answer = shop.asked("say", "tip rack cover 86.4 should be 86", "--yes")
    assert parts(answer) == ["tip rack cover"]
    assert answer["records"][-1]["wanted"] == "86 mm"


def test_the_arm_length_of_a_bracket_is_no_bracket_arm(shop: Shop) -> None:
    for name in ("bracket.svg", "lamp.svg"):
        (shop.folder / name).write_text(name, "utf-8")
    said = shop.logbook("say", "lamp arm length 149.2 should be 150", "--yes")
    assert "which part? lamp arm / lamp" in said.out + said.err
    line = "bracket arm length 149.2 should be 150"
    made = shop.asked("say", line, "--yes")
    assert parts(made) == ["bracket"]
    assert "arm length" in [r["title"] for r in made["records"]]
