"""Answers in words: no wider than the terminal, and how sure each part is."""

from __future__ import annotations

import argparse
import re
from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.cli import sums as verb
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.evidence import HOW_MEANT, evidence
from logbook.shop.shown import answer_lines, explain, manual
from logbook.shop.sums import Sum, all_sums, work_out

SUMS = [pytest.param(each, id=each.name) for each in all_sums()]
WIDTHS = (80, 100, 132)


@pytest.mark.parametrize("each", SUMS)
def test_no_line_is_wider_than_the_terminal(each: Sum) -> None:
    answer = work_out(each, each.example)
    for width in WIDTHS:
        for line in (*answer_lines(answer, width), *explain(each, width)):
            assert len(line) <= width, line


@pytest.mark.parametrize("each", SUMS)
def test_every_answer_says_in_words_how_sure_it_is(each: Sum) -> None:
    answer = work_out(each, each.example)
    held = cast("list[dict[str, object]]", answer.to_json()["certainty"])
    assert held
    shown = " ".join(" ".join(answer_lines(answer)).split())
    for one in held:
        assert f"certainty: {one['how']}: {one['meaning']}" in shown
        # several kinds: each says which parts it holds for
        assert bool(one["parts"]) == (len(held) > 1)


def test_a_mixed_source_is_told_part_by_part() -> None:
    found = evidence(
        [
            "FAA-H-8083-31 (sight line); press brake and bars: common practice (read)",
            (
                "PETG: glass transition as quoted (read); the low end, 63, is "
                "from memory (memory)"
            ),
        ]
    )
    assert {one.how: one.parts for one in found} == {
        "read": ("FAA-H-8083-31 (sight line)", "PETG: glass transition as quoted"),
        "common practice": ("press brake and bars",),
        "memory": ("the low end, 63",),
    }


def test_sources_that_are_alike_need_no_parts() -> None:
    (one,) = evidence(["ISO 286-1 (read)", "ISO 286-2 (read)"])
    assert (one.how, one.parts) == ("read", ())


def test_the_manual_and_the_help_say_what_the_words_mean() -> None:
    parser = argparse.ArgumentParser()
    verb.arguments(parser)
    for words in (manual(), parser.description or ""):
        for how, meaning in HOW_MEANT.items():
            assert f"{how}: {meaning}" in words


CELLS = st.text("abc", min_size=1, max_size=30)


@given(
    st.integers(1, 9).flatmap(
        lambda count: st.lists(
            st.tuples(*[CELLS] * count), min_size=1, max_size=4, unique=True
        )
    ),
    st.integers(60, 120),
)
def test_a_table_keeps_every_cell_in_whatever_width(
    rows: list[tuple[str, ...]], width: int
) -> None:
    columns = tuple(Column(f"h{at}") for at in range(len(rows[0])))
    answer = Answer(
        (Result("found", 1.0),), tables=(Rows("table", columns, tuple(rows)),)
    )
    lines = list(answer_lines(answer, width))
    assert all(len(line) <= width for line in lines)
    words = re.findall(r"\w+", " ".join(lines))
    for row in rows:
        for cell in row:
            assert cell in words
    for column in columns:
        assert column.name in words


def test_results_stand_before_what_they_rest_on() -> None:
    typed = {"legs": ("60", "100", "60"), "radius": "3", "thickness": "2"}
    lines = list(answer_lines(work_out("setup-sheet", typed)))
    assert lines[2].split() == [
        "flat",
        "length",
        "211.74",
        "±0.44",
        "mm",
        "length",
        "of",
        "the",
        "blank",
    ]
    labels = [line.split(":")[0].strip() for line in lines if ": " in line]
    assert labels.index("assumed") < labels.index("formula") < labels.index("source")
