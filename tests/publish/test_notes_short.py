"""The notes tell what is open, and take no more room than there is to tell."""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_a_question_stands_first_with_its_part_and_in_the_diary(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    asked = "not sure if the gate goes hinge up or hinge down"
    drawn.run("question", asked, "--part", "gate")
    text = drawn.run("notes", "--print")[1]
    first, _, rest = text.partition("## Before you start")
    line = "Not sure if the gate goes hinge up or hinge down."
    assert f"## Asked, and not answered yet\n\n- Gate: {line}" in first
    own = rest.partition("### Gate\n")[2].partition("\n### ")[0]
    assert f"- **Asked, and not answered yet**: {line}" in own
    assert f"- Asked: {asked}." in rest


def test_a_question_that_was_answered_is_told_with_its_answer(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("question", "which way up does the gate go?", "--part", "gate")
    drawn.run("decision", "gate with its hinge up", "--part", "gate")
    drawn.run(
        "question", "which way up does the gate go?", "--answer",
        "gate with its hinge up",
    )  # fmt: skip
    text = drawn.run("notes", "--print")[1]
    assert "not answered yet" not in text
    told = "- Gate: Which way up does the gate go? Gate with its hinge up."
    assert f"## Asked, and answered\n\n{told}" in text


def test_parts_of_which_nothing_is_on_record_share_one_line(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    for name in ("tray left", "tray right", "tray lid"):
        drawn.run("part", name)
    text = drawn.run("notes", "--print")[1]
    assert "### Tray" not in text
    line = next(one for one in text.splitlines() if "tray left" in one)
    assert line.startswith("No piece on record, no second revision, nothing gone wrong")
    assert "tray left, tray lid, tray right" in line
    drawn.run("piece", "tray lid")
    assert "### Tray lid" in drawn.run("notes", "--print")[1]


def test_very_many_parts_with_nothing_to_tell_are_counted_and_not_named(
    drawn: Stand,
) -> None:
    draft = drawn.begin()
    spacers = 30
    for number in range(spacers):
        draft.part(f"spacer {number}")
    drawn.keep(draft, "thirty spacers")
    text = drawn.run("notes", "--print")[1]
    line = next(x for x in text.splitlines() if x.startswith("No piece on record, no"))
    assert "spacer" not in line
    assert line.endswith(" parts.")
    assert int(line.split()[-2]) >= spacers
