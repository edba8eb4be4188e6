"""Chains: exact where linear, honest about noise where not."""

from __future__ import annotations

import math
import subprocess
import sys
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from logbook.errors import BadInput
from logbook.shop.chains.chain import by_formula, read_line
from logbook.shop.chains.evaluation import sampled
from logbook.shop.chains.formula import read_formula
from logbook.shop.chains.spread import Contributor, Shape
from logbook.shop.chains.stackup import stack_up
from logbook.shop.chains.trials import try_out
from logbook.shop.sums import work_out

MIXED = [
    Contributor("bore", 40, 0.1, 0.1, 1, Shape.NORMAL),
    Contributor("spacer", 25, 0.05, 0.05, -1, Shape.UNIFORM),
    Contributor("ring", 2, 0.03, 0.03, -1, Shape.TRIANGULAR),
    Contributor("shoulder", 10, 0.05, 0.05, -1, Shape.NORMAL, 2),
    Contributor("shim", 1, 0.02, 0, -1, Shape.UNIFORM),
    Contributor(
        "cap", 0, shape=Shape.MEASURED, readings=(0.5, 0.51, 0.52, 0.495, 0.505, 0.51)
    ),
]

CONTRIBUTORS = st.lists(
    st.builds(
        lambda nominal, plus, minus, direction, shape: (
            nominal, plus, minus, direction, shape,
        ),
        st.floats(-50, 50), st.floats(0.01, 1), st.floats(0, 1),
        st.sampled_from([1.0, -1.0, 2.0, -0.5]),
        st.sampled_from([Shape.NORMAL, Shape.UNIFORM, Shape.TRIANGULAR]),
    ),
    min_size=1, max_size=6,
).map(
    lambda rows: [
        Contributor(f"no. {place}", *row[:4], row[4]) for place, row in enumerate(rows)
    ]
)  # fmt: skip


def test_one_sided_limits_are_centred_before_anything_is_squared() -> None:
    found = stack_up(
        [Contributor("motor", 10, 0.2, 0.0), Contributor("cup", 5, 0, 0.1)]
    )
    assert found.nominal == 15
    assert found.centre == pytest.approx(15.05)
    assert found.worst == pytest.approx(0.15)
    assert found.rss == pytest.approx(math.hypot(0.1, 0.05))


def test_errors_of_one_set_up_add_straight_and_with_their_signs() -> None:
    saw = [
        Contributor("left", 50, 0.1, 0.1, 1, setup="saw stop"),
        Contributor("right", 50, 0.1, 0.1, 1, setup="saw stop"),
    ]
    assert stack_up(saw).rss == pytest.approx(0.2)
    against = [saw[0], Contributor("rest", 20, 0.1, 0.1, -1, setup="saw stop")]
    assert stack_up(against).rss == pytest.approx(0)
    assert stack_up(against).folded.between(29.9999, 30.0001) == pytest.approx(1)


def test_one_set_up_has_one_shape() -> None:
    with pytest.raises(BadInput, match="share the set-up jig"):
        stack_up(
            [
                Contributor("a", 1, 0.1, 0.1, setup="jig"),
                Contributor("b", 1, 0.1, 0.1, shape=Shape.UNIFORM, setup="jig"),
            ]
        )


@pytest.mark.parametrize("count", [1, 2, 3])
def test_uniform_sums_follow_the_irwin_hall_spread(count: int) -> None:
    found = stack_up(
        [Contributor(str(n), 0.5, 0.5, 0.5, 1, Shape.UNIFORM) for n in range(count)]
    )
    for at in np.linspace(0.1, count - 0.1, 7):
        exact = sum(
            (-1) ** k * math.comb(count, k) * (at - k) ** count
            for k in range(math.floor(at) + 1)
        ) / math.factorial(count)
        assert found.folded.below(float(at)) == pytest.approx(exact, abs=2e-7)


def test_normal_and_t_agree_with_scipy() -> None:
    normal = stack_up([Contributor("a", 3, 0.3, 0.3)])
    reading = stack_up([MIXED[-1]])
    spread = stats.t(5, MIXED[-1].centre, MIXED[-1].scale)
    for chance in (0.001, 0.025, 0.3, 0.5, 0.9, 0.999):
        wanted = stats.norm(3, 0.1).ppf(chance)
        assert normal.folded.quantile(chance) == pytest.approx(wanted, abs=1e-5)
        wanted = spread.ppf(chance)
        assert reading.folded.quantile(chance) == pytest.approx(wanted, abs=2e-4)
    assert reading.sd == pytest.approx(spread.std())


def test_triangular_agrees_with_scipy() -> None:
    found = stack_up([Contributor("a", 3, 0.3, 0.3, shape=Shape.TRIANGULAR)])
    wanted = stats.triang(0.5, 2.7, 0.6)
    for chance in (0.001, 0.025, 0.3, 0.5, 0.9):
        assert found.folded.quantile(chance) == pytest.approx(
            wanted.ppf(chance), abs=1e-4
        )


@settings(deadline=None, max_examples=25)
@given(CONTRIBUTORS)
def test_sampling_lies_within_its_own_error_of_the_exact_answer(
    chain: list[Contributor],
) -> None:
    found = stack_up(chain)

    def gap(sizes: Any) -> Any:
        return sum(one.direction * sizes[one.name] for one in chain)

    drawn = try_out(gap, chain, 40_000)
    limits = found.interval(0.9)
    chance = drawn.between(*limits)
    # Five standard errors: one in two million of honest draws lies beyond.
    assert abs(chance.value - 0.9) < 5 * chance.error
    assert abs(drawn.mean.value - found.centre) < 5 * drawn.mean.error + 1e-4
    assert abs(drawn.sd.value - found.sd) < 5 * drawn.sd.error + 1e-4


@settings(deadline=None)
@given(CONTRIBUTORS, st.floats(0.01, 1000))
def test_the_unit_of_the_chain_does_not_matter(
    chain: list[Contributor], scale: float
) -> None:
    scaled = [
        Contributor(
            one.name, one.nominal * scale, one.plus * scale, one.minus * scale,
            one.direction, one.shape,
        )
        for one in chain
    ]  # fmt: skip
    one, other = stack_up(chain), stack_up(scaled)
    size = max(abs(one.centre), one.worst) * scale
    assert other.worst == pytest.approx(one.worst * scale)
    assert other.rss == pytest.approx(one.rss * scale)
    for chance in (0.05, 0.5, 0.95):
        assert other.folded.quantile(chance) == pytest.approx(
            one.folded.quantile(chance) * scale, abs=1e-6 * size
        )


@settings(deadline=None)
@given(CONTRIBUTORS, st.floats(0.01, 0.5))
def test_wider_limits_never_make_landing_surer(
    chain: list[Contributor], more: float
) -> None:
    wider = [
        Contributor(
            one.name, one.nominal, one.plus + more, one.minus + more,
            one.direction, one.shape,
        )
        for one in chain
    ]  # fmt: skip
    one, other = stack_up(chain), stack_up(wider)
    assert other.worst > one.worst
    low, high = one.centre - one.sd, one.centre + one.sd
    assert other.folded.between(low, high) < one.folded.between(low, high) + 1e-6


@given(CONTRIBUTORS)
def test_standard_deviation_agrees_with_the_law_of_propagation(
    chain: list[Contributor],
) -> None:
    total = sum(one.direction * ufloat(one.centre, one.sd) for one in chain)
    found = stack_up(chain)
    assert found.sd == pytest.approx(total.std_dev)
    assert sum(part.share for part in found.parts) == pytest.approx(1)


def test_the_spread_holds_everything_and_nothing_beyond_its_reach() -> None:
    found = stack_up(MIXED[1:3])
    assert found.folded.below(found.worst_low - 1e-3) == pytest.approx(0, abs=1e-9)
    assert found.folded.below(found.worst_high + 1e-3) == pytest.approx(1)
    assert found.folded.between(None, None) == 1


def test_a_chain_without_spread_lands_where_it_lands() -> None:
    found = stack_up([Contributor("a", 3.0), Contributor("b", 1.0, direction=-1)])
    assert found.folded.between(1.999, 2.001) == pytest.approx(1)
    assert found.sd == 0


def test_linear_formulas_become_chains_and_others_do_not() -> None:
    lines = [read_line("base.opening: 180 ±1.2"), read_line("bar.length: 179.7 ±0.1")]
    found = by_formula(read_formula("base.opening - 2 × bar.length + 1 in"), lines)
    assert found is not None
    assert [one.direction for one in found[0]] == [1.0, -2.0]
    assert found[1] == pytest.approx(25.4)
    assert by_formula(read_formula("max(base.opening, bar.length)"), lines) is None


def test_sampling_a_formula_says_its_own_error() -> None:
    answer = work_out(
        "stack-up",
        {
            "chain": ("a.x: 40 ±0.1", "b.x: 39 ±0.1 uniform"),
            "formula": "max(a.x - b.x, 1 mm)",
            "trials": "200000",
        },
    )
    normal, flat = stats.norm(40, 0.1 / 3), stats.uniform(38.9, 0.2)
    generator = np.random.default_rng(7)
    size = 400_000
    drawn = np.maximum(
        normal.rvs(size, random_state=generator)
        - flat.rvs(size, random_state=generator),
        1.0,
    )
    mean = answer.result("mean")
    assert isinstance(mean.uncertainty, float)
    assert abs(answer.number("mean") - drawn.mean()) < 4 * mean.uncertainty


def test_the_same_seed_gives_the_same_answer() -> None:
    formula = read_formula("a.x / b.x × 1 mm")
    lines = [read_line("a.x: 4 ±0.1"), read_line("b.x: 2 ±0.1 triangular")]
    units = {"a.x": "mm", "b.x": "mm"}

    def gap(sizes: Any) -> Any:
        return sampled(formula, sizes, units, "mm")

    first, second = (try_out(gap, lines, 70_000, seed=3) for _ in range(2))
    assert (first.sizes == second.sizes).all()
    assert first.sizes.dtype == np.float32


def test_a_small_spread_on_a_large_size_is_drawn_in_double_precision() -> None:
    fine = Contributor("rail", 1000, 0.001, 0.001)
    assert try_out(lambda sizes: sizes["rail"], [fine], 1000).sizes.dtype == np.float64


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", "is no dimension"),
        ("bar", "is no dimension"),
        ("bar: ±0.1", "has no size"),
        ("bar: 3 ±0.1 lumpy", "found “lumpy”"),
        ("bar: 3 ±nan", "accepted"),
        ("bar: + measured 1 2 3", "3 readings cannot show a spread"),
        ("bar: 3 ±0.1 k 0", "more than 0"),
    ],
)
def test_a_line_that_cannot_be_read_is_refused(line: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        read_line(line)


def test_figures_that_are_none_are_refused() -> None:
    for bad in (math.nan, math.inf):
        with pytest.raises(BadInput, match="no finite figure"):
            Contributor("a", bad)
        with pytest.raises(BadInput, match="no finite figure"):
            Contributor("a", 1, bad, 0.1)
    with pytest.raises(BadInput, match="lower limit is above"):
        Contributor("a", 1, 0.1, -0.2)
    with pytest.raises(BadInput, match="at least one"):
        stack_up([])
    with pytest.raises(BadInput, match="accepted: from 1000"):
        try_out(lambda sizes: sizes["a"], [Contributor("a", 1, 0.1, 0.1)], 10)


def test_the_shop_loads_its_heavy_tools_only_when_a_sum_needs_them() -> None:
    script = (
        "import sys; from logbook.shop.sums import all_sums; assert list(all_sums());"
        "heavy = {'numpy', 'scipy', 'rectpack'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    found = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    assert found.stdout.strip() == "[]"


def test_no_sum_loads_the_slow_part_of_scipy() -> None:
    script = (
        "import sys; from logbook.shop.sums import all_sums, work_out\n"
        "for each in all_sums(): work_out(each, each.example)\n"
        "assert 'scipy.special' in sys.modules\n"
        "print('scipy.stats' in sys.modules)"
    )
    found = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    assert found.stdout.strip() == "False"
