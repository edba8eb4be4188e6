"""Sums in words: an answer as lines of text, a sum explained, the whole manual.

The shell, the calculator on screen and the manual show the same lines.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from logbook.shop.answers import Answer, Rows, figure
from logbook.shop.given import Input, Kind
from logbook.shop.sums import SYSTEMS, Sum, sums_by_topic

_WIDTH = 84
_WIDEST = 160
"""A table wider than this is shown row by row."""


def explain(each: Sum) -> Iterable[str]:
    """Give the lines that explain a sum."""
    yield f"{each.name}: {each.title}"
    yield ""
    for one in each.inputs:
        yield f"  --{one.name} ({_need(one)})"
        said = one.meaning
        if one.accepted != one.meaning:
            said = f"{said}; accepted: {one.accepted}"
        yield from _wrapped(said, 6)
    yield ""
    yield from _labelled("formula", each.formula)
    yield from _labelled("source", f"{each.source} ({each.how})")
    if each.caution:
        yield from _labelled("caution", each.caution)
    yield from _labelled("example", example_line(each))
    yield from _labelled(
        "also", f"--json, --units {' or '.join(SYSTEMS)}; 2.00 ±0.02 mm gives ±"
    )


def _need(one: Input) -> str:
    if one.default:
        return f"if not given: {one.default}"
    return "may be left out" if one.optional else "needed"


def example_line(each: Sum) -> str:
    """Give the worked example as it would be typed."""
    words = [f"logbook sums {each.name}"]
    for name, value in each.example.items():
        values = (value,) if isinstance(value, str) else value
        words.append(f"--{name} " + " ".join(_quoted(one) for one in values))
    return " ".join(words)


def _quoted(text: str) -> str:
    plain = text and all(sign.isalnum() or sign in "-.,/°_+" for sign in text)
    return text if plain else f"'{text}'"


def answer_lines(answer: Answer) -> Iterable[str]:
    """Give the lines that show an answer: results first, then why and how sure."""
    yield answer.title
    yield ""
    for one in answer.alarms:
        yield from _labelled("warning", one)
    width = max((len(each.name) for each in answer.results), default=0)
    for each in answer.results:
        name = each.name.replace("_", " ")
        line = f"  {name:<{width}}  {each.shown}"
        yield f"{line}   {each.meaning}" if each.meaning else line
    for held in answer.tables:
        yield ""
        yield from _table_lines(held)
    yield ""
    for one in answer.warnings:
        if one not in answer.alarms:
            yield from _labelled("warning", one)
    for one in answer.assumptions:
        yield from _labelled("assumed", one)
    yield from _labelled("formula", answer.formula)
    for one in answer.sources:
        yield from _labelled("source", one)
    for one in answer.cautions:
        yield from _labelled("caution", one)
    if answer.note:
        yield ""
        yield answer.note


def _table_lines(held: Rows) -> Iterable[str]:
    heads = [f"{col.name} {col.unit}".strip() for col in held.columns]
    lines = [
        [
            figure(cell, col.places) if isinstance(cell, float) else _plain_cell(cell)
            for cell, col in zip(row, held.columns, strict=True)
        ]
        for row in held.rows
    ]
    widths = [max(map(len, column)) for column in zip(heads, *lines, strict=True)]
    yield f"  {held.title}"
    if sum(widths) + 2 * len(widths) > _WIDEST:
        for line in lines:
            yield ""
            for head, cell in zip(heads, line, strict=True):
                yield from _labelled(head, cell)
        return
    for line in [heads, *lines]:
        cells = (f"{cell:<{width}}" for cell, width in zip(line, widths, strict=True))
        yield ("    " + "  ".join(cells)).rstrip()


def _plain_cell(cell: object) -> str:
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    return "" if cell is None else str(cell)


def _labelled(label: str, text: str) -> Iterable[str]:
    return _wrapped(f"{label}: {text}", 2, hang=4)


def _wrapped(text: str, indent: int, hang: int = 0) -> Iterable[str]:
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + hang),
        break_long_words=False,
        break_on_hyphens=False,
    )


def add_word(values: list[str], word: str, one: Input | None) -> None:
    """Join a word to the value before it where both are one value."""
    if values and (one is None or not one.many or _belongs(values[-1], word, one)):
        values[-1] += f" {word}"
    else:
        values.append(word)


def _belongs(before: str, word: str, one: Input) -> bool:
    """Tell whether a unit, or a spread, belongs to the figure before it."""
    if one.kind in {Kind.TEXT, Kind.CHOICE, Kind.YES}:
        return False
    return before.endswith("±") or not (word[0].isdigit() or word[0] in "-+.,€$£")


def split_values(text: str, one: Input) -> list[str]:
    """Split a line of several values at `;`, else at blanks, units staying on.

    Values divided by a comma and a blank are left to the reader of the input.
    """
    if ", " in text and ";" not in text:
        return [text.strip()]
    if ";" in text:
        return [part.strip() for part in text.split(";") if part.strip()]
    values: list[str] = []
    for word in text.split():
        add_word(values, word, one)
    return values


def manual() -> str:
    """Write the manual of all sums as Markdown, from their declarations."""
    lines = ["# Shop arithmetic", ""]
    for topic, sums in sums_by_topic().items():
        lines += [f"## {topic.capitalize()}", ""]
        for each in sums:
            lines += [f"### {each.name}", "", f"{each.title}.", "", "```"]
            lines += [*explain(each), "```", ""]
    return "\n".join(lines)
