"""Records that cannot be worked with: a problem names them, and the rest goes on."""

from __future__ import annotations

import pytest

from logbook.advice.advisor import Told
from logbook.quantity import parse_quantity
from logbook.records.kinds import design, happenings
from logbook.records.kinds.words import State
from tests.advice.world import Stand, World

OTHER = "bar in the opening"


def goes_on(told: Told) -> bool:
    """Tell whether the gap that has nothing wrong is still told."""
    return any(one.statement.startswith(OTHER) for one in told.of("gaps"))


def test_gaps_that_wait_for_each_other_are_named_together() -> None:
    stand = Stand()
    hook = stand.part("hook")
    eye = stand.part("eye")
    width = stand.dimension(hook, "width", "10 ±0.1")
    inside = stand.dimension(eye, "inside", "10.2 ±0.1")
    first = stand.gap("hook in eye", "eye.inside - hook.width", "0.1 to 0.3",
                      made_last=width.ref)  # fmt: skip
    second = stand.gap("eye on hook", "eye.inside - hook.width", "0.1 to 0.3",
                       made_last=inside.ref)  # fmt: skip
    told = stand.told()
    assert len(told.problems) == 2
    for problem in told.problems:
        assert all(f"{one.title} {one.id}" in str(problem) for one in (first, second))
    assert goes_on(told)


def test_a_circle_of_three_is_found_and_a_chain_is_none() -> None:
    stand = Stand()
    parts = [stand.part(name) for name in ("peg", "ring", "tube")]
    sizes = [stand.dimension(part, "size", "10 ±0.1") for part in parts]
    stand.gap("one", "ring.size - peg.size", "0 to 1", made_last=sizes[0].ref)
    stand.gap("two", "tube.size - ring.size", "0 to 1", made_last=sizes[1].ref)
    assert not stand.told().problems
    stand.gap("three", "peg.size - tube.size", "0 to 1", made_last=sizes[2].ref)
    problems = [str(one) for one in stand.told().problems]
    assert len(problems) == 3
    assert all(name in problems[0] for name in ("one", "two", "three"))


def test_a_withdrawn_revision_in_a_gap_is_named_and_the_gap_still_told() -> None:
    stand = Stand()
    revision = stand.add(
        design.Revision(
            title="base first issue", part=stand.base.ref, label="-", **stand.about()
        )
    )
    piece = stand.piece(stand.base, revision=revision.ref)
    stand.read(piece, stand.opening, {"": "178.60"}, stand.caliper)
    stand.add(
        happenings.Status(
            title="withdrawn", of=revision.ref, state=State.WITHDRAWN, **stand.about()
        )
    )
    told = stand.told()
    assert any("base first issue, which was withdrawn" in str(p) for p in told.problems)
    assert any("finish 178.30 mm" in one.statement for one in told.of("gaps"))


def test_a_reading_in_another_kind_of_unit_is_named_and_the_others_count() -> None:
    stand = Stand()
    piece = stand.piece(stand.base)
    sizes = {"left": "178.60", "right": "12 °C"}
    run = stand.read(piece, stand.opening, sizes, stand.caliper)
    told = stand.told()
    problems = [p for p in told.problems if "12 °C" in str(p)]
    assert problems
    assert any(run.id in one.file for one in problems)
    assert any("finish 178.30 mm" in one.statement for one in told.of("gaps"))


def test_a_dimension_made_last_that_the_formula_does_not_contain_is_named() -> None:
    stand = Stand()
    other = stand.dimension(stand.bar, "height", "10")
    bad = stand.gap("odd", "base.opening - crossbar.length", "0 to 1",
                    made_last=other.ref)  # fmt: skip
    told = stand.told()
    [problem] = told.problems
    assert bad.title in str(problem)
    assert "height" in str(problem)
    assert goes_on(told)


@pytest.mark.parametrize("formula", [
    "(" * 50 + "base.opening" + ")" * 50 + " - crossbar.length",
    "base.opening - ",
    "base.opening - base.opening / 0",
    "base.opening * crossbar.length",
    "base.opening - nothing.here",
    "max(" + ", ".join(["base.opening"] * 3000) + ")",
])  # fmt: skip
def test_a_formula_that_cannot_be_read_is_a_problem_of_its_gap(formula: str) -> None:
    stand = Stand()
    stand.gap("odd", formula, "0 to 1")
    told = stand.told()
    [problem] = told.problems
    assert "gap odd" in str(problem)
    assert problem.accepted
    assert goes_on(told)


def test_a_formula_nested_deep_is_still_worked_out() -> None:
    world = World()
    bar = world.part("bar")
    world.dimension(bar, "length", "10 ±0.1")
    world.gap("deep", "(" * 35 + "bar.length" + ")" * 35 + " - 9 mm", "0 to 2")
    assert world.figures()["worst_low"] == pytest.approx(0.9)


@pytest.mark.parametrize("field", ["resolution", "uncertainty", "scale_error"])
def test_an_instrument_in_another_kind_of_unit_does_not_stop_the_rest(
    field: str,
) -> None:
    stand = Stand()
    stand.measured({"": "178.60"})
    stand.amended(stand.caliper, **{field: parse_quantity("5 °C")})
    lid = stand.part("lid")
    stand.dimension(lid, "depth", "5 ±0.1")
    stand.gap("lid", "lid.depth - 4 mm", "0 to 2")
    told = stand.told()
    named = [p for p in told.problems if stand.caliper.id in p.file]
    assert [str(p).count("°C is a temperature") for p in named] == [1]
    assert any("finish 178.30 mm" in one.statement for one in told.of("gaps"))
    assert any(one.statement.startswith("lid") for one in told.of("gaps"))


def test_rooms_the_wrong_way_round_are_named_once_for_each_subject() -> None:
    stand = Stand()
    stand.rooms(coldest="35 °C", hottest="15 °C")
    stand.amended(stand.base, material="aluminium")
    stand.measured({"": "178.60"})
    told = stand.told()
    assert any("35 to 15" in str(problem) for problem in told.problems)
    assert not told.of("gaps")


def test_a_nominal_that_is_no_length_waits_for_a_reading() -> None:
    world = World()
    bar = world.part("bar", process=("sawing",))
    length = world.dimension(bar, "length", "5 °C")
    world.gap("odd", "bar.length - 9 mm", "0 to 2")
    told = world.told()
    assert not told.of("gaps") or "cannot be worked out" in told.advice[0].statement
    assert told.problems or told.advice
    world.read(world.piece(bar), length, {"": "10 mm"})
    assert any("is 1.00 mm" in one.statement for one in world.told().of("gaps"))


def test_gap_limits_the_wrong_way_round_are_a_problem() -> None:
    stand = Stand()
    stand.amended(
        stand.fit,
        lower_limit=parse_quantity("0.5 mm"),
        upper_limit=parse_quantity("0.1 mm"),
    )
    [problem] = stand.told().problems
    assert "0.5 mm to 0.1 mm" in str(problem)
