"""A word or figure of a line, with its place in it, by its looks."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.words.lexicon import NO_TAGS
from logbook.plain.words.spoken import Name
from logbook.quantity import Quantity, parse_quantity
from logbook.units import UNITS

_INCH_PARTS = re.compile(r"(?:\d+[ -])?\d{1,2}/(?:16|32|64)")
"""Nobody parts a millimetre so: 5/32 is of an inch (common practice, no source)."""


class Sort(StrEnum):
    """What a word of the line is by its looks."""

    WORD = "word"
    NUMBER = "number"
    SIZE = "size"
    THREAD = "thread"
    GAUGE = "gauge"
    DATE = "date"
    CLOCK = "clock"
    ORDINAL = "ordinal"
    TOLERANCE = "tolerance"
    TIMES = "times"
    CODE = "code"
    LABEL = "label"
    COUNT = "count"
    FILE = "file"
    WHEN = "when"
    MARK = "mark"


FIGURES = (Sort.NUMBER, Sort.SIZE)
"""What a value can be typed as."""


@dataclass(slots=True)
class Word:
    """A word, set phrase or figure of the line.

    `amounts` are the numbers of a figure as typed, `unit` its unit when one
    was typed; `asks` are the two meanings of an ambiguous number.
    """

    text: str
    low: str
    start: int
    end: int
    sort: Sort
    tags: frozenset[str] = NO_TAGS
    name: Name | None = None
    amounts: tuple[str, ...] = ()
    unit: str = ""
    whole: int | None = None
    asks: tuple[str, ...] = ()
    corrected: bool = False

    def quantities(self, unit: str) -> tuple[Quantity, ...]:
        """Read the figure's numbers, with `unit` where none was typed."""
        typed = self.unit or unit
        found = []
        for amount in self.amounts:
            try:
                read = self._read(amount, typed)
            except BadInput:
                continue
            if len(self.amounts) == 1 and self.unit:
                text = " ".join(self.text.split())
                if _reads_back(text, read):
                    read = Quantity(text, read.value, read.unit, read.step)
            found.append(read)
        return tuple(found)

    def _read(self, amount: str, unit: str) -> Quantity:
        """Read one amount; of two meanings the first stands until it is asked."""
        try:
            return parse_quantity(amount, unit)
        except NeedsAnswer as two_ways:
            if not _INCH_PARTS.fullmatch(amount):
                self.asks = two_ways.choices
            return parse_quantity(two_ways.choices[0], unit)

    @property
    def dimension(self) -> str:
        """What the typed unit measures; empty where none was typed."""
        return UNITS[self.unit].dimension if self.unit else ""

    @property
    def has_decimals(self) -> bool:
        """Whether the figure was typed with a decimal mark or as a fraction."""
        return any(mark in amount for amount in self.amounts for mark in ".,/")


def _reads_back(text: str, meant: Quantity) -> bool:
    """Tell whether a record could keep these words as they were typed."""
    try:
        read = parse_quantity(text)
    except (BadInput, NeedsAnswer):
        return False
    return (read.value, read.unit) == (meant.value, meant.unit)
