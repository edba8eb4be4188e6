"""Steps, holds, gaps, joints typed on their own screens: shown, written, taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.records.kinds.assembling import Fit, Hold, Joint, Step
from logbook.records.kinds.record import Record
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.test_look import SIZES


def kept(folder: Path, kind: type[Record]) -> list[str]:
    return [one.title for one in project(folder).snapshot.all(kind)]


async def test_an_order_of_work_is_typed_from_nothing(shop: Path) -> None:
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+n")
        assert "no step yet" in at.words
        assert "“step fit the base; time 25 min”" in at.words
        assert "step; … │ number … (its place" in at.words
        assert "--" not in at.words
        await at.type("step fold the base --makes base --closes")
        assert "step 1: fold the base · closes · makes base" in at.words
        assert not kept(shop, Step)
        await at.do("enter")
        assert kept(shop, Step) == ["fold the base"]
        assert at.line.value == ""
        await at.say("step rivet the lid on --inside cable")
        await at.say("hold 2: the cable is not in --until tomorrow")
        await at.rest()
        assert "wait before step 2, rivet the lid on" in at.words
        await at.say("step 1")
        assert "step 1; Enter asks for what is to be seen first" in at.words
        assert kept(shop, Step) == ["fold the base", "rivet the lid on"]
        assert kept(shop, Hold) == ["rivet the lid on: the cable is not in"]
        await at.do("f8")
        await at.until(lambda: not kept(shop, Hold))
        await at.rest()
        assert "hold: rivet the lid on: the cable is not in" in at.words
    assert len(kept(shop, Step)) == 2


async def test_what_cannot_be_is_said_and_stays_in_the_line(shop: Path) -> None:
    logged(shop, "step", "fold the base")
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+n")
        await at.type("hold 7: it is wet")
        assert "not yet: no step is called “7”; accepted: fold the base" in at.words
        await at.do("enter")
        assert "not taken" in at.seen
        assert at.line.value == "hold 7: it is wet"
        await at.do("escape")
        assert at.line.value == ""
        assert "not yet" not in at.words
    assert not kept(shop, Hold)


async def test_a_gap_is_typed_where_gaps_are(shop: Path) -> None:
    logged(shop, "part", "crossbar", "--dimension", "length=179.7 ±0.1")
    line = "gap bar in it: base.opening - crossbar.length --limits 0.1 to 0.5"
    async with bench(shop, (100, 30)) as at:
        await at.do("ctrl+b")
        example = "gap crossbar in the base: base.opening - crossbar.length"
        assert example in at.words
        assert "screwed the base to the crossbar with M4x16" in at.words
        await at.type(line)
        assert "0.1 mm to 0.5 mm" in at.words
        assert not kept(shop, Fit)
        await at.do("enter")
        await at.rest()
        assert kept(shop, Fit) == ["bar in it"]
        assert "what if ›" in at.seen
        await at.type("opening 179.9")
        await at.settle()
        assert "WHAT IF" in at.seen


async def test_a_joint_is_typed_where_joints_are(shop: Path) -> None:
    for part in ("lid", "washer"):
        logged(shop, "part", part, "--thickness", "1.5")
    line = (
        "joint lid to base: M4x16; layer washer=0.8; layer lid; layer base=2.0 ±0.1; "
        "nut plain; number 4"
    )
    async with bench(shop, (118, 30)) as at:
        await at.do("ctrl+b")
        assert "joint base to lid: M4x16; layer base; layer lid; nut plain" in at.words
        await at.type(line)
        said = "joint lid to base · 4 × M4x16 · from the head on through washer 0.8 mm"
        assert said in at.words
        assert "base 2.0 mm (1.9 mm to 2.1 mm) · nut plain" in at.words
        assert not kept(shop, Joint)
        await at.do("enter")
        await at.until(lambda: "lid to base" in at.seen)
    [joint] = project(shop).snapshot.all(Joint)
    assert (joint.fastener, joint.nut, joint.quantity) == ("M4x16", "plain", 4)
    assert [str(layer.thickness or "") for layer in joint.layers] == [
        "0.8 mm", "", "2.0 mm",
    ]  # fmt: skip


async def test_a_joint_that_cannot_be_read_is_said_and_stays(shop: Path) -> None:
    async with bench(shop, (118, 30)) as at:
        await at.do("ctrl+b")
        await at.type("joint lid to base")
        assert "not yet: what is it called, and what holds it?" in at.words
        await at.do("enter")
        assert at.line.value == "joint lid to base"
    assert not kept(shop, Joint)


async def test_a_size_called_gap_is_supposed_as_before(shop: Path) -> None:
    logged(shop, "part", "clip", "--dimension", "gap=4 ±0.1")
    logged(shop, "gap", "clip on", "clip.gap - base.opening", "--limits", "0.1 to 0.5")
    async with bench(shop, (120, 40)) as at:
        await at.do("ctrl+b")
        await at.type("gap 4.2")
        await at.settle()
        assert "WHAT IF" in at.seen
        assert "not yet" not in at.words


@pytest.mark.parametrize("size", SIZES)
async def test_how_to_begin_is_read_at_every_size(
    shop: Path, size: tuple[int, int]
) -> None:
    async with bench(shop, size) as at:
        await at.do("ctrl+n")
        assert "step fit the base" in at.words
        await at.type("step fold the base --closes")
        assert "step 1: fold the base" in at.words
