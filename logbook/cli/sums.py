"""The shell's way to shop arithmetic: list the sums, explain one, work one out."""

from __future__ import annotations

import argparse
import json
import sys
import textwrap
from collections.abc import Iterable, Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Rows, figure
from logbook.shop.given import Input, Kind
from logbook.shop.sums import SYSTEMS, Sum, find_sum, sums_by_topic, work_out

_WIDTH = 84
_WIDEST = 160
"""A table wider than this is shown row by row."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what `logbook sums` takes; a sum's own inputs follow its name."""
    parser.description = (
        "Without a name: list the sums. With a name: show its inputs, formula and "
        "source. With inputs as --input value: work it out."
    )
    parser.add_argument("--json", action="store_true", help="answer for a program")
    parser.add_argument("--units", default="", help="mm or inch, for the results")
    parser.add_argument("name", nargs="?", default="", help="a sum")
    parser.add_argument(
        "inputs",
        nargs=argparse.REMAINDER,
        help="inputs of the sum: --thickness 2 mm --bend-angles 90 45",
    )


def run(args: argparse.Namespace) -> int:
    """List, explain or work out; give the exit code.

    Raises:
        NotFound: there is no such sum.
        BadInput: an input is unknown, missing or not accepted.
    """
    if not args.name:
        _print_json(_list_json()) if args.json else _print_lines(_list_lines())
        return 0
    each = find_sum(args.name)
    typed = read_options(each, args.inputs)
    as_json = args.json or typed.pop("json", None) is not None
    units = typed.pop("units", [args.units])[-1]
    if "help" in typed or not typed:
        _print_json(explain_json(each)) if as_json else _print_lines(explain(each))
        return 0
    answer = work_out(each, typed, units)
    _print_json(answer.to_json()) if as_json else _print_lines(answer_lines(answer))
    return 0


def read_options(each: Sum, words: Sequence[str]) -> dict[str, list[str]]:
    """Read `--input value value --other=value`; a value may begin with a minus.

    Words after an input that takes one value are joined, so `2 mm` needs no
    quotes; after one that takes several they are several values, but a unit
    standing alone belongs to the figure before it.

    Raises:
        BadInput: a word stands before any input, or an input has no value.
    """
    typed: dict[str, list[str]] = {}
    name = ""
    for word in words:
        if word.startswith("--") and len(word) > 2 and not word[2].isdigit():
            name, equals, value = word[2:].partition("=")
            if name in typed and not _takes_several(each, name):
                raise BadInput(f"{name} is given twice; accepted: once")
            held = typed.setdefault(name, [])
            if equals:
                held.append(value)
        elif word == "-h":
            typed["help"] = []
        elif not name:
            raise BadInput(
                f"“{word}” stands before any input; accepted: --input value, as in "
                f"{example_line(each)}"
            )
        else:
            _add_word(typed[name], word, _input_named(each, name))
    for name, values in typed.items():
        if not values and name not in {"json", "help"}:
            raise BadInput(f"{name} has no value; accepted: --{name} value")
    return typed


def _input_named(each: Sum, name: str) -> Input | None:
    wanted = name.replace("_", "-").lower()
    for one in each.inputs:
        names = [word.replace("_", "-").lower() for word in (one.name, *one.also)]
        if wanted in names:
            return one
    return None


def _takes_several(each: Sum, name: str) -> bool:
    one = _input_named(each, name)
    return bool(one and one.many)


def _add_word(values: list[str], word: str, one: Input | None) -> None:
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


def _print_json(held: object) -> None:
    json.dump(held, sys.stdout, ensure_ascii=False, indent=2, allow_nan=False)
    print()


def _print_lines(lines: Iterable[str]) -> None:
    for line in lines:
        print(line)


def _list_lines() -> Iterable[str]:
    for topic, sums in sums_by_topic().items():
        yield topic
        for each in sums:
            yield f"  {each.name:<24} {each.title}"
        yield ""
    yield "logbook sums NAME shows inputs, formula, source and an example."


def _list_json() -> list[dict[str, object]]:
    return [
        {"topic": topic, "name": each.name, "title": each.title}
        for topic, sums in sums_by_topic().items()
        for each in sums
    ]


def explain(each: Sum) -> Iterable[str]:
    """Give the lines that explain a sum."""
    yield f"{each.name}: {each.title}"
    yield ""
    for one in each.inputs:
        yield f"  --{one.name} ({_need(one)})"
        yield from _wrapped(f"{one.meaning}; accepted: {one.accepted}", 6)
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


def explain_json(each: Sum) -> dict[str, object]:
    """Give the same for a program."""
    return {
        "name": each.name,
        "title": each.title,
        "inputs": [
            {
                "name": one.name,
                "meaning": one.meaning,
                "unit": one.unit,
                "kind": one.kind.value,
                "accepted": one.accepted,
                "default": one.default,
                "required": one.required,
                "several": one.many,
                "choices": list(one.choices),
                "also": list(one.also),
            }
            for one in each.inputs
        ],
        "formula": each.formula,
        "source": each.source,
        "how": each.how,
        "caution": each.caution,
        "example": dict(each.example),
    }


def answer_lines(answer: Answer) -> Iterable[str]:
    """Give the lines that show an answer: results first, then why and how sure."""
    yield answer.title
    yield ""
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
