"""Screw lengths as drawn, tap drills and torques, where the guide's reader needs them.

Check value: tapping drill of M4 is 3.3 mm (ISO 2306, as in `shop/tables/holes.toml`).
Layers and torques are invented.
"""

from __future__ import annotations

import pytest

from logbook.publish.notes.joints_told import joints_told
from tests.publish.stand import Stand, told

WASHERS = ("--layer", "lid=6.0 ±0.1", "--layer", "base=2.0 ±0.1")


def draft_guide(stand: Stand) -> str:
    code, said = stand.run("guide", "--draft")
    assert code == 0, said
    return stand.read("as-built/published/draft/guide.md")


def findings(stand: Stand) -> str:
    """Give what is said of the joints with what was found on this bench."""
    return " ".join(one.says for one in joints_told(stand.project.snapshot))


def joint(stand: Stand, *words: str) -> str:
    """Save a joint and give its row in the guide."""
    code, said = stand.run("joint", "lid to base", *words)
    assert code == 0, said
    rows = draft_guide(stand).split("\n")
    return next(row for row in rows if row.startswith("| lid to base"))


@pytest.mark.parametrize(
    ("fastener", "says"),
    [
        ("M4x16", "long enough, at worst"),
        ("M4x12", "at worst only"),
        ("M4x10", "mm short of through: take M4x"),
    ],
)
def test_a_screw_is_told_by_its_worst_case(
    drawn: Stand, fastener: str, says: str
) -> None:
    assert says in joint(drawn, fastener, *WASHERS, "--nut", "plain")


def test_what_cannot_be_worked_out_is_said_with_what_is_missing(drawn: Stand) -> None:
    row = joint(drawn, "M4x16", "--layer", "lid", "--nut", "plain")
    assert "not checked: thickness of lid not on record" in row
    assert (
        "length not checked: neither a nut nor a depth of thread is on record"
        in joint(drawn, "M4x16", *WASHERS, "--without", "nut")
    )
    row = joint(drawn, "rivet", *WASHERS)
    assert "not checked: rivet names no screw with its length" in row


def test_a_thickness_drawn_among_the_sizes_of_a_part_is_its_thickness(
    drawn: Stand,
) -> None:
    drawn.run("part", "plate", "--dimension", "thickness=6.0 ±0.1")
    drawn.run("part", "shim")
    row = joint(drawn, "M4x12", "--layer", "plate", "--layer", "shim", "--nut", "plain")
    assert "not checked: thickness of shim not on record" in row
    drawn.run("part", "shim", "--dimension", "thickness=2.0 ±0.1")
    again = joint(drawn, "M4x12")
    assert "at worst only" in again
    told = joint(drawn, "M4x12", *WASHERS)
    assert again.split("|")[-2] == told.split("|")[-2], "as with the layers told"


def test_each_layer_of_no_known_thickness_is_named(drawn: Stand) -> None:
    drawn.run("part", "shim")
    row = joint(drawn, "M4x12", "--layer", "shim", "--layer", "lid", "--nut", "plain")
    assert "not checked: thickness of shim and lid not on record" in row


def test_a_screw_into_an_insert_is_worked_out_as_released(drawn: Stand) -> None:
    words = ("--layer", "lid=1.5", "--thread-depth", "5.7 mm")
    row = joint(drawn, "M3x10", *words)
    assert "thread 5.7 mm deep" in row
    assert "bottoms and would clamp nothing" in row
    assert "take M3x6" in row


def test_this_shops_thickness_is_not_the_next_builders(drawn: Stand) -> None:
    words = ("M4x12", "--layer", "base", "--nut", "plain")
    drawn.run("part", "base", "--thickness", "2.0", "--dimension", "thickness=2.0")
    before = joint(drawn, *words)
    drawn.run("build", "build 1")
    words_off = ("--dimension", "thickness", "--found", "9.0", "--met-by", "piece")
    code, said = drawn.run("deviation", "base", "thick sheet", *words_off)
    assert code == 0, said
    assert joint(drawn, *words) == before
    assert "too short" in findings(drawn)


def test_a_joint_changed_since_is_checked_as_it_was_released(stand: Stand) -> None:
    words = ("--nut", "plain", "--layer", "base=8.0 mm")
    stand.run("joint", "lid to base", "M4x10", *words)
    code, said = stand.run("release", "1.2", "--anyway")
    assert code == 0, said
    stand.run("joint", "lid to base", "M4x20", *words)
    stand.run("guide", "1.2")
    rows = stand.read("as-built/published/1.2/guide.md").split("\n")
    row = next(row for row in rows if row.startswith("| lid to base"))
    assert "M4x10" in row
    assert "mm short of through: take M4x" in row


def test_torque_with_its_tool_and_result_and_the_tap_drill(drawn: Stand) -> None:
    tight = ("--torque", "1.2 N·m", "--torque-with", "torque driver")
    held = ("--torque-result", "held; no mark", "--preload", "1500 N")
    row = joint(
        drawn, "M4x12", *tight, *held, "--tap-drill", "3.3", "--step", "Fold the base"
    )
    assert "| 3.3 mm |" in row
    assert "1.2 N·m, preload 1500 N, with torque driver, held; no mark" in row
    assert "ISO 2306" not in row
    fastened = "1 × M4x12 (lid to base), tap drill 3.3 mm, how tight: 1.2 N·m"
    assert fastened in draft_guide(drawn)


def test_another_tap_drill_than_the_tables_is_told_with_the_thread_it_leaves(
    drawn: Stand,
) -> None:
    row = joint(drawn, "M4x12", "--tap-drill", "3.6 mm")
    # 76.98 (4 - 3.6) / 0.7 = 44 %
    assert "ISO 2306 has 3.3 mm for M4: 3.6 mm leaves 44 % of the thread" in row
    assert "ISO 2306 has 3.3 mm" in findings(drawn)


@pytest.mark.parametrize("option", ["--tap-drill", "--torque", "--preload"])
def test_a_wrong_quantity_is_refused_in_a_sentence(drawn: Stand, option: str) -> None:
    code, said = drawn.run("joint", "lid to base", "M4x12", option, "5 min")
    assert code != 0
    assert "found “5 min”; accepted: a " in said


def test_what_is_set_for_a_step_and_what_was_set_on_the_bench(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("step", "tap the holes", "--makes", "base", "--set", "drill 3.3 mm")
    drawn.run("step", "tap the holes", "--done", "--set", "3.4 mm")
    text = draft_guide(drawn)
    assert "- **Set**: drill 3.3 mm" in text
    assert "- **As set on the bench**, an example: build 1: 3.4 mm" in text


@pytest.mark.parametrize(("drilled", "doubted"), [("3.3", False), ("3.5", True)])
def test_a_hole_tapped_at_the_bench_stands_at_its_part(
    drawn: Stand, drilled: str, doubted: bool
) -> None:
    drawn.run("build", "build 1")
    code, said = drawn.run("say", f"tapped the base M4, drilled {drilled}", "--yes")
    assert code == 0, said
    text = draft_guide(drawn)
    part = text[text.index("### Base") : text.index("### Crossbar")]
    assert f"As set on the bench**, an example: build 1: drill {drilled} mm" in part
    assert f"{drilled} mm for M4" in part
    assert ("ISO 2306 has 3.3 mm for M4" in part) is doubted


@pytest.mark.parametrize(
    ("typed", "as_set"),
    [
        ("drilled the base 9.8, reamed 10", "drill 9.8 mm, reamer 10 mm"),
        ("drilled the base at 800 rpm", "speed 800 rpm"),
        ("bent the base at 178.45", ""),
        ("filed the base down to 59.9", ""),
        ("drilled the base 12 mm in from the edge", ""),
    ],
)
def test_settings_are_name_and_value_and_what_came_of_the_work_is_none(
    drawn: Stand, typed: str, as_set: str
) -> None:
    drawn.run("build", "build 1")
    told(drawn, "say", typed, "--yes")
    lines = draft_guide(drawn).splitlines()
    lead = "- **As set on the bench**, an example: build 1: "
    found = [one.removeprefix(lead) for one in lines if one.startswith(lead)]
    assert found == ([f"{as_set}."] if as_set else [])


def steps_of(stand: Stand, label: str) -> str:
    return (
        stand.run("guide", label, "--print")[1]
        .partition("## Steps")[2]
        .partition("\n## ")[0]
    )


def washers(stand: Stand) -> None:
    """Put two washers into each of the diffuser's four joints, and release that."""
    told(stand, "part", "M3 washer", "--source", "bought")
    told(stand, "part", "M3 nut", "--source", "bought")
    told(stand, "line", "M3 nut", "4")
    told(stand, "joint", "diffuser to base", "M3x12", "--layer", "M3 washer=0.5",
         "--layer", "diffuser=4", "--layer", "base=2.0",
         "--layer", "M3 washer=0.5")  # fmt: skip
    told(stand, "release", "1.2", "--anyway")


def test_a_step_takes_what_lies_in_its_joints_counted_from_them(stand: Stand) -> None:
    washers(stand)
    steps = steps_of(stand, "1.2")
    assert "- **Parts**: 1 × diffuser, 2 × lamp, 8 × M3 washer\n" in steps
    unused = steps.partition("no step says when they go in: ")[2].partition("\n")[0]
    assert unused == "M3 nut."


def test_what_a_step_names_itself_is_not_counted_again(stand: Stand) -> None:
    washers(stand)
    told(stand, "step", "Screw the diffuser on", "--uses", "M3 washer", "--uses",
         "diffuser")  # fmt: skip
    told(stand, "release", "1.3", "--anyway")
    assert steps_of(stand, "1.3").count("M3 washer") == 1


def test_a_step_has_the_fastener_it_was_released_with_though_that_changed_since(
    stand: Stand,
) -> None:
    washers(stand)
    old = steps_of(stand, "1.1")
    assert "- **Fasteners**: 4 × M3×10, countersunk head (diffuser to base)" in old
    assert "M3 washer" not in old
    assert "- **Fasteners**: 4 × M3x12" in steps_of(stand, "1.2")
