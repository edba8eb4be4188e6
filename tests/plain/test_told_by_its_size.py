"""A thing whose size is told, where no part by its name is known yet.

The lines are invented. A thing of its own is a part; a limb, which a part may have, is
asked about; a feature, or a size that lies between things, is of no part.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import NO_PART, Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part", "what"),
    [
        ("flywheel runout 0.12", "flywheel", "runout"),
        ("pulley bore 5.02", "pulley", "bore"),
        ("axle dia is 7.96", "axle", "dia"),
        ("spring free length 41.5", "spring", "length"),
        ("impeller diameter 38.4 wet", "impeller", "diameter"),
        ("gear width not measured", "gear", "width"),
        ("rudder thickness 18.5", "rudder", "thickness"),
        ("drawer depth 412.5 mm", "drawer", "depth"),
        ("coil reads 148 ohm", "coil", "resistance"),
    ],
)
def test_a_thing_of_its_own_is_a_part_by_its_size(
    says: str, part: str, what: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    assert (line.facts.part, line.facts.part_is_new) == (part, True)
    assert line.facts.what == what


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("hook depth 9.4 mm", "hook"),
        ("crown height 22.5", "crown"),
        ("spout angle 31 deg", "spout"),
        ("tine length 118.5", "tine"),
        ("peg taper never measured", "peg"),
        ("head weighs 310 g", "head"),
        ("crown 188 front to back, 193 across", "crown"),
        ("neck 21.4", "neck"),
        ("tongue 168 wide", "tongue"),
    ],
)
def test_which_part_a_limb_or_an_unheard_noun_is_is_asked(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert line.question.choices[-2:] == (part, NO_PART)


@pytest.mark.parametrize(
    "says",
    [
        "flange angle 88.5 deg", "kerf on the card 0.18", "hole depth 6.2",
        "hinge spacing 181.5", "slot width 4.1", "drawer gap 1.9", "nut torque 2.1 Nm",
    ],
)  # fmt: skip
def test_a_feature_or_what_lies_between_things_names_no_part(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    assert not line.facts.part


@pytest.mark.parametrize(
    ("says", "what"),
    [
        ("collar roundness not measured", "roundness"),
        ("bed straightness 0.3", "straightness"),
        ("colour temperature of the lamp unmeasured", "colour temperature"),
    ],
)
def test_the_name_of_a_size_is_kept(says: str, what: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert line.facts.what == what
