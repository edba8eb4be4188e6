"""A record as text: a title, one fenced block of facts, prose; and back.

CommonMark decides what the title and the first fence are. The writer keeps the
fence longer than any backtick run in the block, and escapes what in a title or
a line of prose would be read as something else (markup, a conflict marker), so
that reading gives back exactly what was typed.
"""

from __future__ import annotations

import hashlib
import re
import unicodedata
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, TypeVar

from logbook.errors import Problem
from logbook.records.kinds.record import Record
from logbook.records.written.block import line_of, write_block
from logbook.records.written.codec import Unreadable, read_facts, shown, write_facts
from logbook.records.written.unread_toml import toml_problem

R = TypeVar("R", bound=Record)

FORMAT = 1
LONGEST_TITLE = 200
_TAIL = 40
"""Signs at the end of a title by which the words are known that it was cut from."""

_HEADING = re.compile(r" {0,3}#(?:[ \t]+(.*?))?(?:[ \t]+#+)?[ \t]*")
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})[ \t]*([^\n`]*?)[ \t]*")
_CONFLICT = re.compile(r"(?m)^(?:<{7}|>{7})(?: |$)")
_MARKER_LIKE = re.compile(r"(?m)^(\\*)(?=(?:<{7}|>{7}|={7}|\|{7})(?: |$))")
_MARKER_ESCAPED = re.compile(r"(?m)^\\(?=\\*(?:<{7}|>{7}|={7}|\|{7})(?: |$))")
_TITLE_SIGNS = re.compile(r"[\\`*<\[\]]|&(?=[#A-Za-z])|(?<![^\W_])_|_(?![^\W_])|#+$")
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
_CONTROLS = {code: 0x2400 + code for code in range(32) if chr(code) not in "\n\t"} | {
    0x7F: 0x2421
}


@dataclass(frozen=True, slots=True)
class Parsed:
    """A file read: its record, or None where it cannot be one, and its problems."""

    record: Record | None
    problems: tuple[Problem, ...] = ()
    format: int = FORMAT


def digest(data: bytes) -> str:
    """Give the SHA-256 of a file's bytes, in hex."""
    return hashlib.sha256(data).hexdigest()


# -- what prose and titles are ---------------------------------------------------


def clean_prose(text: str) -> str:
    """Give prose as it is kept: LF line ends, no controls, no blank margins.

    Control characters become their visible pictures (U+2400…), so that no file
    sends an escape code to a terminal and nothing typed disappears.
    """
    if not text.replace("\n", "").isprintable():
        text = text.replace("\r\n", "\n").replace("\r", "\n").translate(_CONTROLS)
        text = text.encode("utf-8", "replace").decode("utf-8")
    return text.strip("\n").rstrip()


def clean_title(text: str) -> str:
    """Give a title as it is kept: one line, no controls, at most 200 characters."""
    text = clean_prose(_words(text))
    text = "".join(c for c in text if unicodedata.category(c) not in {"Zl", "Zp"})
    if len(text) > LONGEST_TITLE:
        text = text[: LONGEST_TITLE - 1].rstrip() + "…"
    return text or "untitled"


def cleaned(record: R) -> R:
    """Give the record with title and prose as they are kept.

    The prose holds the whole of a title that is too long for one line.
    """
    title, prose = clean_title(record.title), clean_prose(record.prose)
    held = _words(record.title) in _words(prose) or _paragraph(record)
    if is_cut(record.title) and not held:
        prose = clean_prose(f"{record.title.strip()}\n\n{prose}")
    return replace(record, title=title, prose=prose)


def is_cut(title: str) -> bool:
    """Tell whether a title is too long to be kept whole as one."""
    return len(_words(title)) > LONGEST_TITLE


def whole_title(record: Record) -> str:
    """Give the title of a record, whole also where only its prose holds all of it."""
    return _paragraph(record) or record.title


def prose_beside(record: Record) -> str:
    """Give the prose of a record without what only says its title whole."""
    if not _paragraph(record):
        return record.prose
    return record.prose.partition("\n\n")[2].strip("\n")


TYPED = "Typed: "
"""What leads the paragraph that keeps a line as it was typed at the bench."""


def without_typed(prose: str) -> str:
    """Give prose without how a line was typed, which is of the bench and no page."""
    rows = prose.split("\n\n")
    return "\n\n".join(row for row in rows if not row.startswith(TYPED))


def _paragraph(record: Record) -> str:
    """Give the first words of the prose, where the title is cut from them.

    A value at its beginning may have been put right in the title since.
    """
    if not record.title.endswith("…"):
        return ""
    first = _words(record.prose.partition("\n\n")[0])
    return first if _words(record.title)[-_TAIL:-1] in first else ""


def _words(text: str) -> str:
    return " ".join(clean_prose(text).split())


# -- record to text --------------------------------------------------------------


def write_record(record: Record) -> str:
    """Write a record as the text of its file, LF line ends."""
    record = cleaned(record)
    block = write_block(write_facts(record))
    runs = [len(run) for run in re.findall(r"`+", block)]
    fence = "`" * max(3, max(runs, default=0) + 1)
    title = _TITLE_SIGNS.sub(_escape_title, record.title)
    text = f"# {title}\n\n{fence}toml\n{block}{fence}\n"
    if record.prose:
        text += f"\n{_MARKER_LIKE.sub(_one_more, record.prose)}\n"
    return text


def _escape_title(match: re.Match[str]) -> str:
    return "".join("\\" + sign for sign in match[0])


def _one_more(match: re.Match[str]) -> str:
    return "\\" + match[1]


# -- text to record --------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Cut:
    """A record's text taken apart; `block_line` is the line the block begins on."""

    title: str
    block: str
    prose: str
    block_line: int


def decode(data: bytes) -> str:
    """Decode a file: UTF-8, with or without BOM, any line ends.

    Raises:
        UnicodeDecodeError: the bytes are not UTF-8.
    """
    text = data.decode("utf-8-sig")
    return text.replace("\r\n", "\n").replace("\r", "\n")


def cut(text: str, file: str) -> Cut | Problem:
    """Take a record's text apart; a problem says which piece is missing."""
    marked = "<<<<<<<" in text or ">>>>>>>" in text
    if marked and (conflict := _CONFLICT.search(text)):
        line = text.count("\n", 0, conflict.start()) + 1
        accepted = "logbook settle, or one side of the two without the marker lines"
        return Problem(file, line, "", "a merge conflict", accepted)
    lines = text.split("\n")
    at = next((n for n, line in enumerate(lines) if line.strip()), 0)
    heading = _HEADING.fullmatch(lines[at])
    if not heading:
        found = shown(lines[at]) if text.strip() else "an empty file"
        return Problem(file, at + 1, "", found, "a title line, “# Title”, first")
    title = _ESCAPED.sub(r"\1", heading[1] or "").strip()
    start = at + 1
    while start < len(lines) and not lines[start].strip():
        start += 1
    fence = _FENCE.fullmatch(lines[start]) if start < len(lines) else None
    if not fence or fence[2] != "toml":
        found = shown(lines[start]) if start < len(lines) else "the end of the file"
        return Problem(file, start + 1, "", found, "a ```toml block after the title")
    for end in range(start + 1, len(lines)):
        if fence[1] in lines[end] and _closing(fence[1]).fullmatch(lines[end]):
            block = "\n".join(lines[start + 1 : end]) + "\n"
            prose = "\n".join(lines[end + 1 :])
            prose = clean_prose(prose)
            if "\\" in prose:
                prose = _MARKER_ESCAPED.sub("", prose)
            return Cut(title, block, prose, start + 2)
    return Problem(file, start + 1, "", "a block without an end", "a closing ``` line")


@lru_cache(maxsize=64)
def _closing(fence: str) -> re.Pattern[str]:
    """Give what ends a block that a fence began: as many of its signs, or more."""
    return re.compile(rf" {{0,3}}{re.escape(fence[0])}{{{len(fence)},}}[ \t]*")


def read_toml(block: str) -> dict[str, Any]:
    """Read the facts of a block with the one reader that decides.

    Raises:
        ValueError: the text is not TOML; the message names line and column.
    """
    import tomli

    return tomli.loads(block)


def read_record(data: bytes, file: str) -> Parsed:
    """Read a record's file; whatever is wrong comes back as problems, never raised."""
    try:
        text = decode(data)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return _failed(
            Problem(file, line, "", "bytes that are not UTF-8", "UTF-8 text")
        )
    pieces = cut(text, file)
    if isinstance(pieces, Problem):
        return _failed(pieces)
    try:
        facts = read_toml(pieces.block)
    except (ValueError, RecursionError) as error:
        return _failed(toml_problem(error, pieces.block, pieces.block_line, file))
    try:
        record, complaints = read_facts(facts, pieces.title, pieces.prose)
    except Unreadable as unreadable:
        record, complaints = None, unreadable.complaints
    problems = tuple(
        Problem(
            file,
            pieces.block_line - 1 + line_of(pieces.block, complaint.path),
            " ".join(_counted(step) for step in complaint.path),
            complaint.found,
            complaint.accepted,
        )
        for complaint in complaints
    )
    number = facts.get("format")
    return Parsed(record, problems, number if isinstance(number, int) else FORMAT)


def _counted(step: str | int) -> str:
    return str(step + 1) if isinstance(step, int) else step


def fact_line(data: bytes, file: str, field: str) -> int:
    """Give the line of a fact in a record's file, as a problem names it; 0 if none."""
    try:
        pieces = cut(decode(data), file)
    except UnicodeDecodeError:
        return 0
    if isinstance(pieces, Problem):
        return 0
    steps = tuple(int(w) - 1 if w.isdecimal() else w for w in field.split())
    line = line_of(pieces.block, steps)
    missing = line == 1 and steps != ("id",)
    return 0 if missing else pieces.block_line - 1 + line


def _failed(problem: Problem) -> Parsed:
    return Parsed(None, (problem,))
