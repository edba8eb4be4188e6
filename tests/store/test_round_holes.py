"""The round holes of a file in words, and which circle is its outline instead."""

from __future__ import annotations

import pytest

from logbook.store.designs.round_holes import holes_words, round_holes
from logbook.store.designs.shapes import Circle, Shape


def drawn(*circles: Circle, size: tuple[float, float] = (60, 60)) -> Shape:
    return Shape("mm", (*size, 0.0), circles=circles)


CORNERS = tuple(Circle(x, y, 4.0) for x in (9, 141) for y in (9, 141))


def test_holes_are_told_with_their_width_and_how_far_they_reach() -> None:
    said = holes_words(drawn(*CORNERS, size=(150, 150)), "mm")
    assert said == "4 round holes of 4 mm, outermost centres 132.0 × 132.0 mm apart"


def test_each_width_is_told_by_itself_the_smallest_first() -> None:
    said = holes_words(
        drawn(Circle(30, 30, 32), Circle(10, 5, 4.3), Circle(50, 5, 4.3)), "mm"
    )
    assert said == "3 round holes: 2 of 4.3 mm, centres 40.0 mm apart; 1 of 32 mm"


def test_a_circle_as_wide_as_all_that_is_drawn_is_the_outline() -> None:
    disc = drawn(Circle(30, 30, 60), Circle(30, 30, 32))
    assert round_holes(disc) == (Circle(30, 30, 32),)
    assert holes_words(disc, "mm") == "1 round hole of 32 mm"


def test_a_plate_without_holes_says_nothing_of_them() -> None:
    assert holes_words(drawn(Circle(30, 30, 60)), "mm") == ""


@pytest.mark.parametrize(
    ("shape", "said"),
    [
        (
            Shape("in", (2, 2, 0), circles=(Circle(1, 1, 0.1695),)),
            "1 round hole of 0.1695 in",
        ),
        (
            Shape("", (50, 50, 0), circles=(Circle(9, 9, 3.2),)),
            "1 round hole of 3.2 mm",
        ),
        (
            Shape("in", (2, 2, 0), circles=(Circle(1, 1, 0.25),), unit_told=True),
            "1 round hole of 6.35 mm",
        ),
        (
            Shape("", (0.06, 0.05, 0), circles=(Circle(0.03, 0.02, 0.004),)),
            "1 round hole",
        ),
    ],
)
def test_widths_are_told_in_the_unit_of_the_file(shape: Shape, said: str) -> None:
    """One nobody can tell the unit of has its holes counted, and no width of them."""
    assert holes_words(shape, "mm") == said
