"""The shell's way to shop arithmetic: list the sums, explain one, work one out."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
import textwrap
from collections.abc import Iterable, Sequence

from logbook.errors import BadInput, NotFound
from logbook.shop.evidence import HOW_MEANT, evidence, evidence_json
from logbook.shop.given import Input
from logbook.shop.shown import (
    WIDTH,
    add_word,
    answer_lines,
    example_line,
    explain,
    manual,
)
from logbook.shop.sums import Sum, find_sum, sums_about, sums_by_topic, work_out


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what `logbook sums` takes; a sum's own inputs follow its name."""
    parser.description = (
        "Without a name: list the sums. With a name: show its inputs, formula and "
        "source. With inputs as --input value: work it out. Behind each source "
        "stands how sure it is. "
        + " ".join(f"{how}: {meaning}." for how, meaning in HOW_MEANT.items())
    )
    parser.add_argument("--json", action="store_true", help="answer for a program")
    parser.add_argument(
        "--manual", action="store_true", help="all of them, as Markdown"
    )
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
    if args.manual:
        print(manual())
        return 0
    if not args.name:
        _print_json(_list_json()) if args.json else _print_lines(_list_lines())
        return 0
    try:
        each = find_sum(args.name)
    except NotFound:
        about = [] if args.inputs else sums_about(args.name)
        if not about:
            raise
        _print_about(args.name, about, as_json=args.json)
        return 0
    typed = read_options(each, args.inputs)
    as_json = args.json or typed.pop("json", None) is not None
    units = typed.pop("units", [args.units])[-1]
    if "help" in typed or not typed:
        _print_json(explain_json(each)) if as_json else _print_lines(
            explain(each, _columns())
        )
        return 0
    answer = work_out(each, typed, units)
    _print_json(answer.to_json()) if as_json else _print_lines(
        answer_lines(answer, _columns())
    )
    return 0


def _print_about(word: str, about: Sequence[Sum], *, as_json: bool) -> None:
    """List the sums that speak of a word that is no sum's name."""
    if as_json:
        _print_json([{"name": each.name, "title": each.title} for each in about])
        return
    print(f"no sum is called “{word}”; these speak of it:")
    _print_lines(line for each in about for line in _listed(each))


def read_options(each: Sum, words: Sequence[str]) -> dict[str, list[str]]:
    """Read `--input value value --other=value`; a value may begin with a minus.

    The one input a sum needs may stand first without its name: `tap-drill M6`.

    Words after an input that takes one value are joined, so `2 mm` needs no
    quotes; after one that takes several they are several values, but a unit
    standing alone belongs to the figure before it.

    Raises:
        BadInput: a word stands before any input, or an input has no value.
    """
    typed: dict[str, list[str]] = {}
    name = ""
    needed = [one.name for one in each.inputs if one.required]
    if words and not words[0].startswith("-") and len(needed) == 1:
        name = needed[0]
        typed[name] = []
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
            add_word(typed[name], word, _input_named(each, name))
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


def _columns() -> int:
    """Give the terminal's width; a pipe is taken as the usual one."""
    return max(shutil.get_terminal_size((WIDTH, 24)).columns, 40)


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
            yield from _listed(each)
        yield ""
    yield "logbook sums NAME shows inputs, formula, source and an example;"
    yield "logbook sums WORD lists the sums that speak of a word, as beech."


def _listed(each: Sum) -> list[str]:
    return textwrap.wrap(
        f"{each.name:<24} {each.title}",
        _columns(),
        initial_indent="  ",
        subsequent_indent=" " * 27,
    )


def _list_json() -> list[dict[str, object]]:
    return [
        {"topic": topic, "name": each.name, "title": each.title}
        for topic, sums in sums_by_topic().items()
        for each in sums
    ]


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
        "certainty": evidence_json(evidence([f"{each.source} ({each.how})"])),
        "caution": each.caution,
        "example": dict(each.example),
    }
