"""Signal words of safety lines, and which reminders a set of processes calls for.

The words follow ANSI Z535.6 and ISO 3864-2 as quoted in manuals (from memory):
three grades for people, one for things. A line is put before what it is about.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.shop.cautions import cautions

SIGNALS: dict[str, str] = {
    "DANGER": "will kill or maim if it is not avoided.",
    "WARNING": "could kill or maim if it is not avoided.",
    "CAUTION": "could hurt somebody, slightly or moderately.",
    "NOTICE": "spoils the work or a tool; nobody is hurt.",
}
"""Each signal word with what it says of the line behind it, gravest first."""

_LED = re.compile(rf"({'|'.join(SIGNALS)})\b[:,.\s–—-]*", re.IGNORECASE)
_FILAMENT = re.compile(r"\b(?:pla|petg|abs|asa|pet|tpu|nylon|filament)\b")
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
            return Caution(
                row.label, row.text("signal"), row.text("line"), row.text("defers")
            )
    led = _LED.match(line.strip())
    if led is None:
        return Caution(line, "", line)
    rest = line.strip()[led.end() :]
    return Caution(line, led[1].upper(), rest[:1].upper() + rest[1:])


def reminders(processes: Iterable[str]) -> tuple[Caution, ...]:
    """Give the reminders these processes call for, gravest first."""
    called = {term for process in processes for term in _terms(process)}
    found = [
        Caution(row.label, row.text("signal"), row.text("line"), row.text("defers"))
        for row in cautions().rows
        if called & set(row.cells["process"])
    ]
    return in_order(found)


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


def grouped(lines: Iterable[Caution]) -> tuple[tuple[str, tuple[Caution, ...]], ...]:
    """Give cautions by signal word, gravest first, those without one last."""
    ordered = in_order(lines)
    words = dict.fromkeys(caution.signal for caution in ordered)
    return tuple(
        (word, tuple(c for c in ordered if c.signal == word)) for word in words
    )


def process_words(process: str, material: str = "") -> str:
    """Give a process as the reminders name it; printing in filament says so."""
    said = process.casefold()
    if "printing" in said and _FILAMENT.search(material.casefold()):
        return f"{said} filament printing"
    return said


def _terms(process: str) -> Iterator[str]:
    """Give the terms a process holds as whole words, but not the vaguer of two."""
    said = f" {' '.join(_WORD.findall(process.casefold()))} "
    every = {term for row in cautions().rows for term in row.cells["process"]}
    held = {term for term in every if f" {term.casefold()} " in said}
    for term in held:
        if not any(term != other and term in other.split() for other in held):
            yield term
