"""What holds for any gap: knowing more never widens it, and order never matters."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.advisor import Advisor, Told, advise
from logbook.advice.ground.advice import Advice, as_facts
from logbook.quantity import parse_quantity
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import next_snapshot
from tests.advice.world import Stand, World, file_of

PROCESSES = ("folding", "sawing", "hand drilling", "laser cutting", "3D printing")
SIGNS = ("+", "-")
EACH = settings(max_examples=25, deadline=None)


def chain(
    rows: list[tuple[str, str]],
) -> tuple[World, list[tuple[design.Part, design.Characteristic]]]:
    """Give a gap over parts of 10 mm each, made by these processes."""
    world, made, terms = World(), [], []
    for at, (process, sign) in enumerate(rows):
        part = world.part(f"p{at}", process=(process,))
        made.append((part, world.dimension(part, "size", "10")))
        terms.append(f"{sign} p{at}.size")
    world.gap("all", "0 mm " + " ".join(terms), "-99 to 99")
    return world, made


def widths(world: World) -> tuple[float, float]:
    found = world.figures()
    return (
        found["worst_high"] - found["worst_low"],
        found["rss_high"] - found["rss_low"],
    )


@EACH
@given(
    rows=st.lists(
        st.tuples(st.sampled_from(PROCESSES), st.sampled_from(SIGNS)),
        min_size=1, max_size=5,
    ),
    at=st.integers(0, 4),
    size=st.integers(900, 1100),
    u=st.integers(1, 15),
)  # fmt: skip
def test_a_known_size_of_smaller_uncertainty_never_widens_a_gap(
    rows: list[tuple[str, str]], at: int, size: int, u: int
) -> None:
    world, made = chain(rows)
    before = widths(world)
    # ±0.2 mm is the narrowest of these processes: a U up to 0.15 mm is smaller.
    tool = world.instrument(uncertainty=f"{u / 100} mm", resolution="0.01 mm")
    part, what = made[at % len(rows)]
    world.read(world.piece(part), what, {"": f"{size / 100:.2f}"}, tool)
    after = widths(world)
    assert after[0] <= before[0] + 1e-9
    assert after[1] <= before[1] + 1e-9


@EACH
@given(value=st.integers(17800, 18200), repeats=st.integers(1, 6))
def test_repeats_that_agree_narrow_a_gap(value: int, repeats: int) -> None:
    found = []
    for count in (repeats, repeats + 1):
        stand = Stand()
        piece = stand.piece(stand.base)
        for _ in range(count):
            text = f"{value / 100:.2f}"
            stand.read(piece, stand.opening, {"left": text}, stand.caliper)
        found.append(widths_of_wait(stand))
    assert found[1] < found[0]


def widths_of_wait(stand: Stand) -> float:
    """Give the spread that the opening brings, the bar left out."""
    [advice] = stand.of("gaps")
    figures = {n.name: float(n.value) for n in advice.numbers}  # type: ignore[arg-type]
    return figures["rss_high"] - figures["rss_low"]


@EACH
@given(
    value=st.integers(17800, 18200),
    apart=st.integers(1, 60),
    more=st.integers(0, 60),
)
def test_places_that_disagree_widen_what_the_gap_runs_over(
    value: int, apart: int, more: int
) -> None:
    found = []
    for wide in (apart, apart + more):
        stand = Stand()
        stand.read(stand.piece(stand.bar), stand.length, {"": "178.30"}, stand.caliper)
        ends = {"left": f"{value / 100:.2f}", "right": f"{(value + wide) / 100:.2f}"}
        stand.measured(ends)
        figures = stand.figures()
        found.append(figures["worst_high"] - figures["worst_low"])
        assert figures["gap_loose"] - figures["gap_tight"] == pytest.approx(wide / 100)
    assert found[1] >= found[0] - 1e-9


# -- order, and one thing after another ----------------------------------------------


def told_as(told: Told) -> tuple[list[object], list[str]]:
    return [as_facts(one) for one in told.advice], [str(p) for p in told.problems]


def busy() -> Stand:
    """Give a stand with a bit of everything advice looks at."""
    stand = Stand()
    stand.rooms(coldest="15 °C", hottest="35 °C", driest="30 %", dampest="65 %")
    bed = stand.part("bed", material="beech")
    stand.dimension(bed, "width", "240")
    hole: dict[str, Any] = {
        "hole": parse_quantity("4.5 mm"),
        "from_fixed": parse_quantity("100 mm"),
    }
    stand.add(
        assembling.Joint(
            title="bed to base", fastener="M4x25", nut="plain",
            layers=(
                assembling.Layer(part=stand.base.ref, thickness=parse_quantity("2 mm")),
                assembling.Layer(
                    part=bed.ref, thickness=parse_quantity("18 mm"), **hole
                ),
            ),
            **stand.about(),
        )
    )  # fmt: skip
    fold = stand.add(
        assembling.Step(title="fold", number=1, makes=stand.base.ref, **stand.about())
    )
    stand.add(
        assembling.Step(
            title="close", number=2, closes=True, after=(fold.ref,), inside=("bed",),
            **stand.about(),
        )
    )  # fmt: skip
    for opening in ("178.60", "178.70", "178.55", "178.62"):
        stand.measured({"left": opening, "right": opening})
    stand.measured({"left": "178.6", "right": "12 °C"})
    return stand


@EACH
@given(seed=st.integers(0, 10**6))
def test_the_order_of_reading_files_does_not_matter(seed: int) -> None:
    files = busy().files()
    first = advise(make_snapshot(files))
    random.Random(seed).shuffle(files)
    assert told_as(advise(make_snapshot(files))) == told_as(first)


def changed(stand: Stand, dice: random.Random) -> None:
    """Do one thing to the records: read, scrap, amend, take away, bring back."""
    act = dice.randrange(9)
    pieces = [one for one in stand.records.values() if isinstance(one, workshop.Piece)]
    if act == 0 or not pieces:
        stand.measured({"left": f"{178 + dice.random():.2f}", "right": "178.60"})
    elif act == 1:
        bar = stand.piece(stand.bar)
        stand.read(bar, stand.length, {"": f"{178 + dice.random():.2f}"}, stand.caliper)
    elif act == 2:
        stand.add(
            happenings.Disposal(
                title="gone", piece=dice.choice(pieces).ref,
                disposition=Disposition.SCRAP, **stand.about(),
            )
        )  # fmt: skip
    elif act == 3:
        part = dice.choice([stand.base, stand.bar])
        stand.amended(part, process=(dice.choice(PROCESSES),))
    elif act == 4:
        last = stand.length.ref if dice.random() < 0.5 else None
        stand.amended(stand.fit, made_last=last)
    elif act == 5:
        u = f"{dice.choice((0.02, 0.04, 0.1))} mm"
        stand.amended(stand.caliper, uncertainty=parse_quantity(u))
    elif act == 6:
        victim = dice.choice(sorted(stand.records))
        del stand.records[victim]
    elif act == 7:
        stand.add(workshop.Build(title=f"build {stand.made}", **stand.about()))
    else:
        stand.amended(
            stand.opening, nominal=parse_quantity(f"{dice.randint(178, 181)} mm")
        )


@EACH
@given(seed=st.integers(0, 10**6), count=st.integers(1, 6))
def test_advice_kept_up_to_date_is_advice_worked_out_anew(
    seed: int, count: int
) -> None:
    stand, dice, advisor = busy(), random.Random(seed), Advisor()
    advisor.update(stand.snapshot())
    for _ in range(count):
        changed(stand, dice)
        snapshot = stand.snapshot()
        assert told_as(advisor.update(snapshot)) == told_as(advise(snapshot))


@EACH
@given(seed=st.integers(0, 10**6), folds=st.lists(st.booleans(), max_size=8))
def test_figures_folded_late_are_the_figures_of_all_readings(
    seed: int, folds: list[bool]
) -> None:
    stand, dice, advisor = busy(), random.Random(seed), Advisor()
    advisor.update(stand.snapshot())
    for fold in folds:
        changed(stand, dice)
        advisor.update(stand.snapshot(), fold=fold)
    snapshot = stand.snapshot()
    assert told_as(advisor.update(snapshot)) == told_as(advise(snapshot))


@EACH
@given(seed=st.integers(0, 10**6), count=st.integers(1, 6))
def test_what_asks_no_figure_of_the_shop_does_not_wait_for_the_fold(
    seed: int, count: int
) -> None:
    stand, dice, advisor = busy(), random.Random(seed), Advisor()
    advisor.update(stand.snapshot())
    for _ in range(count):
        changed(stand, dice)
        kept = advisor.update(stand.snapshot(), fold=False)
        anew = advise(stand.snapshot())
        others = {"joints", "holds", "conformity", "order", "heat", "wood"}
        for topic in others:
            assert kept.of(topic) == anew.of(topic)
        assert kept.problems == anew.problems
        assert [figureless(a) for a in kept.of("gaps")] == [
            figureless(a) for a in anew.of("gaps")
        ]


def figureless(advice: Advice) -> object:
    """Give advice about a gap whose sizes were all read: it asks no figure."""
    open_ones = any("not measured" in said for said in advice.assumed)
    return advice.about if open_ones else as_facts(advice)


@EACH
@given(seed=st.integers(0, 10**6), skips=st.lists(st.booleans(), max_size=6))
def test_snapshots_of_one_line_are_followed_by_what_changed(
    seed: int, skips: list[bool]
) -> None:
    stand, dice, advisor = busy(), random.Random(seed), Advisor()
    files = {path: (sha, parsed) for path, sha, parsed in stand.files()}
    snapshot = make_snapshot(stand.files())
    advisor.update(snapshot)
    for skip in skips:
        changed(stand, dice)
        fresh = {path: (sha, parsed) for path, sha, parsed in stand.files()}
        snapshot = next_snapshot(snapshot, files, fresh, files.keys() | fresh.keys())
        files = fresh
        if not skip:
            assert told_as(advisor.update(snapshot)) == told_as(advise(snapshot))
    assert told_as(advisor.update(snapshot)) == told_as(advise(snapshot))


def without(snapshot: Snapshot, record: Record) -> Snapshot:
    kept = {key: one for key, one in snapshot.stored.items() if key != record.id}
    return Snapshot(kept, snapshot.problems, snapshot.read_only)


def test_advice_about_a_build_asked_for_leaves_the_next_answer_alone() -> None:
    stand = busy()
    build = stand.add(workshop.Build(title="build 2", **stand.about()))
    snapshot = stand.snapshot()
    advisor = Advisor()
    before = told_as(advisor.update(snapshot))
    advisor.update(snapshot, build)
    advisor.update(without(snapshot, build))
    assert told_as(advisor.update(snapshot)) == before


def test_a_project_that_was_empty_is_told_like_a_new_one() -> None:
    advisor = Advisor()
    full = busy().snapshot()
    advisor.update(full)
    advisor.update(Snapshot({}))
    assert told_as(advisor.update(full)) == told_as(advise(full))


def test_a_reading_changes_only_what_hangs_on_it() -> None:
    stand = busy()
    lid = stand.part("lid")
    stand.dimension(lid, "depth", "5 ±0.1")
    stand.gap("lid", "lid.depth - 4 mm", "0 to 2")
    advisor = Advisor()
    first = {one.key: one for one in advisor.update(stand.snapshot()).advice}
    stand.measured({"left": "179.10", "right": "179.12"})
    second: dict[str, Advice] = {
        one.key: one for one in advisor.update(stand.snapshot()).advice
    }
    [lid_gap] = [key for key, one in first.items() if one.statement.startswith("lid")]
    assert second[lid_gap] is first[lid_gap]
    [bar_gap] = [
        key for key, one in first.items()
        if one.about == stand.fit.ref and key == f"gap {stand.fit.id}"
    ]  # fmt: skip
    assert second[bar_gap] is not first[bar_gap]
    assert second[bar_gap] != replace(first[bar_gap])


def test_a_file_read_again_unchanged_is_worked_out_no_more() -> None:
    stand = busy()
    advisor = Advisor()
    first = advisor.update(stand.snapshot())
    again = make_snapshot([file_of(record) for record in stand.records.values()])
    second = advisor.update(again)
    gaps = zip(first.of("gaps"), second.of("gaps"), strict=True)
    assert all(one is other for one, other in gaps)
