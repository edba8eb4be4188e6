"""The builder notes: what they tell of pieces, days and joints; what is private."""

from __future__ import annotations

import pytest

from logbook.publish.notes.notes import write_notes
from logbook.records.kinds import happenings
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_nothing_private_is_in_the_notes(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    for published, because in ((False, "kept to myself"), (True, "told to all")):
        draft = drawn.begin()
        draft.add(
            happenings.Override(
                id=f"0verr1d{published:d}",
                title=f"went on, {because}",
                hold="wait",
                because=because,
                published=published,
                when=draft.when,
            )
        )
        drawn.keep(draft, "override")
    text = write_notes(drawn.project.snapshot)
    assert "kept to myself" not in text
    assert "Went on past a warning: went on, told to all." in text


def test_the_notes_say_the_last_word_on_a_piece_and_each_line_of_a_day_once(
    drawn: Stand,
) -> None:
    drawn.run("build", "build 1")
    words = ("--met-by", "drawing", "--do", "use as is", "--dimension", "length")
    drawn.run("deviation", "crossbar", "bar short", *words, "--found", "178.3")
    drawn.run("dispose", "crossbar-1", "rework")
    drawn.run("note", "swept the bench")
    drawn.run("note", "swept the bench")
    text = write_notes(drawn.project.snapshot)
    assert "- **The piece**: crossbar-1, reworked." in text
    assert "used as it is" not in text
    assert text.count("swept the bench") == 1


def test_a_piece_nobody_decided_on_is_said_to_be_undecided(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("failure", "diffuser", "diffuser cracked", "--met-by", "drawing")
    text = write_notes(drawn.project.snapshot)
    assert "- **The piece**: diffuser-1, nobody has decided on it yet." in text


def test_what_no_field_took_is_said_to_stand_in_the_line_alone(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    told = "diffuser cracked, overtightened, hand tight plus a quarter from now on"
    drawn.run("failure", "diffuser", told, "--met-by", "drawing")
    drawn.run("failure", "gate", "gate cracked", "--met-by", "drawing")
    text = write_notes(drawn.project.snapshot)
    apart = "not put on record by itself"
    more = "overtightened, hand tight plus a quarter from now on"
    assert f"- **Cause**: {apart}." in text
    assert f"- **Said with it**: {more}." in text
    assert f"- **What helped**: {apart}." in text
    assert text.count("- **What helped**: nothing is on record yet.") == 1
    assert text.count("- **Cause**: not known.") == 1


def test_the_diary_measures_before_it_judges_and_says_why_a_step_was_dropped(
    drawn: Stand,
) -> None:
    drawn.run("build", "build 1")
    drawn.run("measure", "base", "opening", "left=178.60", "--met-by", "machine")
    drawn.run("step", "Fit the crossbar", "--dropped", "it is glued")
    text = write_notes(drawn.project.snapshot)
    short = "- Base-1 opening at left 178.60 mm should be 180.0 mm.\n"
    assert short in text[: text.index("## Before you start")]
    diary = text[text.index("## What happened, in order") :]
    assert diary.index("- Measured: base-1: opening.") < diary.index("- Differs")
    assert "Fit the crossbar: not done any more, because it is glued." in diary


def test_the_notes_work_each_joint_out_with_what_was_found(drawn: Stand) -> None:
    words = ("--nut", "thin self-locking", "--nut-height", "5.0 mm")
    layers = ("--layer", "washer=0.8 mm", "--layer", "base=6.35 mm")
    drawn.run("joint", "foot to base", "M4x16", *words, *layers)
    text = write_notes(drawn.project.snapshot)
    joints = text[text.index("## What each joint comes to") :]
    assert "a calculation, not an approval." in joints
    found = next(row for row in joints.split("\n") if "Foot to base: M4x16" in row)
    # 16 - (0.8 + 6.35) - 5.0, nominal; worst case is never more
    assert "through 3.85 mm (beyond the nut, nominal)" in found
    assert "(beyond the nut, worst case)" in found
