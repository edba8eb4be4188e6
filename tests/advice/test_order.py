"""A proposed order of work, what the written one risks, and how strongly it speaks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.advice.ground.cost import weighed
from logbook.advice.steps.order import Must, proposed
from logbook.quantity import parse_quantity
from logbook.records.kinds import assembling, design, happenings
from logbook.records.kinds.words import Grade
from tests.advice.world import Stand, World


def step(world: World, title: str, number: int, **facts: Any) -> assembling.Step:
    return world.add(
        assembling.Step(title=title, number=number, **world.about(), **facts)
    )


def says(world: World) -> dict[str, Grade]:
    return {one.statement: one.grade for one in world.of("order")}


def test_what_is_made_last_to_suit_comes_after_what_it_suits() -> None:
    stand = Stand()
    step(stand, "cut the crossbar", 1, makes=stand.bar.ref)
    step(stand, "fold the base", 2, makes=stand.base.ref)
    risk, order = says(stand).items()
    assert risk[0].startswith("“fold the base” is written after “cut the crossbar”: ")
    assert "before the base opening can be measured" in risk[0]
    assert risk[1] is Grade.CHECK
    assert order[0] == "proposed order: 1 fold the base · 2 cut the crossbar"


def test_what_goes_inside_comes_before_the_step_that_closes() -> None:
    world = World()
    cable = world.part("cable")
    step(world, "rivet the lid on", 1, closes=True, inside=("cable",))
    step(world, "put the cable in its channel", 2, uses=(cable.ref,))
    told = says(world)
    [risk] = [text for text in told if "cable would still be outside" in text]
    assert told[risk] is Grade.WAIT
    assert "1 put the cable in its channel · 2 rivet the lid on" in next(reversed(told))


def test_what_was_done_first_though_written_after_is_only_remarked_on() -> None:
    world = World()
    cable = world.part("cable")
    step(world, "rivet the lid on", 1, closes=True, inside=("cable",))
    lay = step(world, "put the cable in its channel", 2, uses=(cable.ref,))
    done = happenings.StepDone(title="laid it", step=lay.ref, **world.about())
    world.add(done)
    told = says(world)
    [risk] = [text for text in told if "cable would still be outside" in text]
    assert risk.endswith("it has to come first; done already on this build")
    assert told[risk] is Grade.REMARK
    world.add(replace(done, undone=True))
    assert Grade.WAIT in says(world).values()


def test_the_written_order_stays_where_nothing_speaks_against_it() -> None:
    stand = Stand()
    step(stand, "fold the base", 1, makes=stand.base.ref)
    step(stand, "paint a box", 2)
    step(stand, "cut the crossbar", 3, makes=stand.bar.ref, uses=(stand.base.ref,))
    assert list(says(stand)) == [
        "the written order holds: 1 fold the base · 2 paint a box · 3 cut the crossbar"
    ]


def test_a_list_line_that_no_step_uses_is_named() -> None:
    stand = Stand()
    step(stand, "fold the base", 1, makes=stand.base.ref)
    step(stand, "cut the crossbar", 2, makes=stand.bar.ref)
    lamp = stand.part("lamp")
    for part in (stand.base, lamp):
        stand.add(assembling.Line(title=part.title, part=part.ref, **stand.about()))
    assert next(iter(says(stand))).endswith("in no step yet: lamp")


def test_steps_that_wait_for_each_other_are_a_problem_naming_them() -> None:
    world = World()
    one = step(world, "glue", 1)
    two = step(world, "sand", 2, after=(one.ref,))
    world.add(
        assembling.Step(
            id=one.id, title="glue", number=1, when=one.when, after=(two.ref,)
        )
    )
    told = world.told()
    [problem] = told.problems
    assert f"glue {one.id}" in str(problem)
    assert f"sand {two.id}" in str(problem)
    assert not told.of("order")


@given(
    count=st.integers(2, 12),
    pairs=st.sets(st.tuples(st.integers(0, 11), st.integers(0, 11)), max_size=20),
    closing=st.sets(st.integers(0, 11)),
)
def test_a_proposed_order_keeps_every_must(
    count: int, pairs: set[tuple[int, int]], closing: set[int]
) -> None:
    world = World()
    steps = [step(world, f"s{n}", n + 1, closes=n in closing) for n in range(count)]
    # A hidden order, so that there is no circle: ids do not follow numbers.
    hidden = sorted(range(count), key=lambda n: (n * 7) % 12)
    before = [
        Must(steps[hidden[a]], steps[hidden[b]], "") for a, b in pairs if a < b < count
    ]
    order, circle = proposed(steps, before)
    assert not circle
    assert sorted(s.id for s in order) == sorted(s.id for s in steps)
    place = {s.id: at for at, s in enumerate(order)}
    assert all(place[one.first.id] < place[one.then.id] for one in before)
    if all(one.first.number < one.then.number for one in before) and not closing:
        assert list(order) == steps


# -- by the cost of being wrong ------------------------------------------------------


@pytest.mark.parametrize(("remake", "grade"), [
    (None, Grade.CHECK),
    (design.Remake(time=parse_quantity("10 min")), Grade.REMARK),
    (design.Remake(time=parse_quantity("10 min"), money=parse_quantity("1 EUR")),
     Grade.REMARK),
    (design.Remake(time=parse_quantity("20 min")), Grade.CHECK),
    (design.Remake(time=parse_quantity("10 min"), money=parse_quantity("5 EUR")),
     Grade.CHECK),
    (design.Remake(time=parse_quantity("40 min")), Grade.WAIT),
    (design.Remake(money=parse_quantity("14 EUR")), Grade.WAIT),
    (design.Remake(time=parse_quantity("5 min"), stock_left=False), Grade.WAIT),
])  # fmt: skip
def test_advice_speaks_by_what_being_wrong_costs(
    remake: design.Remake | None, grade: Grade
) -> None:
    part = design.Part(id="part0000", title="bar", remake=remake)
    assert weighed(part, Grade.CHECK) is grade
    assert weighed(part, Grade.REMARK) is Grade.REMARK


@pytest.mark.parametrize(("time", "grade"), [
    ("10 min", Grade.REMARK), ("20 min", Grade.CHECK), ("40 min", Grade.WAIT),
])  # fmt: skip
def test_a_cheap_last_piece_is_only_remarked_on(time: str, grade: Grade) -> None:
    stand = Stand()
    stand.amended(stand.bar, remake=design.Remake(time=parse_quantity(time)))
    [advice] = stand.of("gaps")
    assert advice.grade is grade
    assert advice.assumed[-1] == f"another crossbar costs {time}"
