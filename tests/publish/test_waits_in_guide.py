"""What a builder declared a step to wait for is read at that step by who builds next.

The scene is the copy stand; its sizes and waits are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

WHY = "the bar cannot be filed once the diffuser is on"


def at_step(stand: Stand, title: str) -> str:
    guide = stand.run("guide", "1.1", "--print")[1].partition("## Steps")[2]
    return guide.partition(f". {title}")[2].partition("\n### ")[0]


def test_a_declared_wait_stands_at_its_step_with_its_reason(stand: Stand) -> None:
    told(stand, "hold", "Screw the diffuser on", WHY, "--until", "the bar slides in")
    line = f"- **Wait with it** until the bar slides in. The reason given: {WHY}."
    assert line in at_step(stand, "Screw the diffuser on")
    assert "Wait with it" not in at_step(stand, "Fit the crossbar")


def test_a_wait_that_was_gone_past_in_one_build_holds_for_the_next(
    stand: Stand,
) -> None:
    told(stand, "hold", "Fit the crossbar", WHY)
    told(stand, "build", "build 2")
    told(stand, "override", "Fit the crossbar", "--reason", "checked")
    assert f"- **Wait with it**: {WHY}." in at_step(stand, "Fit the crossbar")


def test_a_remark_holds_nobody_up(stand: Stand) -> None:
    told(stand, "hold", "Fit the crossbar", "goes in more easily cold", "--grade",
         "remark")  # fmt: skip
    assert "Wait with it" not in at_step(stand, "Fit the crossbar")


def test_a_wait_until_a_day_is_not_published_and_one_for_so_long_is(
    stand: Stand,
) -> None:
    told(stand, "hold", "Screw the diffuser on", WHY, "--until", "tomorrow 9:00")
    assert "Wait with it" not in at_step(stand, "Screw the diffuser on")
    told(stand, "hold", "Screw the diffuser on", WHY, "--until", "12 h")
    line = f"- **Wait with it** for 12 h. The reason given: {WHY}."
    assert line in at_step(stand, "Screw the diffuser on")
