"""What a change touches and what becomes of pieces made; all sizes are invented."""

from __future__ import annotations

from typing import Any

import pytest

from logbook.records.written.text import digest
from tests.cli.shop import Shop

EARLY = ("--when", "2026-02-01T09:00")


@pytest.fixture
def stand(shop: Shop) -> Shop:
    """A base with a drawing, a joint, steps and a released revision."""
    (shop.folder / "rail.dxf").write_text("999\nfirst\n0\nEOF\n", "utf-8")
    shop.git("add", "rail.dxf")
    shop.git("commit", "-q", "-m", "Draw")
    for words in (
        ("part", "rail", "--dimension", "width=20.0 ±0.1", "--material", "beech"),
        ("part", "slot", "--dimension", "width=20.4 ±0.1"),
        ("revise", "rail", "--file", "rail.dxf", "--redrawn"),
        ("line", "rail", "2"),
        ("gap", "rail in slot", "slot.width - rail.width", "--limits", "0.1 to 0.7"),
        ("joint", "rail to slot", "M4x20", "--layer", "rail=20 mm"),
        ("step", "saw the rail", "--makes", "rail"),
        ("step", "slide the rail in", "--uses", "rail"),
        ("step", "sand the slot", "--makes", "slot"),
    ):
        assert shop.logbook(*words, "--later").code == 0, words
    shop.asked("release", "1.0", "--anyway")
    return shop


def impact(shop: Shop, *words: str) -> dict[str, Any]:
    answer: dict[str, Any] = shop.asked("impact", *words)
    return answer


def measured(shop: Shop, value: str) -> None:
    answer = ("--met-by", "piece", "--do", "use as is", "--later")
    assert shop.logbook("measure", "rail", "width", value, *answer).code == 0


def fate(shop: Shop, *words: str) -> tuple[str, str]:
    [piece] = impact(shop, "rail", *words)["pieces"]
    return piece["proposed"], piece["because"]


def test_whatever_depends_on_a_part_is_named(stand: Shop) -> None:
    found = impact(stand, "rail")
    assert found["change"] == "any change of rail"
    assert [one["gap"] for one in found["gaps"]] == ["rail in slot"]
    assert len(found["joints"]) == 1
    assert found["steps"] == ["saw the rail", "slide the rail in"]
    assert found["lines"] == ["rail in the whole"]
    assert found["files"] == ["rail.dxf"]
    [released] = found["released"]
    assert released["release"] == "1.0"
    said = " | ".join(one["says"] for one in released["statements"])
    assert "rail width: 20.0 mm" in said
    assert "saw the rail" in said
    assert "sand the slot" not in said


def test_a_gap_of_another_dimension_is_not_touched(stand: Shop) -> None:
    stand.asked("part", "rail", "--dimension", "length=300")
    found = impact(stand, "rail", "--dimension", "length=310")
    assert found["gaps"] == []
    assert found["keeps_number"] is True
    assert "no gap on record uses what changes" in found["number"]


@pytest.mark.parametrize(
    ("read", "asked", "proposed"),
    [
        ("20.00", "20.1 ±0.2", "fine"),
        ("20.00", "20.5 ±0.1", "look at it"),
        ("20.00", "19.5 ±0.1", "look at it"),
        ("20.00", "20.1 ±0.1", "look at it"),
    ],
)
def test_a_piece_is_judged_by_its_reading_against_the_new_limits(
    stand: Shop, read: str, asked: str, proposed: str
) -> None:
    measured(stand, read)
    assert fate(stand, "--dimension", f"width={asked}")[0] == proposed


@pytest.mark.parametrize(
    ("trim", "asked", "proposed", "because"),
    [
        ("smaller", "19.5 ±0.1", "rework", "take 0.40 mm off its width"),
        ("smaller", "20.5 ±0.1", "remake", "width is 0.40 mm under"),
        ("larger", "20.5 ±0.1", "rework", "open its width by 0.40 mm"),
        ("larger", "19.5 ±0.1", "remake", "width is 0.40 mm over"),
        ("neither", "19.5 ±0.1", "remake", "width is 0.40 mm over"),
    ],
)
def test_what_can_still_be_taken_off_is_reworked_and_the_rest_remade(
    stand: Shop, trim: str, asked: str, proposed: str, because: str
) -> None:
    measured(stand, "20.00")
    for file in stand.records("dimensions"):
        text = file.read_text("utf-8")
        if "rail" in text:
            new = text.replace("part =", f'trim = "{trim}"\npart =', 1)
            file.write_text(new, "utf-8")
    found = fate(stand, "--dimension", f"width={asked}")
    assert found[0] == proposed
    assert because in found[1]


def test_an_unmeasured_piece_is_fine_where_the_new_limits_hold_the_old(
    stand: Shop,
) -> None:
    stand.asked("piece", "rail")
    wide = fate(stand, "--dimension", "width=20.0 ±0.3")
    assert wide == ("fine", "every width the old limits allow is within the new ones")
    narrow = fate(stand, "--dimension", "width=20.0 ±0.05")
    assert narrow[0] == "look at it"
    assert "was not measured" in narrow[1]


def test_another_material_means_another_piece(stand: Shop) -> None:
    stand.asked("piece", "rail")
    assert fate(stand, "--material", "maple") == (
        "remake",
        "it is made of beech, not of maple",
    )


@pytest.mark.parametrize(
    ("said", "proposed"),
    [("yes", "remake"), ("no", "fine"), ("only if it rattles", "look at it")],
)
def test_what_the_maker_said_of_remaking_comes_first(
    stand: Shop, said: str, proposed: str
) -> None:
    stand.asked("piece", "rail")
    stand.asked(
        "revise", "rail", "--changed", "wider", "--dimension", "width=20.1",
        "--remake", said,
    )  # fmt: skip
    [piece] = impact(stand, "rail")["pieces"]
    assert piece["proposed"] == proposed
    assert "rail rev A says" in piece["because"]


def test_a_scrapped_piece_and_one_of_the_new_revision_are_left_out(
    stand: Shop,
) -> None:
    stand.asked("piece", "rail")
    stand.asked("dispose", "rail-1", "scrap")
    stand.asked("revise", "rail", "--changed", "wider", "--dimension", "width=20.1")
    stand.asked("piece", "rail")
    assert impact(stand, "rail")["pieces"] == []


def test_a_part_that_no_longer_fits_takes_a_number_of_its_own(stand: Shop) -> None:
    close = impact(stand, "rail", "--dimension", "width=20.05 ±0.1")
    assert close["keeps_number"] is True
    far = impact(stand, "rail", "--dimension", "width=20.6 ±0.1")
    assert far["keeps_number"] is False
    assert "with a new piece rail in slot lands by a chance of" in far["number"]
    [gap] = far["gaps"]
    assert gap["now"] != gap["with_a_new_piece"]


def test_what_is_made_to_suit_keeps_its_number_whatever_its_size(shop: Shop) -> None:
    found = impact(shop, "crossbar", "--dimension", "length=170 ±0.1")
    assert found["keeps_number"] is True
    assert "made to suit anyway" in found["number"]


def test_a_joint_is_worked_out_again_with_the_thickness_to_come(shop: Shop) -> None:
    for words in (
        ("part", "collar", "--dimension", "thickness=6.0 ±0.1"),
        ("part", "base", "--thickness", "2.0 mm"),
        ("joint", "collar to base", "M4x16", "--nut", "plain",
         "--layer", "collar=6.0 mm", "--layer", "base=2.0 mm"),
    ):  # fmt: skip
        assert shop.logbook(*words, "--later").code == 0, words
    now, then = impact(shop, "collar", "--dimension", "thickness=12 ±0.1")["joints"]
    assert "too short" not in now
    assert then.startswith("collar to base, with collar 12 mm: ")
    assert "too short" in then
    same = impact(shop, "collar", "--material", "steel")["joints"]
    assert same == [now]


def test_a_size_changed_without_its_drawing_is_asked_about(stand: Shop) -> None:
    stand.asked("revise", "rail", "--changed", "wider", "--dimension", "width=20.1")
    said = stand.logbook("impact", "rail").out
    assert "rail.dxf still as drawn before: draw it anew?" in said
    assert "proposed; the maker decides; a calculation, not an approval" in said


def test_asking_changes_no_record_and_names_what_it_does_not_know(
    stand: Shop,
) -> None:
    every = sorted((stand.folder / "as-built").rglob("*.md"))
    before = [digest(file.read_bytes()) for file in every]
    impact(stand, "rail", "--dimension", "width=21 ±0.1", "--material", "maple")
    refused = stand.logbook("impact", "rail", "--dimension", "girth=21")
    assert refused.code == 2
    assert "accepted: name=size, of width" in refused.err
    assert before == [digest(file.read_bytes()) for file in every]
