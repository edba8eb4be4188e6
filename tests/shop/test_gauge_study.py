"""Gauge studies: squares that add up, and the bias over the range."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from logbook.errors import BadInput
from logbook.shop.measuring.gauge_bias import linearity
from logbook.shop.measuring.gauge_variance import by_anova, by_ranges

_STUDY = st.integers(2, 3).flatmap(
    lambda k: st.integers(2, 5).flatmap(
        lambda n: st.lists(
            st.lists(
                st.lists(st.floats(9, 11), min_size=n, max_size=n),
                min_size=3,
                max_size=3,
            ),
            min_size=k,
            max_size=k,
        )
    )
)


@given(_STUDY)
def test_the_squares_of_a_gauge_study_add_up(study: list[list[list[float]]]) -> None:
    runs = {str(who): passes for who, passes in enumerate(study)}
    every = [one for passes in study for each in passes for one in each]
    assume(np.std(every) > 1e-3)
    assume(all(np.ptp([one[0] for one in passes]) > 1e-3 for passes in study))
    found = by_anova(runs)
    assert found.anova
    assert found.anova.total == pytest.approx(np.var(every) * len(every), rel=1e-6)
    assert min(found.repeatability, found.operator, found.part) >= 0


def test_a_gauge_study_needs_equal_runs_that_differ() -> None:
    with pytest.raises(BadInput, match="every operator measures every part"):
        by_anova({"a": [[1, 2], [1, 2]], "b": [[1, 2]]})
    with pytest.raises(BadInput, match="at least two of each"):
        by_ranges({"a": [[1, 2], [1, 2]]})
    for work in (by_anova, by_ranges):
        with pytest.raises(BadInput, match="do not differ"):
            work({"a": [[1, 2], [1, 2]], "b": [[1, 2], [1, 2]]})


def test_bias_over_size_is_the_line_of_least_squares() -> None:
    groups = [(2.0, [2.1, 2.0]), (6.0, [6.0, 6.2]), (9.0, [9.3, 9.1])]
    found = linearity(groups)
    size = [ref for ref, readings in groups for _ in readings]
    off = [one - ref for ref, readings in groups for one in readings]
    wanted = stats.linregress(size, off)
    assert found.slope == pytest.approx(wanted.slope)
    assert found.intercept == pytest.approx(wanted.intercept)
    assert found.t_slope == pytest.approx(wanted.slope / wanted.stderr)
    assert found.t_intercept == pytest.approx(
        wanted.intercept / wanted.intercept_stderr
    )
    assert found.share == pytest.approx(wanted.rvalue**2)
    with pytest.raises(BadInput, match="at least two references"):
        linearity([(2.0, [2.1, 2.2, 2.3])])
