"""The rows of a setup sheet: step by step, and what a wrong line would cost."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.shop.answers import Column, Rows
from logbook.shop.bending.bend_lines import MARKS, line_in_bend, mark_in_bend
from logbook.shop.bending.bends import Bend
from logbook.shop.bending.setup_typed import each_word, order_of
from logbook.shop.given import Given


def step_rows(
    given: Given,
    bends: Sequence[Bend],
    lines: Sequence[float],
    turns: Sequence[float],
    sides: Sequence[str],
) -> Rows:
    """Give the steps of folding, a row a bend, in their order."""
    ups = each_word(given, "direction", len(bends), "up")
    rows = []
    for step, number in enumerate(order_of(given, len(bends)), 1):
        at = number - 1
        rows.append(
            (
                step,
                number,
                lines[at],
                f"{sides[at]} side",
                "marked face" if ups[at] == "up" else "back face",
                ups[at],
                bends[at].angle,
                turns[at],
                180 - turns[at],
                given.word("grain"),
            )
        )
    columns = (
        Column("step"),
        Column("bend"),
        Column("line", "mm", 2),
        Column("clamp"),
        Column("face up"),
        Column("fold marked face"),
        Column("bend angle", "°", 1),
        Column("set bend angle", "°", 1),
        Column("set included angle", "°", 1),
        Column("grain"),
    )
    return Rows("setup sheet", columns, tuple(rows))


def cost_rows(given: Given, bends: Sequence[Bend], sides: Sequence[str]) -> Rows:
    """Give what each flange gains or loses when the line is another one."""
    rows = []
    for number, each in enumerate(bends):
        edge = given.maybe("bar_edge")
        right = line_in_bend(
            each,
            given.word("tool"),
            sides[number],
            each.radius if edge is None else edge,
        )
        for mark in MARKS:
            shift = mark_in_bend(each, mark, sides[number]) - right
            if abs(shift) > 1e-9:
                rows.append((number + 1, mark, shift, -shift))
    columns = (
        Column("bend"),
        Column("if the line were the"),
        Column("leg towards datum", "mm", 2),
        Column("leg away", "mm", 2),
    )
    return Rows("what a line on the wrong reference costs", columns, tuple(rows))
