"""Signal words of safety lines, and which reminders a set of processes calls for.

The words follow ANSI Z535.6 and ISO 3864-2 as quoted in manuals (from memory):
three grades for people, one for things. A line is put before what it is about.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from logbook.shop.cautions import cautions
from logbook.shop.tables import Row

SIGNALS: dict[str, str] = {
    "DANGER": "will kill or maim if it is not avoided.",
    "WARNING": "could kill or maim if it is not avoided.",
    "CAUTION": "could hurt somebody, slightly or moderately.",
    "NOTICE": "spoils the work or a tool; nobody is hurt.",
}
"""Each signal word with what it says of the line behind it, gravest first."""

_LED = re.compile(rf"({'|'.join(SIGNALS)})\b[:,.\s–—-]*", re.IGNORECASE)
_WORD = re.compile(r"[a-z0-9]+")


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety line: its signal word, the line, and who decides instead of it.

    `name` is the reminder's own name; for a line somebody wrote it is the line.
    """

    name: str
    signal: str
    line: str
    defers: str = ""
    short: str = ""

    @property
    def says(self) -> str:
        """Give the whole caution on one line."""
        said = f"{self.signal}: {self.line}" if self.signal else self.line
        return f"{said} {self.defers}".strip()


def written(line: str) -> Caution:
    """Read a caution as a step names it: a reminder's name, or a line of its own.

    A line of its own keeps the signal word it begins with; none is invented.
    """
    for row in cautions().rows:
        if row.label.casefold() == line.strip().casefold():
            return _caution(row)
    led = _LED.match(line.strip())
    if led is None:
        return Caution(line, "", line)
    rest = line.strip()[led.end() :]
    return Caution(line, led[1].upper(), rest[:1].upper() + rest[1:])


def reminders(processes: Iterable[str], material: str = "") -> tuple[Caution, ...]:
    """Give the reminders for doing these processes to a material, gravest first.

    Where nobody stated the material it may be any: what holds of some is said with
    the material it is about.
    """
    called = {term for process in processes for term in _terms(process)}
    known = f" {' '.join(_WORD.findall(material.casefold()))} "
    return in_order(
        _caution(row) if known.strip() else _if_it_is(row)
        for row in cautions().rows
        if row.text("of") == "work"
        and called & set(row.cells["process"])
        and _is_about(row.cells["material"], known)
    )


def of_the_whole(words: Iterable[str]) -> tuple[Caution, ...]:
    """Give what holds of the finished thing and its use, by words that describe it."""
    called = {term for said in words for term in _terms(said)}
    return in_order(
        _caution(row)
        for row in cautions().rows
        if row.text("of") == "whole" and called & set(row.cells["process"])
    )


def _caution(row: Row) -> Caution:
    return Caution(
        row.label,
        row.text("signal"),
        row.text("line"),
        row.text("defers"),
        row.text("short"),
    )


def _if_it_is(row: Row) -> Caution:
    """Give a caution that holds of some materials only as one about these."""
    caution, named = _caution(row), row.cells["material"]
    if not named:
        return caution
    return replace(
        caution,
        line=f"If it is {named[0]} or the like: {caution.line}",
        short=f"if it is {named[0]} or the like: {caution.short or caution.line}",
    )


def _is_about(materials: Iterable[str], known: str) -> bool:
    """Tell whether a caution for these materials, or any, is about the known one."""
    named = [" ".join(_WORD.findall(one)) for one in materials]
    return not named or not known.strip() or any(f" {one} " in known for one in named)


def in_order(lines: Iterable[Caution]) -> tuple[Caution, ...]:
    """Give each caution once, gravest first."""
    once = {caution.says: caution for caution in lines}
    grades = list(SIGNALS)
    return tuple(
        sorted(
            once.values(),
            key=lambda c: grades.index(c.signal) if c.signal in grades else len(grades),
        )
    )


@dataclass(frozen=True, slots=True)
class Reminded:
    """A caution that was said in full before, and the anchor and words of where."""

    says: str
    anchor: str
    place: str


@dataclass(frozen=True, slots=True)
class Box:
    """One box before the work: a caution in full, or several said again in short."""

    signal: str
    caution: Caution | None = None
    again: tuple[Reminded, ...] = ()


class Spoken:
    """What a page has said so far: each caution in full once, then in short."""

    def __init__(self) -> None:
        """Begin with nothing said."""
        self._said: dict[str, tuple[str, str]] = {}

    def before(
        self, lines: Iterable[Caution], anchor: str, place: str
    ) -> tuple[Box, ...]:
        """Give the boxes for cautions that belong here, gravest first."""
        new: dict[str, list[Box]] = {}
        again: dict[str, list[Reminded]] = {}
        for caution in in_order(lines):
            new.setdefault(caution.signal, [])
            if caution.says in self._said:
                short = caution.short or caution.line
                said = Reminded(short, *self._said[caution.says])
                again.setdefault(caution.signal, []).append(said)
            else:
                self._said[caution.says] = (anchor, place)
                new[caution.signal].append(Box(caution.signal, caution))
        boxes: list[Box] = []
        for word, full in new.items():
            boxes += full
            boxes += [Box(word, again=tuple(again[word]))] if word in again else []
        return tuple(boxes)


def _terms(process: str) -> Iterator[str]:
    """Give the terms a process holds as whole words, but not the vaguer of two."""
    said = f" {' '.join(_WORD.findall(process.casefold()))} "
    every = {term for row in cautions().rows for term in row.cells["process"]}
    held = {term for term in every if f" {term.casefold()} " in said}
    for term in held:
        if not any(term != other and term in other.split() for other in held):
            yield term
