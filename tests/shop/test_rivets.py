"""Rivets, solid and blind: never cut short, picked to hold the stack."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.shop.fastening.blind_rivets import blind_by_stack
from logbook.shop.fastening.drills import drill
from logbook.shop.fastening.solid_rivets import size_up, solid_length
from logbook.shop.sums import work_out


@given(st.floats(0.05, 0.3), st.floats(0.02, 0.5))
def test_solid_rivets_are_never_cut_short(diameter: float, grip: float) -> None:
    found = solid_length(diameter, grip)
    assert -1e-6 < found.length - found.needed < 1 / 16


def test_one_size_up_needs_more_edge_and_a_larger_hole() -> None:
    found = size_up(1 / 8)
    assert found.diameter == 5 / 32
    assert found.hole == drill("#21")
    assert found.fits(edge=0.32, pitch=0.5)
    assert not found.fits(edge=0.30, pitch=0.5)
    assert not found.fits(edge=0.32, pitch=0.45)


def test_blind_rivets_are_picked_to_hold_the_stack() -> None:
    for stack in (0.03, 0.0625, 0.1253, 0.2, 0.31):
        row = blind_by_stack(0.125, stack)
        assert stack <= row.number("grip_high")


def test_a_metric_solid_rivet_gets_a_metric_length_and_hole() -> None:
    # 4 + 1.5 · 3 = 8.5, so 10 of the lengths of DIN 660 (memory); hole 3.1 (memory)
    answer = work_out("solid-rivet", {"diameter": "3 mm", "grip": "4 mm"})
    assert answer["length_calc"] == pytest.approx(8.5)
    assert answer["length_std"] == 10
    assert answer["hole"] == 3.1
    assert answer["size_up"] == 3.5
    assert any("stated for inch rivets" in line for line in answer.assumptions)
    assert any("(memory)" in line for line in answer.sources)


def test_a_rivet_diameter_of_neither_kind_is_said() -> None:
    odd = work_out("solid-rivet", {"diameter": "3.3 mm", "grip": "4 mm"})
    assert "no nominal rivet diameter" in odd.warnings[0]
    for fine in ("1/8 in", "3.175 mm", "0.125 in"):
        known = work_out("solid-rivet", {"diameter": fine, "grip": "4 mm"})
        assert not any("no nominal" in line for line in known.warnings)
