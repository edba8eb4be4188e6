"""Places are named as they are called, and several numbers are several readings."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Run
from logbook.screens.run.typed_reading import Known, place_words, read_typed
from tests.screens.bench_keys import bench, measuring, project

AT_OPENING = Known("mm", {"opening", "top width", "hole 2"}, {"jig side"}, at_size=True)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("178.60 178.65 178.62", [("", "1"), ("", "2"), ("", "3")]),
        ("178.60 mm 178.65 mm", [("", "1"), ("", "2")]),
        ("7 1/32 in", [("", "")]),
        ("left 178.60", [("", "left")]),
        ("Right 178.60", [("", "Right")]),
        ("left 178.60 right 178.65", [("", "left"), ("", "right")]),
        ("left 178.60 178.65", [("", "left"), ("", "left")]),
        ("opening right 178.65", [("opening", "right")]),
        ("left opening 178.65", [("opening", "left")]),
        ("opening 178.65 178.7", [("opening", "1"), ("opening", "2")]),
        ("near end 178.65", [("", "near end")]),
        ("start 178.65", [("", "start")]),
        ("jig side 178.65", [("", "jig side")]),
        ("@jig 178.65", [("", "jig")]),
        ("opening @jig 178.65", [("opening", "jig")]),
        ("@jig bore 8.01", [("bore", "jig")]),
        ("top width 40", [("top width", "")]),
        ("hole 2 5.01", [("hole 2", "")]),
        ("slot 2 5.01", [("slot 2", "")]),
        ("bore 8 mm", [("bore", "")]),
        ("left n", [("", "left")]),
    ],
)
def test_a_typed_line_says_size_and_place(
    typed: str, meant: list[tuple[str, str]]
) -> None:
    found = read_typed(typed, AT_OPENING)
    assert [(one.what, one.place) for one in found] == meant


@pytest.mark.parametrize(
    ("typed", "what"),
    [
        ("bar length 179.6", "length"),
        ("Bar-1 length 179.6", "length"),
        ("bar width 40", "bar width"),
        ("bar length left 179.6", "length"),
        ("bar 4", "bar"),
        ("bar height 4", "bar height"),
    ],
)
def test_the_parts_own_name_before_a_size_it_has_is_no_part_of_the_name(
    typed: str, what: str
) -> None:
    known = Known("mm", {"length", "bar width"}, (), {"bar", "bar-1"})
    [found] = read_typed(typed, known)
    assert found.what == what


@pytest.mark.parametrize("typed", ["178.6 x 4", "1,234 5,678", "178.6 @left", "left"])
def test_what_says_no_reading_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="accepted"):
        read_typed(typed, AT_OPENING)


@pytest.mark.parametrize(
    "typed",
    [
        "opening 178.6 =180 ±1.2",
        "opening 178.6 drawn 180 ±1.2",
        "opening 178.6 drawn as 180 ±1.2",
        "opening 178.6 drawn: 180 ±1.2",
    ],
)
def test_how_a_size_is_drawn_may_be_said_in_words(typed: str) -> None:
    [one] = read_typed(typed, AT_OPENING)
    assert (one.what, str(one.value)) == ("opening", "178.6 mm")
    assert one.drawn is not None
    limits = (str(one.drawn.lower), str(one.drawn.nominal), str(one.drawn.upper))
    assert limits == ("178.8 mm", "180 mm", "181.2 mm")


def test_what_is_drawn_with_no_reading_is_refused_with_the_way() -> None:
    with pytest.raises(BadInput, match=r"has no reading; accepted: both"):
        read_typed("drawn 180 ±1.2", AT_OPENING)


WORD = st.sampled_from(
    ["178.6", "2", "1/2", "mm", "in", "left", "@jig", "opening", "bore", "n", "12,5"]
)


@given(st.lists(WORD, min_size=1, max_size=6).map(" ".join))
def test_no_name_is_made_of_numbers(typed: str) -> None:
    try:
        found = read_typed(typed, AT_OPENING)
    except BadInput:
        return
    for one in found:
        assert not one.what or any(sign.isalpha() for sign in one.what)
        assert one.what.casefold() not in place_words()


async def test_several_numbers_at_a_size_are_readings_at_places(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base")
        assert "to name its place" in at.seen
        await at.say("178.60 178.65 178.62")
        assert "3 readings of opening, none averaged" in " ".join(at.seen.split())
        await at.say("opening right 178.65")
    snapshot = project(shop).snapshot
    run = snapshot.all(Run)[-1]
    assert [(r.what.name, r.place, str(r.value)) for r in run.readings] == [
        ("opening", "1", "178.60 mm"),
        ("opening", "2", "178.65 mm"),
        ("opening", "3", "178.62 mm"),
        ("opening", "right", "178.65 mm"),
    ]
    assert [one.title for one in snapshot.all(Characteristic)] == ["opening"]


async def test_what_is_typed_after_a_refusal_stands_in_its_place(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base")
        await at.type("178.65x")
        await at.press("enter")
        assert "“178.65x”" in " ".join(at.seen.split())
        assert at.line.value == "178.65x"
        await at.say("178.62")
    run = project(shop).snapshot.all(Run)[-1]
    assert [str(r.value) for r in run.readings] == ["178.62 mm"]


async def test_an_arrow_edits_what_was_refused(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await measuring(at, "base")
        await at.type("178.65x")
        await at.do("enter", "right", "backspace", "enter")
    run = project(shop).snapshot.all(Run)[-1]
    assert [str(r.value) for r in run.readings] == ["178.65 mm"]
