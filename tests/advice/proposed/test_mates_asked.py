"""A likely mate is seen by its sizes, and nothing else is cried about."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.proposals import proposals
from logbook.quantity import parse_quantity, quantity
from logbook.records.kinds.assembling import Fit, Step
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot, Stored
from tests.advice.proposed.together_by_hand import Bench


def test_one_inside_and_one_outside_size_nearly_equal_are_a_likely_mate(
    bench: Bench,
) -> None:
    bench.size(bench.part("base"), "opening", "178.6", drawn="180.0")
    assert bench.asked() == []
    bench.size(bench.part("crossbar"), "length", "179.7")
    assert bench.asked() == [
        "does the crossbar go into the base's opening? with how much room?"
    ]


@pytest.mark.parametrize(
    ("outer", "read", "inner", "other"),
    [
        ("length", "178.6", "length", "179.7"),
        ("opening", "178.6", "opening", "179.7"),
        ("opening", "178.6", "length", "150.0"),
        ("opening", "178.6", "length", "181.0"),
        ("opening", "178.6", "diameter", "178.6"),
        ("slot width", "4.0", "thickness", "4.0"),
        ("hole inset", "40.0", "length", "40.0"),
        ("slot depth", "20.0", "width", "20.0"),
        ("aperture width", "36.0", "width", "36.0"),
    ],
    ids=" ".join,
)
def test_what_is_no_likely_mate_is_let_be(
    bench: Bench, outer: str, read: str, inner: str, other: str
) -> None:
    bench.size(bench.part("base"), outer, read)
    bench.size(bench.part("crossbar"), inner, other)
    assert bench.asked() == []


def test_sizes_nobody_measured_suggest_nothing(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", drawn="180.0")
    bench.size(bench.part("crossbar"), "length", drawn="179.7")
    assert bench.asked() == []


def test_where_two_parts_could_be_the_mate_neither_is_proposed(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bench.size(bench.part("crossbar"), "length", "178.3")
    bench.size(bench.part("shelf"), "width", "178.4")
    assert bench.asked() == []


def test_what_is_named_together_is_seen_where_sizes_alone_say_too_little(
    bench: Bench,
) -> None:
    base, mask = bench.part("base"), bench.part("mask")
    bench.size(base, "mask slot", "0.55")
    bench.size(mask, "thickness", "0.53")
    assert "mask go into the base's mask slot" in bench.asked()[0]


def test_a_step_that_takes_both_decides_between_two_candidates(bench: Bench) -> None:
    base, bar = bench.part("base"), bench.part("crossbar")
    bench.size(base, "opening", "178.6")
    bench.size(bar, "length", "178.3")
    bench.size(bench.part("shelf"), "width", "178.4")
    uses = (base.ref, bar.ref)
    bench.put(Step(id=new_id(), title="fit the bar", when=bench.now, uses=uses))
    [asked] = bench.asked("gap")
    assert "does the crossbar go" in asked


def test_parts_a_gap_speaks_of_already_are_not_asked_about(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bench.size(bench.part("crossbar"), "length", "179.7")
    fit = Fit(
        id=new_id(), title="bar", when=bench.now,
        formula="base.opening - crossbar.length",
    )  # fmt: skip
    bench.put(fit)
    assert bench.asked() == []


@pytest.mark.parametrize(
    ("answer", "last"),
    [
        ("0.1 to 0.5", ""),
        ("0.1 to 0.5, made last", "crossbar"),
        ("0.1 to 0.5 mm, crossbar made last", "crossbar"),
        ("0.1 to 0.5; the base is made last", "base"),
        ("0.1…0.5, cut last", "crossbar"),
    ],
)
def test_the_room_and_what_is_made_last_are_read_from_one_answer(
    bench: Bench, answer: str, last: str
) -> None:
    opening = bench.size(bench.part("base"), "opening", "178.6")
    length = bench.size(bench.part("crossbar"), "length", "179.7")
    snapshot = bench.snapshot()
    draft = Draft(snapshot, bench.now)
    proposals(snapshot)[0].take(draft, answer)
    [fit] = draft.new
    assert isinstance(fit, Fit)
    assert (str(fit.lower_limit), str(fit.upper_limit)) == ("0.1 mm", "0.5 mm")
    meant = {"crossbar": length.ref, "base": opening.ref}.get(last)
    assert fit.made_last == meant


def big_project(seed: int) -> Bench:
    """Give seventy parts with four measured sizes each, drawn at random."""
    chance, bench = random.Random(seed), Bench()
    names = (
        "length", "width", "thickness", "height", "opening", "slot width", "bore",
        "hole inset", "diameter",
    )  # fmt: skip
    for number in range(70):
        part = bench.part(f"piece{chr(97 + number // 26)}{chr(97 + number % 26)}")
        for name in chance.sample(names, 4):
            scale = 5 if name in {"thickness", "slot width", "bore"} else 100
            size = chance.uniform(0.5 * scale, 3 * scale)
            bench.size(part, name, f"{size:.2f}")
    return bench


@pytest.mark.parametrize("seed", range(5))
def test_seventy_parts_with_many_sizes_give_a_handful_of_questions(seed: int) -> None:
    bench = big_project(seed)
    # 280 sizes, some 60 openings and bores: chance alone must not fill a list.
    assert len(bench.asked()) <= 3


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["opening", "length", "bore", "diameter", "slot", "size"]),
            st.integers(1, 400_00),
        ),
        max_size=12,
    )
)
def test_at_most_one_proposal_for_two_parts_and_the_order_of_files_is_none(
    sizes: list[tuple[str, int]],
) -> None:
    bench = Bench()
    for at, (name, hundredths) in enumerate(sizes):
        part = bench.part(f"p{chr(97 + at)}x")
        size = quantity(Fraction(hundredths, 100), "mm", Fraction(1, 100))
        bench.size(part, name, str(size))
    found = proposals(bench.snapshot())
    pairs = [frozenset(one.key.split()[1:]) for one in found]
    assert len(pairs) == len(set(pairs))
    stored = bench.snapshot().stored
    backward: dict[str, Stored] = dict(reversed(list(stored.items())))
    assert proposals(Snapshot(backward)) == found


def test_a_reference_by_name_alone_is_followed_too(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bar = bench.part("crossbar")
    what = Characteristic(
        id=new_id(), title="length", part=Ref("crossbar"), when=bench.now,
        nominal=parse_quantity("179.7 mm"),
    )  # fmt: skip
    bench.put(what)
    assert bar.title in bench.asked()[0]
