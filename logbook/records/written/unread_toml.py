"""What is said of a block that no TOML reader takes: which line, and what it may be."""

from __future__ import annotations

import re

from logbook.errors import Problem
from logbook.records.written.block import logical_lines
from logbook.records.written.codec import shown

_KEY = re.compile(r"\s*([\w-]+)\s*=")


def toml_problem(error: Exception, block: str, block_line: int, file: str) -> Problem:
    """Say what the reader met in a block, by the line of the file it stands on.

    `block_line` is the line of the file that the block begins on.
    """
    said = str(error)
    if where := re.search(r"\(at line (\d+)|line (\d+)", said):
        line = int(where[1] or where[2])
        said = re.sub(r"\s*\(at .*\)$", "", said)
    else:
        line = _line_too_much(block)
        said = "a number too long, or lists nested too deep"
    lines = block.split("\n")
    found = shown(lines[line - 1]) if line <= len(lines) else "the end of the block"
    at = block_line - 1 + line
    if twice := _line_of_same_key(lines, line):
        key = lines[line - 1].partition("=")[0].strip()
        there = block_line - 1 + twice
        accepted = f"one line “{key}”: line {there} has it too, keep one of the two"
        return Problem(file, at, "", found, accepted)
    return Problem(file, at, "", f"{found} ({said})", "TOML 1.0")


def _line_too_much(block: str) -> int:
    """Give the line of the statement that is right but too much for any reader."""
    import tomli

    for line, statement in logical_lines(block):
        try:
            tomli.loads(statement)
        except tomli.TOMLDecodeError:
            continue
        except (ValueError, RecursionError):
            return line
    return 1


def _line_of_same_key(lines: list[str], line: int) -> int:
    """Give the earlier line that sets what this one sets too; 0 where none does.

    Two clones that each add a fact at another place are merged so, and cleanly.
    """
    here = _KEY.match(lines[line - 1]) if line <= len(lines) else None
    for before in range(line - 1, 0, -1) if here else ():
        text = lines[before - 1]
        if text.lstrip().startswith("["):
            break
        other = _KEY.match(text)
        if here and other and other[1] == here[1]:
            return before
    return 0
