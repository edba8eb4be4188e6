"""A size that was only said to be wanted does not stand as drawn on a page."""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def draft_guide(stand: Stand) -> str:
    assert stand.run("guide", "--draft")[0] == 0
    return stand.read("as-built/published/draft/guide.md")


def test_what_should_be_is_wanted_and_not_drawn(stand: Stand) -> None:
    assert stand.run("say", "gate slot 4.6 should be 5", "--yes")[0] == 0
    text = draft_guide(stand)
    assert "| slot | not drawn; 5 mm wanted |" in text
    assert "drawing has slot" not in text


@pytest.mark.parametrize("says", ["gate slot drawn 5 ±0.1", "gate slot drawn 5"])
def test_what_was_drawn_later_stands_as_drawn(stand: Stand, says: str) -> None:
    assert stand.run("say", "gate slot 4.6 should be 5", "--yes")[0] == 0
    assert stand.run("say", says, "--yes")[0] == 0
    assert "| slot | 5 mm |" in draft_guide(stand)


def test_a_drawing_said_to_have_it_is_drawn(stand: Stand) -> None:
    assert stand.run("say", "gate slot 4.6, drawing says 5", "--yes")[0] == 0
    assert "| slot | 5 mm |" in draft_guide(stand)
