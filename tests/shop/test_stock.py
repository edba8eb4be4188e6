"""Blanks, bars and packs: every layout and list is checked from scratch."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.shop.making.buying import cheapest_packs, cut_bars, least_bars
from logbook.shop.making.layouts import Blank, Cutting, Place, faults
from logbook.shop.making.nesting import read_size
from logbook.shop.making.no_layout import at_most, impossible
from logbook.shop.making.packing import find_layout, most_of
from logbook.shop.making.spares import chance_of_too_few, pieces_to_make
from logbook.shop.sums import work_out

MM = 1000
PLAIN = Cutting(kerf=1 * MM, margin=0, grain_kept=False, straight_through=False)
sides = st.integers(20, 300).map(lambda n: n * MM)
blank_lists = st.lists(st.builds(Blank, sides, sides), min_size=1, max_size=7)
cuttings = st.builds(
    Cutting,
    kerf=st.integers(0, 4).map(lambda n: n * MM),
    margin=st.integers(0, 10).map(lambda n: n * MM),
    grain_kept=st.booleans(),
    straight_through=st.booleans(),
)


@settings(max_examples=25, deadline=None)
@given(blank_lists, cuttings)
def test_offered_layouts_obey_kerf_margin_grain_and_cuts(
    blanks: list[Blank], cutting: Cutting
) -> None:
    stocks = [Blank(400 * MM, 300 * MM), Blank(250 * MM, 250 * MM)]
    places = find_layout(stocks, blanks, cutting)
    assert faults(places, stocks, blanks, cutting) == []
    if len(places) == len(blanks):
        assert impossible(stocks, blanks, cutting) == ""


def test_two_blanks_come_out_of_the_offcut() -> None:
    typed = {"stock": "400x150", "blanks": "180 x 95", "count": "2", "kerf": "1 mm"}
    answer = work_out("blanks-from-stock", typed)
    assert answer["come_out"] == "yes"
    assert answer["most"] == 2
    assert len(answer.tables[0].rows) == 2


def test_a_kerf_too_many_and_they_do_not() -> None:
    typed = {"stock": "360x95", "blanks": "180x95", "count": "2"}
    assert work_out("blanks-from-stock", {**typed, "kerf": "0"})["come_out"] == "yes"
    answer = work_out("blanks-from-stock", {**typed, "kerf": "1 mm"})
    assert str(answer["come_out"]).startswith("no: no two of them")
    three = {"stock": "400x150", "blanks": "180x95", "count": "3", "kerf": "1 mm"}
    found = work_out("blanks-from-stock", three)
    assert found["come_out"] == "no layout found, which is no proof"
    assert answer["placed"] == 1


def test_a_margin_counts_on_every_edge() -> None:
    typed = {"stock": "200x110", "blanks": "180x95", "kerf": "1 mm"}
    for margin, said in (("7 mm", "yes"), ("8 mm", "no: blank 1 fits into no piece")):
        answer = work_out("blanks-from-stock", {**typed, "margin": margin})
        assert str(answer["come_out"]).startswith(said)


def test_grain_forbids_turning() -> None:
    typed = {"stock": "100x200", "blanks": "180x95", "kerf": "1 mm"}
    assert work_out("blanks-from-stock", typed)["come_out"] == "yes"
    kept = work_out("blanks-from-stock", {**typed, "grain": "kept"})
    assert kept["come_out"] == "no: blank 1 fits into no piece of stock"


def test_straight_cuts_cannot_free_a_pinwheel() -> None:
    stock = [Blank(30 * MM, 30 * MM)]
    blanks = [
        Blank(20 * MM, 10 * MM),
        Blank(10 * MM, 20 * MM),
        Blank(20 * MM, 10 * MM),
        Blank(10 * MM, 20 * MM),
    ]
    pinwheel = [
        Place(0, 0, 0, 0, 20 * MM, 10 * MM),
        Place(1, 0, 20 * MM, 0, 10 * MM, 20 * MM),
        Place(2, 0, 10 * MM, 20 * MM, 20 * MM, 10 * MM),
        Place(3, 0, 0, 10 * MM, 10 * MM, 20 * MM),
    ]
    shear = Cutting(0, 0, grain_kept=False, straight_through=False)
    assert faults(pinwheel, stock, blanks, shear) == []
    through = Cutting(0, 0, grain_kept=False, straight_through=True)
    assert faults(pinwheel, stock, blanks, through) == [
        "stock 1 cannot be cut straight through"
    ]


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (Place(1, 0, 100 * MM, 0, 50 * MM, 50 * MM), "share the cut"),
        (Place(1, 0, 101 * MM, 0, 50 * MM, 51 * MM), "has another size"),
        (Place(1, 0, 351 * MM, 0, 50 * MM, 50 * MM), "reaches into the margin"),
        (Place(0, 0, 101 * MM, 0, 100 * MM, 40 * MM), "is laid twice"),
    ],
)
def test_checker_finds_what_a_packer_could_get_wrong(place: Place, said: str) -> None:
    stocks = [Blank(400 * MM, 300 * MM)]
    blanks = [Blank(100 * MM, 40 * MM), Blank(50 * MM, 50 * MM)]
    places = [Place(0, 0, 0, 0, 100 * MM, 40 * MM), place]
    assert any(said in each for each in faults(places, stocks, blanks, PLAIN))


def test_checker_finds_a_blank_across_the_grain() -> None:
    kept = Cutting(0, 0, grain_kept=True, straight_through=False)
    turned = [Place(0, 0, 0, 0, 40 * MM, 100 * MM)]
    found = faults(
        turned, [Blank(400 * MM, 300 * MM)], [Blank(100 * MM, 40 * MM)], kept
    )
    assert found == ["blank 1 lies across the grain"]


def test_most_blanks_of_one_size_is_the_plain_grid_where_that_is_best() -> None:
    stock = [Blank(400 * MM, 150 * MM)]
    assert most_of(stock, Blank(99 * MM, 49 * MM), PLAIN) == 12


def test_sizes_are_read_as_people_write_them() -> None:
    wanted = Blank(180 * MM, 95 * MM)
    for text in ("180x95", "180 × 95 mm", "180 mm x 95 mm", "180 by 95", "18x9.5 cm"):
        assert read_size("blanks", text) == wanted, text
    assert read_size("blanks", "4 x 3 3/4 in") == Blank(101_600, 95_250)


lengths = st.lists(st.integers(20, 900), min_size=1, max_size=30)


@given(lengths, st.integers(0, 5))
def test_no_bar_gives_more_than_it_has(pieces: list[int], kerf: int) -> None:
    wanted = [Fraction(each) for each in pieces]
    bars = cut_bars(wanted, Fraction(1000), Fraction(kerf), [Fraction(300)])
    assert sorted(p for each in bars for p in each.pieces) == sorted(wanted)
    for number, each in enumerate(bars):
        used = sum(each.pieces) + kerf * max(0, len(each.pieces) - 1)
        assert used <= (300 if number == 0 else 1000)


@given(lengths, st.integers(0, 5))
def test_no_cut_list_beats_the_lower_bound(pieces: list[int], kerf: int) -> None:
    wanted = [Fraction(each) for each in pieces]
    bars = cut_bars(wanted, Fraction(1000), Fraction(kerf), [])
    assert len(bars) >= least_bars(wanted, Fraction(1000), Fraction(kerf))


def test_a_last_piece_needs_no_kerf_behind_it() -> None:
    exact = [Fraction(500), Fraction(498)]
    assert len(cut_bars(exact, Fraction(1000), Fraction(2), [])) == 1
    assert least_bars(exact, Fraction(1000), Fraction(2)) == 1
    typed = {"pieces": "500; 498.1", "bar": "1000", "kerf": "2", "price": "3 EUR"}
    answer = work_out("cut-list", typed)
    assert answer["bars"] == 2
    assert answer.result("price").shown == "6.00 EUR"


@given(
    st.integers(1, 40),
    st.lists(st.tuples(st.integers(1, 12), st.integers(1, 30)), min_size=1, max_size=3),
)
def test_packs_are_the_cheapest_there_are(
    need: int, packs: list[tuple[int, int]]
) -> None:
    counts = [size for size, _ in packs]
    prices = [Fraction(price) for _, price in packs]
    found = cheapest_packs(need, counts, prices)
    cost = sum(n * price for n, price in zip(found, prices, strict=True))
    assert sum(n * size for n, size in zip(found, counts, strict=True)) >= need
    most = [math.ceil(need / size) + 1 for size in counts]
    if math.prod(most) <= 3000:
        best = min(
            sum(n * price for n, price in zip(tried, prices, strict=True))
            for tried in product(*(range(n) for n in most))
            if sum(n * size for n, size in zip(tried, counts, strict=True)) >= need
        )
        assert cost == best


def test_spares_follow_the_binomial_table() -> None:
    # P(at most 3 of 7 good at 0.8) = 0.0333, binomial table
    assert chance_of_too_few(7, 4, 0.8) == pytest.approx(0.033344, abs=1e-6)
    assert pieces_to_make(4, 0.8, 0.95) == 7
    assert pieces_to_make(4, 1.0, 0.99) == 4


@given(st.integers(1, 60), st.integers(5, 100), st.integers(50, 99))
def test_fewest_pieces_is_enough_and_one_less_is_not(
    wanted: int, good: int, chance: int
) -> None:
    made = pieces_to_make(wanted, good / 100, chance / 100)
    assert chance_of_too_few(made, wanted, good / 100) <= 1 - chance / 100
    if made > wanted:
        assert chance_of_too_few(made - 1, wanted, good / 100) > 1 - chance / 100


def test_hopeless_yield_is_refused() -> None:
    with pytest.raises(BadInput, match="takes more than 100000 pieces"):
        pieces_to_make(100, 1e-6, 0.95)


@pytest.mark.parametrize(
    ("stock", "blanks", "count", "grain", "verdict"),
    [
        ("300x150", "180x95", "2", "any", "no: no two of them"),
        ("300x150", "180x70", "2", "any", "yes"),
        ("300x150", "180x74.6", "2", "any", "no: no two of them"),
        ("300x150", "140x95", "2", "kept", "yes"),
        ("191x150", "95x180", "1", "kept", "no: blank 1 fits into no piece"),
    ],
)
def test_two_blanks_that_cannot_share_a_piece_are_refused_with_the_reason(
    stock: str, blanks: str, count: str, grain: str, verdict: str
) -> None:
    typed = {"stock": stock, "blanks": blanks, "count": count, "kerf": "1"}
    found = work_out("blanks-from-stock", {**typed, "grain": grain})
    said = found["come_out"]
    assert isinstance(said, str)
    assert said.startswith(verdict)


@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("ends", [("6 %", "11.8 %"), ("7 %", "13 %"), ("5 %", "18 %")])
@pytest.mark.parametrize("species", ["beech", "walnut, black", "beech, European"])
def test_the_upper_bound_shown_is_not_below_either_method(
    species: str, ends: tuple[str, str], units: str
) -> None:
    answer = work_out(
        "wood-movement",
        {
            "species": species,
            "width": "240 mm",
            "moisture_from": ends[0],
            "moisture_to": ends[1],
        },
        units,
    )
    shown = {
        each.name: float(each.shown.split()[0])
        for each in answer.results
        if each.name.startswith("change")
    }
    assert len(shown) > 1
    assert shown["change"] == max(shown.values())


def test_the_species_row_taken_is_said_with_its_neighbours() -> None:
    typed = {"width": "240", "moisture_change": "5"}
    said = work_out("wood-movement", {**typed, "species": "beech"}).assumptions
    wanted = "“beech” taken as beech, American; also in the table: beech, European"
    assert wanted in said
    exact = work_out("wood-movement", {**typed, "species": "beech, American"})
    assert not any("taken as beech" in line for line in exact.assumptions)


@pytest.mark.parametrize(
    ("word", "row"),
    [("aluminium", "aluminium 6061"), ("steel", "steel, carbon")],
)
def test_the_metal_row_taken_is_said(word: str, row: str) -> None:
    typed = {"material": word, "temperature_change": "20"}
    for name, more in (
        ("thermal-growth", {"length": "300"}),
        ("room-for-growth", {"distance": "300", "screw": "4"}),
    ):
        said = work_out(name, {**typed, **more}).assumptions
        assert any(f"“{word}” taken as {row}" in line for line in said)


def test_a_greatest_number_that_is_proved_is_said_to_be() -> None:
    # 95 mm fits once into 150 mm, 180 mm twice into 400 mm, and turned not at all.
    typed = {"stock": "400x150", "blanks": "180x95", "count": "2", "kerf": "1.5 mm"}
    most = work_out("blanks-from-stock", typed).result("most")
    assert most.value == 2
    assert most.meaning.endswith("no more can fit")


@settings(max_examples=30, deadline=None)
@given(
    st.integers(20, 90), st.integers(20, 90), st.integers(8, 40), st.integers(8, 40),
    st.integers(0, 3), st.booleans(),
)  # fmt: skip
def test_no_layout_has_more_blanks_than_can_fit(
    length: int, width: int, along: int, across: int, kerf: int, kept: bool
) -> None:
    stock = Blank(length * 1000, width * 1000)
    blank = Blank(along * 1000, across * 1000)
    cutting = Cutting(kerf * 1000, 0, kept, straight_through=False)
    assert most_of([stock], blank, cutting) <= at_most([stock], blank, cutting)
