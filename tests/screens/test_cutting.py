"""Rows end between words, and a number is not parted from its unit."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.content import Content

from logbook.screens.ruled.cutting import LONG, SIGN, broken, cut, fitted, together
from logbook.screens.ruled.rows import Said
from tests.screens.bench_keys import bench
from tests.screens.conftest import logged

PLAIN = st.lists(
    st.text(alphabet="abcdeé軸178.%", min_size=1, max_size=12)
    | st.sampled_from(["178.6 mm", "100 %", "20 × 10 mm", "3 13/32 in", "±0.5 mm"]),
    max_size=30,
).map(" ".join)
WIDTHS = st.integers(min_value=4, max_value=90)


@given(PLAIN, WIDTHS)
def test_a_cut_row_fits_and_ends_with_a_whole_word(words: str, width: int) -> None:
    row = cut(Content(words), width)
    assert row.cell_length <= width
    if row.plain == words:
        return
    assert row.plain.endswith(SIGN)
    kept = row.plain.removesuffix(SIGN)
    assert words.startswith(kept.rstrip())
    if kept.endswith(" "):
        rest = words[len(kept.rstrip()) :]
        assert not rest or not re.match(r"[\w軸]", rest), rest
    else:
        assert max(map(len, re.split(" ", words))) > min(LONG, width - 4) or width < 30


@given(PLAIN, WIDTHS)
def test_broken_rows_fit_and_say_all_of_it(words: str, width: int) -> None:
    rows = broken(Content(words), width)
    assert all(row.cell_length <= width for row in rows)
    assert "".join("".join(row.plain for row in rows).split()) == "".join(words.split())


@given(PLAIN, WIDTHS, st.integers(min_value=1, max_value=4))
def test_only_so_many_rows_are_taken(words: str, width: int, most: int) -> None:
    rows = fitted(Content(words), width, most)
    whole = broken(Content(words), width)
    assert len(rows) == min(most, len(whole))
    if len(whole) > most:
        assert rows[-1].plain.endswith(SIGN)


@pytest.mark.parametrize("value", ["178.39 mm", "100 %", "1 1/2 in", "20 ×", "± 0.5"])
def test_a_value_is_not_parted(value: str) -> None:
    words = f"measured as {value} and more"
    for width in range(len(value), 40):
        assert any(value in row.plain for row in broken(Content(words), width)), width
        row = cut(Content(words), width).plain
        assert value in row or value.split(maxsplit=1)[0] not in row.split()


@given(st.lists(st.text(alphabet="abc ", min_size=1, max_size=30), max_size=9))
def test_what_belongs_together_stands_in_one_row(answers: list[str]) -> None:
    said = Content("  ").join(together(Content(one)) for one in answers)
    rows = [row.plain for row in broken(said, 40)]
    assert "".join("".join(rows).split()) == "".join("".join(answers).split())
    for one in answers:
        assert not one.strip() or any(one.strip() in row for row in rows)


def test_a_word_longer_than_a_row_is_cut_inside() -> None:
    path = "as-built/errata/2604/6z56rh1m-diffuser-cracked.md"
    assert cut(Content(path), 20).plain == f"{path[:19]}{SIGN}"


async def test_what_is_said_is_broken_anew_for_another_width(shop: Path) -> None:
    logged(shop, "note", "one word after the other until no row has room " * 4)
    async with bench(shop, (120, 40)) as at:
        for width in (60, 90, 61):
            await at.pilot.resize_terminal(width, 24)
            await at.rest()
            said = at.app.screen.query_one("#where > .said", Said)
            row = str(said.render())
            assert said.content_size.width - LONG <= len(row) <= said.content_size.width
            assert row.endswith(f" {SIGN}")


@pytest.mark.parametrize(
    ("words", "width", "kept"),
    [
        (f"{'build ' * 6}a second one for mounted slides, with the corrected files", 84,
         f"{'build ' * 6}a second one for mounted slides …"),
        ("the rivet heads stand proud of the lid by half a millimetre", 36,
         "the rivet heads stand proud …"),
        ("178.60 mm, 178.65 mm, 178.62 mm, 178.68 mm", 36,
         "178.60 mm, 178.65 mm, 178.62 mm …"),
        ("oneword, " + "anotherwordwithoutanend" * 3, 40,
         "oneword, anotherwordwithoutanendanother…"),
    ],
)  # fmt: skip
def test_what_is_left_of_a_cut_row_makes_sense(
    words: str, width: int, kept: str
) -> None:
    assert cut(Content(words), width).plain == kept
