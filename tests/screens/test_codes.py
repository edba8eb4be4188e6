"""Codes of parts and pieces: short, never two things, and the same in every build."""

from __future__ import annotations

import itertools
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds.design import Part
from logbook.screens.run.codes import LONGEST, codes, piece_codes
from logbook.screens.run.pieces import Pieces
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged

NOUNS = ("base", "bar", "bracket", "bed", "gate", "lid", "mask", "collar", "arm", "cam")


def test_three_hundred_pieces_each_have_a_code_of_at_most_three_letters() -> None:
    parts = codes(NOUNS)
    pieces = [
        (f"{noun}-{n}", parts[noun], n)
        for n, noun in itertools.product(range(1, 31), NOUNS)
    ]
    found = piece_codes(pieces)
    assert len(found) == len({*found.values(), *parts.values()}) - len(parts) == 300
    assert max(map(len, (*found.values(), *parts.values()))) <= LONGEST
    assert (parts["base"], found["base-17"]) == ("b", "b17")


@given(
    st.lists(st.tuples(st.integers(0, 9), st.integers(1, 40)), max_size=60),
    st.integers(0, 60),
    st.integers(0, 10),
)
def test_a_code_stays_what_it_is_whatever_is_made_later(
    made: list[tuple[int, int]], then: int, known: int
) -> None:
    before = codes(NOUNS[:known])
    after = codes(NOUNS)
    assert {noun: after[noun] for noun in before} == before
    pieces = [(f"{at} {n}", after[NOUNS[noun]], n) for at, (noun, n) in enumerate(made)]
    early = piece_codes(pieces[:then])
    late = piece_codes(pieces)
    assert {one: late[one] for one in early} == early


@given(st.lists(st.text(max_size=12), unique=True, max_size=300))
def test_codes_never_mean_two_things(names: list[str]) -> None:
    found = codes(names)
    assert len(found) == len(names)
    assert len(set(found.values())) == len(names)


async def test_any_of_three_hundred_pieces_is_chosen_by_its_code(shop: Path) -> None:
    at_project = project(shop)
    draft = at_project.draft(at_project.snapshot.entries[-1].when)
    for noun in NOUNS:
        part = draft.new_part(noun) if noun != "base" else draft.part(noun)
        for number in range(2, 32):
            draft.new_piece(part, number)
    at_project.save(draft, "three hundred pieces", draft.when)
    async with bench(shop) as at:
        await at.press("f3")
        wanted = "gate-17"
        await at.pilot.pause()
        pieces = at.app.screen
        assert isinstance(pieces, Pieces)
        [line] = [line for line in pieces.lines("") if line.words == wanted]
        assert len(line.label) <= LONGEST
        await at.type(line.label)
        await at.press("enter")
        await at.pilot.pause()
        assert "measuring gate-17" in at.seen
    assert len(project(shop).snapshot.all(Part)) == len(NOUNS)


async def codes_shown(shop: Path) -> dict[str, str]:
    async with bench(shop) as at:
        await at.do("f3")
        pieces = at.app.screen
        assert isinstance(pieces, Pieces)
        return {line.words: line.label for line in pieces.lines("")}


async def test_a_code_learned_once_means_the_same_part_in_every_build(
    drawn: Path,
) -> None:
    before = await codes_shown(drawn)
    assert before == {"base-1": "b", "bar-1": "ba"}
    for line in ("bracket width 20.1", "collar bore 30.1"):
        logged(drawn, "say", line, "--yes")
    logged(drawn, "build", "build 2")
    for line in ("bar length 40.01", "bracket width 20.1"):
        logged(drawn, "say", line, "--yes")
    logged(drawn, "piece", "bar")
    async with bench(drawn) as at:
        await at.do("f3")
        await at.say("ba")
        assert "measuring bar-" in at.seen
    assert await codes_shown(drawn) == {
        "bar-2": "ba2", "bar-3": "ba3", "bracket-2": "br", "base": "b", "collar": "c",
    }  # fmt: skip
