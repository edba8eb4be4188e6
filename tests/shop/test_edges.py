"""How near an edge a hole may be, by head, layer and grain."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.shop.answers import Answer
from logbook.shop.fastening.edges import edge_distance, wood_distances
from logbook.shop.sums import work_out


def unwise(head: str, distance: str) -> Answer:
    return work_out(
        "edge-distance",
        {
            "layer": "polystyrene",
            "screw": "M3",
            "distance": distance,
            "thickness": "4 mm",
            "head": head,
        },
    )


def test_a_countersunk_screw_near_the_edge_of_polystyrene_is_unwise() -> None:
    answer = unwise("countersunk", "4 mm")
    assert answer["wise"] is False
    assert answer.number("centre_to_edge") == pytest.approx(10.2)
    assert any("wedges a brittle layer" in line for line in answer.warnings)
    assert unwise("countersunk", "15 mm")["wise"] is False
    assert unwise("flat-bearing", "15 mm")["wise"] is True


def test_brittle_layers_ask_for_more_than_metal() -> None:
    assert edge_distance("acrylic", 4).centre > edge_distance("aluminium", 4).centre
    assert edge_distance("acrylic", 2, 8).centre == 16
    assert edge_distance("steel", 2, 8).centre == 4


@given(st.floats(0, 90), st.floats(1, 12))
def test_pilot_holes_let_screws_stand_closer_along_the_grain(
    angle: float, diameter: float
) -> None:
    free = wood_distances(diameter, angle, predrilled=False)
    pilot = wood_distances(diameter, angle, predrilled=True)
    assert pilot["a3t"] < free["a3t"]
    assert pilot["a4c"] < free["a4c"]
