"""The job sheet as plain text, for a printer of lines: six lines to the inch.

A box is three line spacings high, 12.7 mm. No block is cut by the end of a page.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from logbook.publish.sheet.boxes import WORKED, Box
from logbook.publish.sheet.operations import JobSheet, Operation, Waiting

WIDTH = 76
"""Columns at ten to the inch: 193 mm, within A4 and Letter."""
LINES = {"A4": 64, "Letter": 60}
"""Lines of a page at six to the inch, with 13 mm left free above and below."""
_BOX, _TICK = 20, 5


def write_text(sheet: JobSheet, paper: str) -> str:
    """Give the sheet as text, a form feed between its pages."""
    pages: list[list[str]] = [[]]
    room = LINES[paper] - 2
    for block in _blocks(sheet):
        if pages[-1] and len(pages[-1]) + len(block) > room:
            pages.append([])
        pages[-1] += block if pages[-1] or block[0] else block[1:]
    foot = f"sheet {sheet.mark} · {sheet.project} · {sheet.build}"
    return "\f".join(
        "\n".join([*page, *[""] * (room - len(page)), "", _foot(foot, n, len(pages))])
        + "\n"
        for n, page in enumerate(pages, 1)
    )


def _foot(words: str, page: int, pages: int) -> str:
    number = f"{page} / {pages}"
    kept = textwrap.shorten(words, WIDTH - len(number) - 2, placeholder="…")
    return kept.ljust(WIDTH - len(number)) + number


def _blocks(sheet: JobSheet) -> Iterator[list[str]]:
    """Give what must not be cut, each block with a blank line before it."""
    yield [
        *_wrapped(f"JOB SHEET {sheet.mark}  {sheet.project} · {sheet.build}"),
        f"printed {sheet.printed:%Y-%m-%d %H:%M}   {WORKED.label}: ______________",
        *_wrapped(
            f"typed in with: Ctrl-S on the bench, or logbook sheet --enter {sheet.mark}"
        ),
        *_wrapped(f"What is left blank is no entry. All of it: {sheet.standing}."),
    ]
    if sheet.by:
        yield ["", *_wrapped(f"Made {sheet.by}.")]
    for one in sheet.held:
        yield ["", *_framed(f"WAIT: {one.number}. {one.title}")]
    if sheet.finished:
        yield ["", *_wrapped(f"Done already: {' · '.join(sheet.finished)}.")]
    for one in sheet.operations:
        yield from _operation(one)


def _operation(one: Operation) -> Iterator[list[str]]:
    """Give an operation; its name and its cautions stay with what follows them."""
    blocks = [*_boxes_of(one)]
    head = [*_head(one), *(blocks[0] if blocks else [])]
    yield head
    yield from blocks[1:]


def _head(one: Operation) -> list[str]:
    number = f"{one.number}. " if one.number else ""
    made = ["", "-" * WIDTH, *_wrapped(f"{number}{one.title}")]
    for caution in one.cautions:
        says = f"{caution.signal}: " if caution.signal else "MIND: "
        made += [*_wrapped(f"{says}{caution.line} {caution.defers}".strip(), "! "), ""]
    for word, said in one.facts:
        made += _wrapped(f"{word}: {said}", "   ")
    return [*made, *(line for said in one.went_on for line in _wrapped(said, "   "))]


def _boxes_of(one: Operation) -> Iterator[list[str]]:
    for wait in one.waits:
        yield from _wait(wait)
    owner = ""
    for box in one.readings:
        title = [] if box.owner == owner else [f"   {box.owner}"]
        owner = box.owner
        drawn = f"{box.label}\n{box.drawn}\n{box.limits}"
        yield ["", *title, *_boxed(box, drawn, _BOX)]
    if one.trapped or one.checks:
        yield from _closing(one)
    if one.done:
        yield ["", *_boxed(one.done, one.done.label, _TICK)]
    if one.time:
        yield ["", *_boxed(one.time, one.time.label, _BOX)]
    if one.note:
        yield ["", *_boxed(one.note, one.note.label, WIDTH - 24)]


def _wait(wait: Waiting) -> Iterator[list[str]]:
    said = f"{wait.grade.upper()}: {wait.words}"
    yield ["", *(_framed(said) if wait.holds else _wrapped(said, "   "))]
    if wait.over:
        yield ["", *_boxed(wait.over, wait.over.label, _TICK)]
    yield ["", *_boxed(wait.box, wait.box.label, WIDTH - 26)]


def _framed(words: str) -> list[str]:
    """Give words between two heavy rules: what is to be seen before all else."""
    rule = "=" * WIDTH
    return [rule, *_wrapped(words, "   "), rule]


def _closing(one: Operation) -> Iterator[list[str]]:
    first = ["", "   BEFORE YOU CLOSE"]
    if one.trapped:
        first += _wrapped(one.trapped, "   ")
    for box in one.checks:
        yield [*first, *([] if first else [""]), *_boxed(box, box.label, _TICK)]
        first = []
    if first:
        yield first


def _boxed(box: Box, words: str, inside: int) -> list[str]:
    """Draw a box with its number before it and its words behind it."""
    room = WIDTH - inside - 10
    said = [
        part
        for line in words.split("\n")
        for part in textwrap.wrap(line, room) or [""]
    ]  # fmt: skip
    rule, blank = "+" + "-" * inside + "+", "|" + " " * inside + "|"
    drawn = [rule, blank, blank, rule]
    before = [" " * 5, f"{box.number:>4} ", " " * 5, " " * 5]
    beside = ["", *said] if len(said) < 4 else said
    height = max(len(drawn), len(beside))
    made = []
    for at in range(height):
        left = before[at] + drawn[at] if at < len(drawn) else " " * (inside + 7)
        right = beside[at] if at < len(beside) else ""
        made.append(f"{left} {right}".rstrip())
    return made


def _wrapped(words: str, indent: str = "") -> list[str]:
    return textwrap.wrap(
        words, WIDTH, initial_indent=indent, subsequent_indent=indent
    ) or [""]
