"""A piece made last: sizes from the side that can be taken back."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.chains.suit import Side, Wanted, make_to_suit
from logbook.shop.sums import work_out

CORNERS = (178.60, 178.65, 178.62, 178.68)
GAP = Wanted(0.1, 0.5, 0.04, 0.2, 0.05)


def test_a_bar_for_an_opening_read_at_four_corners() -> None:
    answer = work_out(
        "make-to-suit",
        {
            "readings": "178.60, 178.65, 178.62, 178.68",
            "uncertainty": "0.04 mm",
            "gap_low": "0.1 mm",
            "gap_high": "0.5 mm",
        },
    )
    shown = {each.name: each.shown for each in answer.results}
    assert shown["rough"] == "178.45 mm"
    assert shown["finish"] == "178.30 mm"
    assert (shown["accept_low"], shown["accept_high"]) == ("178.22 mm", "178.46 mm")
    assert shown["tightest"] == "178.60 mm"
    assert any("Offering it up" in line for line in answer.warnings)


def test_places_that_differ_too_much_suit_no_size() -> None:
    found = make_to_suit((178.1, 178.65, 178.1, 178.65), GAP)
    assert not found.possible
    assert found.short_by == pytest.approx(0.55 - (0.4 - 0.08))
    answer = work_out(
        "make-to-suit",
        {
            "readings": "178.1, 178.65",
            "uncertainty": "0.04",
            "gap_low": "0.1",
            "gap_high": "0.5",
        },
    )
    assert answer["possible"] is False
    assert "out of square" in answer.warnings[0]


@pytest.mark.parametrize(
    ("readings", "scatter", "finish"),
    [
        # Question as asked at the bench: 178.69 − 0.5 + 0.04 = 178.23, and
        # 178.60 − 0.3 = 178.30 is more than the scatter of 0.05 above it.
        ((178.60, 178.65, 178.69, 178.62), 0.05, 178.30),
        # Exactly one scatter above the smallest right size still counts.
        ((178.60, 178.69), 0.07, 178.30),
        ((178.60, 178.69), 0.08, 178.345),
        # A quarter of what the gap leaves apart: halfway, as is printed.
        ((178.60, 178.70), 0.05, 178.35),
        # 178.60 − 0.3 would be under the smallest right size, 178.34.
        ((178.60, 178.80), 0.05, 178.40),
    ],
)
def test_the_finish_keeps_a_scatter_away_from_what_cannot_be_put_back(
    readings: tuple[float, ...], scatter: float, finish: float
) -> None:
    wanted = replace(GAP, finish_scatter=scatter)
    found = make_to_suit(readings, wanted)
    assert found.finish == pytest.approx(finish)
    around = make_to_suit(
        [-each for each in readings],
        replace(wanted, side=Side.AROUND),
    )
    assert around.finish == pytest.approx(-finish)
    assert around.accept_high - around.finish >= 0.05 - 1e-9


@given(
    st.lists(st.floats(178, 178.3), min_size=1, max_size=6),
    st.floats(0.0, 0.2),
    st.floats(0.0, 0.1),
)
def test_no_other_aim_protects_both_ends_better_than_the_one_given(
    readings: list[float], scatter: float, u: float
) -> None:
    """The finish is a scatter inside, or as far inside as the range allows."""
    found = make_to_suit(readings, Wanted(0.1, 0.5, u, 0.2, scatter))
    if found.possible:
        inside = min(found.finish - found.accept_low, found.accept_high - found.finish)
        width = found.accept_high - found.accept_low
        assert inside >= min(scatter, width / 2) - 1e-9


PLACES = st.lists(st.floats(178, 178.3), min_size=1, max_size=6)


@given(PLACES)
def test_every_size_in_the_accept_range_leaves_the_wanted_gap_everywhere(
    readings: list[float],
) -> None:
    found = make_to_suit(readings, GAP)
    for size in (found.accept_low, found.finish, found.accept_high):
        for reading in readings if found.possible else ():
            # U stays in hand on both sides.
            assert 0.14 - 1e-9 <= reading - size <= 0.46 + 1e-9


@given(PLACES)
def test_the_worst_rough_cut_is_never_too_small(readings: list[float]) -> None:
    found = make_to_suit(readings, GAP)
    assert found.rough - GAP.rough_scatter >= found.accept_low - 1e-9
    assert found.rough - found.accept_low < GAP.rough_scatter + 0.3
    assert found.rough == pytest.approx(round(found.rough / 0.05) * 0.05)


@given(PLACES)
def test_around_a_bar_is_into_an_opening_turned_round(readings: list[float]) -> None:
    around = Wanted(0.1, 0.5, 0.04, 0.2, 0.05, side=Side.AROUND)
    found = make_to_suit(readings, around)
    if found.possible:
        for reading in readings:
            assert 0.1 <= found.finish - reading <= 0.5
    assert found.rough + around.rough_scatter <= found.accept_high + 1e-9
    assert found.rough <= found.finish + 1e-9
    assert found.tightest == max(readings)


def test_a_coat_to_come_is_left_room_for() -> None:
    bare = make_to_suit(CORNERS, GAP)
    coated = make_to_suit(CORNERS, Wanted(0.1, 0.5, 0.04, 0.2, 0.05, coat=0.16))
    assert coated.finish == pytest.approx(bare.finish - 0.16)
    assert coated.gap_tight == pytest.approx(bare.gap_tight)


def test_the_chance_is_that_of_drawing_it() -> None:
    wide = Wanted(0.1, 0.5, 0.1, 0.2, 0.3)
    found = make_to_suit(CORNERS, wide)
    off = np.random.default_rng(1).normal(0, np.hypot(0.15, 0.05), 400_000)
    gaps = np.array(CORNERS)[:, None] - found.finish - off
    landed = ((gaps >= 0.1) & (gaps <= 0.5)).all(axis=0).mean()
    # Standard error of a share of about 0.75 in 400 000 is 0.0007.
    assert found.chance == pytest.approx(landed, abs=0.004)


def test_more_uncertainty_never_widens_the_accept_range() -> None:
    ranges = [
        make_to_suit(CORNERS, Wanted(0.1, 0.5, u, 0.2, 0.05)) for u in (0, 0.02, 0.1)
    ]
    widths = [one.accept_high - one.accept_low for one in ranges]
    assert widths == sorted(widths, reverse=True)


@pytest.mark.parametrize(
    ("inputs", "said"),
    [
        ({"readings": "", "uncertainty": "0.04"}, "readings is missing"),
        ({"readings": "-1", "uncertainty": "0.04"}, "accepted: above 0"),
        ({"readings": "nan", "uncertainty": "0.04"}, "accepted"),
        ({"readings": "178.6", "uncertainty": "-1"}, "accepted: at least 0"),
        ({"readings": "178.6", "uncertainty": "1°"}, "accepted"),
        ({"readings": "178.6", "uncertainty": "0", "gap_low": "0.6"}, "smaller figure"),
    ],
)
def test_bad_input_gets_one_sentence(inputs: dict[str, str], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        work_out("make-to-suit", {"gap_low": "0.1", "gap_high": "0.5", **inputs})


def test_no_readings_are_refused() -> None:
    with pytest.raises(BadInput, match="read nowhere"):
        make_to_suit((), GAP)


def test_where_no_size_suits_none_is_given_to_cut_to() -> None:
    typed = {"readings": ("178", "190"), "uncertainty": "0.04", "gap_low": "0.1"}
    answer = work_out("make-to-suit", {**typed, "gap_high": "0.5"})
    assert answer["possible"] is False
    assert {"rough", "finish", "accept_low"}.isdisjoint(
        one.name for one in answer.results
    )
    assert answer.number("short_by") == pytest.approx(12 - 0.32)
