"""A line of the parts list: what is bought is bought, and wire has a length."""

from __future__ import annotations

import pytest

from logbook.errors import BadInput
from logbook.records.kinds.words import Source
from logbook.records.making.bought import source_by_name
from tests.cli.shop import Shop


def guide(shop: Shop) -> str:
    """Put out a release of what is on record; give its guide."""
    assert shop.logbook("release", "1.0", "--anyway").code == 0
    return shop.logbook("guide", "1.0", "--print").out


def section(text: str, heading: str) -> str:
    """Give what stands under the headings of the parts list that begin so."""
    _, found, rest = text.partition(f"\n**{heading}**")
    return rest.partition("\n**")[0].partition("\n## ")[0] if found else ""


def test_a_bare_thread_and_what_is_told_as_bought_is_to_buy_and_not_to_make(
    shop: Shop,
) -> None:
    shop.asked("say", "--yes", "made the base")
    shop.asked("line", "M4x16", "4")
    shop.asked("line", "knob", "2", "--bought-as", "star grip M4")
    said = shop.logbook("release", "1.0", "--anyway").out
    assert "base: no file on record" in said
    assert "M4x16" not in said.partition("no file on record")[0]
    text = shop.logbook("guide", "1.0", "--print").out
    assert "Nobody has made yet: M4x16" not in text
    for name in ("M4x16", "knob"):
        assert f"{name}, first issue, untried" not in text
        assert text.index("Buy") < text.index(name, text.index("Buy"))


def test_a_part_that_was_on_record_is_bought_from_the_line_on_that_says_so(
    shop: Shop,
) -> None:
    shop.asked("part", "knob")
    said = shop.logbook("line", "knob", "2", "--bought-as", "star grip M4").out
    assert "knob is bought from now on" in said
    assert shop.asked("show", "knob")["record"]["source"] == "bought"
    assert shop.logbook("undo").code == 0
    assert shop.asked("show", "knob")["record"].get("source", "made") == "made"


def test_what_was_made_here_stays_made_whatever_it_is_cut_from(shop: Shop) -> None:
    shop.asked("say", "--yes", "made the board")
    said = shop.logbook("line", "board", "1", "--bought-as", "beech board 240 mm").out
    assert "bought from now on" not in said
    assert shop.asked("show", "board")["record"].get("source", "made") == "made"


@pytest.mark.parametrize(
    "name",
    ["M4x16", "M3 x 10", "M4", "M2,5x8", "1/4-20 x 3/4", "#4-40", "ISO 4762 M4x16",
     "DIN 985 - M4", "M4x16 mm", "M10x1.25", "pan head screw", "washer M4"],
)  # fmt: skip
def test_names_of_fasteners_are_bought(name: str) -> None:
    assert source_by_name(name) is Source.BOUGHT


@pytest.mark.parametrize(
    "name", ["M4 plate", "base", "mask 36x24", "M4 drill guide", "240 x 100", "M"]
)
def test_other_names_are_made(name: str) -> None:
    assert source_by_name(name) is Source.MADE


def test_wire_stands_on_the_list_by_its_length_and_so_in_the_guide(shop: Shop) -> None:
    shop.asked("line", "cable", "1,5 m", "--bought-as", "2 x 0.5 mm² twin lead")
    shop.asked("line", "edge strip", "2 x 400 mm", "--bought-as", "U strip")
    text = guide(shop)
    assert "| cable | 1.5 m |" in text
    assert "2 × 400 mm" in text
    shop.asked("line", "cable", "2")
    shop.asked("line", "cable", "--spare", "1")
    shop.asked("release", "1.1", "--anyway")
    assert "2 × 1.5 m + 1 spare" in shop.logbook("guide", "1.1", "--print").out


@pytest.mark.parametrize("typed", ["1,5", "-3", "some", "1.5 furlong", "0 m", "20 °C"])
def test_what_is_no_number_and_no_length_is_refused_in_one_sentence(
    shop: Shop, typed: str
) -> None:
    said = shop.logbook("line", "cable", typed)
    assert said.code == BadInput.exit_code
    assert "accepted: pieces, not packs (4), how much (1.5 m), or both" in said.err
    assert said.err.count("accepted:") == 1
