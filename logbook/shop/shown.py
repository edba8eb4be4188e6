"""Sums in words: an answer as lines of text, a sum explained, the whole manual.

The shell, the calculator on screen and the manual show the same lines.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from logbook.shop.answers import Answer, Rows, figure
from logbook.shop.evidence import HOW_MEANT, evidence
from logbook.shop.given import Input, Kind, in_words
from logbook.shop.sums import SYSTEMS, Sum, sums_by_topic

WIDTH = 80
"""Columns of text where nothing says how wide the terminal is."""
_WIDEST_TEXT = 100
"""Prose is not set wider than this, however wide the terminal."""


def explain(each: Sum, width: int = WIDTH) -> Iterable[str]:
    """Give the lines that explain a sum, no wider than `width` columns."""
    wide = min(width, _WIDEST_TEXT)
    yield from _wrapped(f"{each.name}: {each.title}", 0, wide)
    yield ""
    for one in each.inputs:
        yield f"  --{option(one)} ({_need(one)})"
        said = one.meaning
        if one.accepted != one.meaning:
            said = f"{said}; accepted: {one.accepted}"
        yield from _wrapped(said, 6, wide)
    yield ""
    source = f"{each.source} ({each.how})"
    yield from _labelled("formula", each.formula, wide)
    yield from _labelled("source", source, wide)
    yield from _certainty([source], wide)
    if each.caution:
        yield from _labelled("caution", each.caution, wide)
    yield from _labelled("example", example_line(each), wide)
    yield from _labelled(
        "also", f"--json, --units {' or '.join(SYSTEMS)}; 2.00 ±0.02 mm gives ±", wide
    )


def option(one: Input) -> str:
    """Give the name of an input as it is typed in the shell, with dashes."""
    return one.name.replace("_", "-")


def _certainty(sources: Iterable[str], wide: int) -> Iterable[str]:
    for one in evidence(sources):
        yield from _labelled("certainty", str(one), wide)


def _need(one: Input) -> str:
    if one.default:
        return f"if not given: {one.default}"
    return "may be left out" if one.optional else "needed"


def example_line(each: Sum) -> str:
    """Give the worked example as it would be typed."""
    words = [f"logbook sums {each.name}"]
    for name, value in each.example.items():
        values = (value,) if isinstance(value, str) else value
        words.append(
            f"--{name.replace('_', '-')} " + " ".join(_quoted(one) for one in values)
        )
    return " ".join(words)


def _quoted(text: str) -> str:
    plain = text and all(sign.isalnum() or sign in "-.,/°_+" for sign in text)
    return text if plain else f"'{text}'"


def answer_lines(answer: Answer, width: int = WIDTH) -> Iterable[str]:
    """Give the lines that show an answer: results first, then why and how sure.

    No line is wider than `width` columns, but for a word that is.
    """
    wide = min(width, _WIDEST_TEXT)
    yield answer.title
    yield ""
    for one in answer.alarms:
        yield from _labelled("warning", one, wide)
    names = max((len(each.name) for each in answer.results), default=0)
    for each in answer.results:
        name = in_words(each.name)
        line = f"{name:<{names}}  {each.shown}"
        line = f"{line}   {each.meaning}" if each.meaning else line
        yield from _wrapped(line, 2, wide, hang=names + 2)
    for held in answer.tables:
        yield ""
        yield from table_lines(held, width)
    yield ""
    yield from _why(answer, wide)
    if answer.note:
        yield ""
        yield answer.note


def _why(answer: Answer, wide: int) -> Iterable[str]:
    """Give what an answer warns of, rests on and comes from."""
    for one in answer.warnings:
        if one not in answer.alarms:
            yield from _labelled("warning", one, wide)
    for one in answer.assumptions:
        yield from _labelled("assumed", one, wide)
    yield from _labelled("formula", answer.formula, wide)
    for one in answer.sources:
        yield from _labelled("source", one, wide)
    yield from _certainty(answer.sources, wide)
    for one in answer.cautions:
        yield from _labelled("caution", one, wide)


def table_lines(held: Rows, width: int) -> Iterable[str]:
    """Give the lines of a table, in blocks where it is wider than `width` columns."""
    heads = [f"{col.name} {col.unit}".strip() for col in held.columns]
    lines = [
        [
            figure(cell, col.places) if isinstance(cell, float) else _plain_cell(cell)
            for cell, col in zip(row, held.columns, strict=True)
        ]
        for row in held.rows
    ]
    widths = [max(map(len, column)) for column in zip(heads, *lines, strict=True)]
    blocks = _blocks(widths, _keys(lines), width - _INDENT)
    yield f"  {held.title}"
    if not blocks:
        for line in lines:
            yield ""
            for head, cell in zip(heads, line, strict=True):
                yield from _labelled(head, cell, min(width, _WIDEST_TEXT))
        return
    for number, block in enumerate(blocks):
        if number:
            yield ""
        for line in [heads, *lines]:
            cells = (f"{line[at]:<{widths[at]}}" for at in block)
            yield (" " * _INDENT + "  ".join(cells)).rstrip()


_INDENT = 4


def _keys(lines: list[list[str]]) -> int:
    """Give how many leading columns it takes to tell the rows apart."""
    count = len(lines[0]) if lines else 1
    for keys in range(1, count):
        if len({tuple(line[:keys]) for line in lines}) == len(lines):
            return keys
    return count


def _blocks(widths: list[int], keys: int, room: int) -> list[list[int]]:
    """Divide the columns into tables that fit, each beginning with the keys.

    Nothing where a column does not fit beside them.
    """
    every = list(range(len(widths)))
    if _across(widths, every) <= room:
        return [every]
    blocks = [every[:keys]]
    for at in every[keys:]:
        if _across(widths, [*blocks[-1], at]) > room:
            blocks.append(every[:keys])
        blocks[-1] = [*blocks[-1], at]
    fits = all(_across(widths, block) <= room for block in blocks)
    return [block for block in blocks if len(block) > keys] if fits else []


def _across(widths: list[int], block: list[int]) -> int:
    return sum(widths[at] for at in block) + 2 * (len(block) - 1)


def _plain_cell(cell: object) -> str:
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    return "" if cell is None else str(cell)


def _labelled(label: str, text: str, wide: int) -> Iterable[str]:
    return _wrapped(f"{label}: {text}", 2, wide, hang=4)


def _wrapped(text: str, indent: int, wide: int, hang: int = 0) -> Iterable[str]:
    return textwrap.wrap(
        text,
        wide,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent + min(hang, wide // 3)),
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
    lines = ["# Shop arithmetic", "", "Behind each source stands how it was read:", ""]
    lines += [f"- {how}: {meaning}" for how, meaning in HOW_MEANT.items()] + [""]
    for topic, sums in sums_by_topic().items():
        lines += [f"## {topic.capitalize()}", ""]
        for each in sums:
            lines += [f"### {each.name}", "", f"{each.title}.", "", "```"]
            lines += [*explain(each), "```", ""]
    return "\n".join(lines)
