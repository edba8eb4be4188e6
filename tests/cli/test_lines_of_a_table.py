"""A parts list that is a table is shown, then taken line by line; all is invented."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput
from logbook.plain.stated.parts_table import read_parts_table
from logbook.project import Project
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from tests.cli.shop import Shop

GERMAN = """Pos;Menge;Benennung;Maß;Preis
1;4;Senkkopfschraube;M4x16;0,12
2;8;Scheibe;M4;0,03
3;1,5;Zwillingslitze 0,75 mm², m;;0,60
4;;Deckel;;
5;einige;Kabelbinder;;
;;;;
6;2;Scheibe;M4;0,03
"""
ENGLISH = """Copy stand,,,
Part,Qty,Unit,Bought as,Unit price (EUR)
base,1,pcs,,
"cable, flat",1.5,m,twin lead,0.60
knob,2,,star grip,1.20
"""


def put(shop: Shop, text: str, coding: str = "utf-8") -> str:
    place = shop.folder / "list.csv"
    place.write_bytes(text.encode(coding))
    return str(place)


def listed(shop: Shop) -> dict[str, tuple[str, str, str]]:
    """Give each line: pieces, how much each is, price."""
    snapshot = Project.open(shop.folder).snapshot
    return {
        one.part.name: (str(one.quantity), str(one.amount or ""), str(one.price or ""))
        for one in snapshot.all(Line)
    }


def test_a_table_is_shown_first_and_nothing_is_saved(shop: Shop) -> None:
    before = shop.subjects()
    said = shop.logbook("lines", put(shop, GERMAN), "--currency", "EUR")
    assert said.code == 0
    assert "line 2: 4 × Senkkopfschraube M4x16, to buy, 0,12 EUR each" in said.out
    assert "nothing was saved; all that was read is taken with --yes" in said.out
    assert shop.subjects() == before
    assert listed(shop) == {}


def test_german_heads_semicolons_and_decimal_commas_are_read(shop: Shop) -> None:
    said = shop.logbook("lines", put(shop, GERMAN), "--currency", "EUR", "--yes")
    assert said.code == 0, said.err
    assert listed(shop) == {
        "Senkkopfschraube M4x16": ("4", "", "0,12 EUR"),
        "Scheibe M4": ("8", "", "0,03 EUR"),
        "Zwillingslitze 0,75 mm²": ("1", "1,5 m", "0,60 EUR"),
    }
    assert "not read: line 5: how many of Deckel?" in said.out
    assert "not read: line 6: quantity: “einige”" in said.out
    assert "not read: line 8: Scheibe M4 stands in line 3 already" in said.out
    assert "columns passed over: Pos" in said.out


def test_all_of_it_is_one_commit_and_one_undo(shop: Shop) -> None:
    count = len(shop.subjects())
    shop.logbook("lines", put(shop, GERMAN), "--yes")
    assert shop.subjects()[0] == "list: 3 lines of list.csv"
    assert len(shop.subjects()) == count + 1
    assert shop.logbook("undo").code == 0
    assert listed(shop) == {}


def test_english_heads_below_a_title_with_commas_in_quotes(shop: Shop) -> None:
    shop.asked("part", "base")
    said = shop.logbook("lines", put(shop, ENGLISH), "--yes")
    assert said.code == 0, said.err
    assert listed(shop) == {
        "base": ("1", "", ""),
        "cable, flat": ("1", "1.5 m", "0.60 EUR"),
        "knob": ("2", "", "1.20 EUR"),
    }
    sources = {
        one.title: one.source.value
        for one in Project.open(shop.folder).snapshot.all(Part)
    }
    assert sources == {"base": "made", "cable, flat": "bought", "knob": "bought"}


def test_a_price_without_a_currency_is_asked_once_and_left_out(shop: Shop) -> None:
    said = shop.logbook("lines", put(shop, GERMAN), "--yes").out
    assert said.count("in which currency?") == 1
    assert {price for *_, price in listed(shop).values()} == {""}


def test_a_table_read_again_changes_what_is_other_and_says_what_the_list_had(
    shop: Shop,
) -> None:
    shop.logbook("lines", put(shop, ENGLISH), "--yes")
    again = ENGLISH.replace("base,1", "base,3")
    said = shop.logbook("lines", put(shop, again), "--yes").out
    assert "3 × base, to make, the list had 1" in said
    assert listed(shop)["base"][0] == "3"


def test_umlauts_of_an_older_coding_are_read_and_said(shop: Shop) -> None:
    said = shop.logbook("lines", put(shop, "Menge;Teil\n2;Bügel\n", "cp1252"), "--yes")
    assert "not in UTF-8" in said.out
    assert listed(shop) == {"Bügel": ("2", "", "")}


@pytest.mark.parametrize("text", ["", "a;b\n1;2\n", "Qty\n3\n", "\0\0"])
def test_what_is_no_parts_list_is_refused_in_a_sentence(shop: Shop, text: str) -> None:
    said = shop.logbook("lines", put(shop, text), "--yes")
    assert said.code == BadInput.exit_code
    assert "accepted:" in said.err


def test_a_missing_file_is_refused(shop: Shop, tmp_path: Path) -> None:
    said = shop.logbook("lines", str(tmp_path / "none.csv"))
    assert said.code == BadInput.exit_code
    assert "cannot be read" in said.err


@given(
    numbers=st.lists(st.integers(1, 999), min_size=1, max_size=8),
    sign=st.sampled_from(";,\t|"),
)
def test_every_row_comes_back_with_its_number(numbers: list[int], sign: str) -> None:
    rows = [f"{many}{sign}part {at}" for at, many in enumerate(numbers)]
    found = read_parts_table("\r\n".join([f"Anzahl{sign}Teil", *rows]))
    assert found.unread == []
    assert [one.quantity for one in found.rows] == numbers
    assert [one.at for one in found.rows] == [*range(2, len(numbers) + 2)]
