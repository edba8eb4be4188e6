"""The block of facts in a record: writing it as TOML 1.0, and finding its lines.

Reading is left to the compiled TOML reader. The writer lays a record out as a
person would: one fact a line, small tables inline, lists of tables at the end.
The line finder answers on which line a well-formed but wrong value stands,
which no reader tells.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, time
from typing import Any

WIDEST_LINE = 92

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {
    "\b": r"\b", "\t": r"\t", "\n": r"\n", "\f": r"\f", "\r": r"\r",
    '"': r"\"", "\\": r"\\",
}  # fmt: skip
# Controls, line separators and the signs that change the reading direction are
# escaped, so that what a person sees in the file is what it says.
_TO_ESCAPE = re.compile(
    '[\x00-\x1f"\\\\\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]'
)


def write_block(facts: Mapping[str, Any]) -> str:
    """Write facts as TOML text; nothing comes out for an empty mapping."""
    lines = [
        f"{_key(key)} = {_value(value, len(key) + 3)}"
        for key, value in facts.items()
        if not _is_tables(value)
    ]
    for key, value in facts.items():
        if _is_tables(value):
            for table in value:
                lines += ["", f"[[{_key(key)}]]"]
                lines += [
                    f"{_key(k)} = {_value(v, len(k) + 3)}" for k, v in table.items()
                ]
    return "\n".join(lines) + "\n" if lines else ""


def _is_tables(value: object) -> bool:
    return (
        isinstance(value, Sequence)
        and not isinstance(value, str)
        and bool(value)
        and all(isinstance(item, Mapping) for item in value)
    )


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _string(key)


def _string(text: str) -> str:
    def escape(match: re.Match[str]) -> str:
        sign = match[0]
        return _ESCAPES.get(sign) or f"\\u{ord(sign):04X}"

    return '"' + _TO_ESCAPE.sub(escape, text) + '"'


def _value(value: object, taken: int = 0) -> str:
    if isinstance(value, str):
        return _string(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return repr(value)  # inf and nan are TOML words too
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, Sequence):
        return _array([_value(item) for item in value], taken)
    raise TypeError(f"{type(value).__name__} has no TOML form")


def _array(items: list[str], taken: int) -> str:
    flat = f"[{', '.join(items)}]"
    if len(flat) + taken <= WIDEST_LINE or len(items) < 2:
        return flat
    return "[\n" + "".join(f"  {item},\n" for item in items) + "]"


def line_of(block: str, path: Sequence[str | int]) -> int:
    """Find the line (from 1) of the fact at `path` in a well-formed block.

    `path` is as in ("reading", 2, "value"). Inside an inline table or an array
    the line of its nearest key is given; 1 when nothing is found.
    """
    best, depth = 1, 0
    for line, keys in _keys_by_line(block):
        shared = 0
        for have, want in zip(keys, path, strict=False):
            if have != want:
                break
            shared += 1
        if shared == len(keys) and shared > depth:
            best, depth = line, shared
    return best


def _keys_by_line(block: str) -> Iterator[tuple[int, tuple[str | int, ...]]]:
    """Yield each header and key with its line and whole path, tables counted."""
    table: tuple[str | int, ...] = ()
    counts: dict[tuple[str | int, ...], int] = {}
    for line, logical in logical_lines(block):
        text = logical.strip()
        header = re.match(r"(\[\[?)\s*(.*?)\s*\]\]?\s*(?:#.*)?$", text)
        if header and _KEY.match(header[2]):
            table = _placed(_split_key(header[2]), counts, listed=header[1] == "[[")
            yield line, table
        elif match := _KEY.match(text):
            yield line, (*table, *_split_key(match[0].rstrip("= \t")))


def _placed(
    names: tuple[str, ...], counts: dict[tuple[str | int, ...], int], *, listed: bool
) -> tuple[str | int, ...]:
    """Give the whole path of a header, each list of tables with its number."""
    table: tuple[str | int, ...] = ()
    for at, name in enumerate(names, 1):
        table = (*table, name)
        if listed and at == len(names):
            counts[table] = counts.get(table, -1) + 1
        if table in counts:
            table = (*table, counts[table])
    return table


_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\]|\\.)*"|'[^']*')"""
_KEY = re.compile(rf"{_PART}(?:\s*\.\s*{_PART})*\s*(?:=|$)")


def _split_key(text: str) -> tuple[str, ...]:
    parts = re.findall(_PART, text)
    return tuple(part[1:-1] if part[0] in "\"'" else part for part in parts)


def logical_lines(block: str) -> Iterator[tuple[int, str]]:
    """Yield each statement with the line it begins on.

    A statement that runs over several lines (arrays, multi-line strings) is one.
    """
    start, depth, quote, begun = 1, 0, "", ""
    for number, line in enumerate(block.split("\n"), 1):
        if not begun:
            start = number
        depth, quote = _balance(line, depth, quote)
        begun += line + "\n"
        if depth <= 0 and not quote:
            if begun.strip() and not begun.lstrip().startswith("#"):
                yield start, begun
            begun, depth = "", 0


_TOKENS = re.compile(r"\"\"\"|'''|\"(?:[^\"\\]|\\.)*\"|'[^']*'|#.*|[\[\]{}]", re.DOTALL)


def _balance(line: str, depth: int, quote: str) -> tuple[int, str]:
    """Follow brackets and multi-line strings over one line."""
    at = 0
    while at < len(line):
        if quote:
            end = line.find(quote, at)
            while end > 0 and quote == '"""' and _escaped(line, end):
                end = line.find(quote, end + 1)
            if end < 0:
                return depth, quote
            at, quote = end + 3, ""
            continue
        token = _TOKENS.search(line, at)
        if not token:
            break
        at = token.end()
        if token[0] in {'"""', "'''"}:
            quote = token[0]
        elif token[0] in "[{":
            depth += 1
        elif token[0] in "]}":
            depth -= 1
    return depth, quote


def _escaped(line: str, at: int) -> bool:
    before = line[:at]
    return (len(before) - len(before.rstrip("\\"))) % 2 == 1
