"""A release says, before it goes out, what builders will ask that nobody has said.

The parts, screws and tools are invented.
"""

from __future__ import annotations

import json

import pytest

from logbook.publish.guide.unanswered import HEADING
from tests.publish.stand import Stand, page, told
from tests.publish.test_screw_holes import FOUR, drawn_with, flat

pytestmark = pytest.mark.xdist_group("publish")


def asked(stand: Stand, label: str = "1.9") -> list[str]:
    code, said = stand.look("release", label, "--check", "--json")
    assert code in (0, 7), said
    found = json.loads(said)["builders_ask"]
    assert isinstance(found, list)
    return [str(one) for one in found]


def asks(stand: Stand, begins: str) -> str:
    """Give the one line that begins so; empty without any."""
    return next((one for one in asked(stand) if one.startswith(begins)), "")


def test_they_stand_under_one_heading_and_hinder_nothing(drawn: Stand) -> None:
    said = stand_says(drawn)
    assert f"{HEADING}\n  what the screw goes into" in said
    made = told(drawn, "release", "1.0")
    assert HEADING in made


def stand_says(stand: Stand) -> str:
    code, said = stand.look("release", "1.0", "--check")
    assert code == 0, said
    return said


def test_a_joint_without_nut_or_thread_and_its_tightness_are_asked(
    drawn: Stand,
) -> None:
    assert "“diffuser to base”: logbook joint 'diffuser to base' --nut" in asks(
        drawn, "what the screw goes into"
    )
    assert "“diffuser to base”" in asks(drawn, "how tight")
    more = ("--nut", "plain", "--torque-result", "by hand")
    told(drawn, "joint", "diffuser to base", *more)
    assert not asks(drawn, "what the screw goes into")
    assert not asks(drawn, "how tight")


def test_screws_in_no_joint_and_purchases_without_a_name_are_asked(
    drawn: Stand,
) -> None:
    told(drawn, "line", "M4x12 screw", "2")
    assert asks(drawn, "what M4x12 screw holds")
    assert "M4x12 screw" in asks(drawn, "as what to buy")
    told(drawn, "line", "M4x12 screw", "--bought-as", "ISO 7380 M4x12")
    assert not asks(drawn, "as what to buy")


def test_too_few_holes_for_the_screws_are_asked(drawn: Stand) -> None:
    drawn_with(drawn, *((x, y, 3.4) for x, y in FOUR[:3]))
    assert "base, whose file draws 3 round holes of 3.4 mm" in asks(drawn, "which hole")
    drawn_with(drawn, *((x, y, 3.4) for x, y in FOUR))
    assert not asks(drawn, "which hole")


def test_how_far_a_thickness_may_differ_is_asked_until_it_is_said(
    drawn: Stand,
) -> None:
    told(drawn, "part", "plate", "--thickness", "3 mm", "--material", "steel")
    told(drawn, "line", "plate", "1")
    assert "plate" in asks(drawn, "how far the thickness may differ")
    told(drawn, "line", "plate", "--critical", "thickness free, 2 to 4 mm")
    assert "plate" not in asks(drawn, "how far the thickness may differ")
    assert "base" in asks(drawn, "how far the thickness may differ")


def test_a_process_without_tool_or_machine_is_asked_and_stands_in_the_guide(
    drawn: Stand,
) -> None:
    told(drawn, "part", "gate", "--process", "3D printing")
    assert "gate (3D printing)" in asks(drawn, "on which machine")
    row = "| for 3D printing: which, nobody has said | made: gate |"
    assert row in page(drawn, "guide", "--draft")
    told(drawn, "machine", "printer", "--process", "3D printing")
    told(drawn, "build", "build 1")
    told(drawn, "piece", "gate", "--on", "printer")
    assert "gate" not in asks(drawn, "on which machine")
    assert row not in page(drawn, "guide", "--draft")


def test_what_a_new_revision_fits_is_asked_while_it_can_be_said(stand: Stand) -> None:
    told(stand, "revise", "base", "--changed", "wider", "--why", "it bound")
    assert asks(stand, "what it still fits: base rev A: logbook revise base --redrawn")
    told(stand, "revise", "base", "--redrawn", "--mates", "crossbar first issue")
    assert not asks(stand, "what it still fits")


def test_what_only_a_new_revision_can_say_is_refused_beside_redrawn(
    stand: Stand,
) -> None:
    told(stand, "revise", "base", "--changed", "wider", "--why", "it bound")
    code, said = stand.run("revise", "base", "--redrawn", "--remake", "yes")
    assert code == 2
    assert "--remake opens a new revision, without --redrawn" in said


def test_settings_and_what_a_file_allows_for_are_asked_of_what_is_printed(
    drawn: Stand,
) -> None:
    drawn.bench.write("drawings/gate.dxf", flat(()))
    told(drawn, "part", "gate", "--process", "3D printing")
    told(drawn, "revise", "gate", "--redrawn", "--file", "drawings/gate.dxf")
    line = "- **Printed with**: nobody has said"
    assert line in page(drawn, "guide", "--draft")
    assert "printed: gate: logbook piece gate" in asks(drawn, "with which settings")
    assert "gate" in asks(drawn, "what the file allows for already")
    told(drawn, "build", "build 1")
    told(drawn, "piece", "gate", "--set", "walls=4")
    told(drawn, "part", "gate", "--compensated", "nominal")
    assert line not in page(drawn, "guide", "--draft")
    assert not asks(drawn, "with which settings")
    assert not asks(drawn, "what the file allows for already")
