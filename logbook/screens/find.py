"""Finding any record: by words, by their beginnings, or by a number's value."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from textual import on, work
from textual.message import Message
from textual.worker import get_current_worker

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.codec import write_facts
from logbook.records.model import Record
from logbook.records.snapshot import Snapshot
from logbook.screens.amending import shown_fact
from logbook.screens.choosing import Choosing
from logbook.screens.entry_line import EntryLine
from logbook.screens.listing import Line, Listing
from logbook.screens.newest import line_of

MOST = 200
"""Rows shown; more letters make it fewer."""


class Find(Choosing):
    """Search from anywhere; the newest that fits comes first."""

    NOTHING = "no record has that"
    ASKS = "words, or a number: 86.42, 3/16 in"

    @dataclass
    class Found(Message):
        """What fits a question; the question comes along."""

        asked: str
        lines: Sequence[Line]

    def narrow(self, typed: str) -> None:
        """Look in a thread; the answer to the last question is the one shown."""
        self._look(typed, self.desk.snapshot)

    @work(thread=True, exclusive=True, group="find")
    def _look(self, typed: str, snapshot: Snapshot) -> None:
        lines = []
        worker = get_current_worker()
        for record in fitting(snapshot, typed):
            if worker.is_cancelled:
                return
            lines.append(line_of(record))
            if len(lines) == MOST:
                break
        self.post_message(self.Found(typed, lines))

    @on(Found)
    def _show(self, found: Found) -> None:
        if found.asked == self.query_one(EntryLine).value:
            self.query_one(Listing).show(found.lines)

    def choose(self, chosen: Line) -> None:
        """Open the record; coming back leads here again."""
        self.show_record(chosen.key)


def fitting(snapshot: Snapshot, typed: str) -> Iterator[Record]:
    """Give the records that have every word typed, newest first.

    A word fits the beginning of a word; a number fits a value equal to it.
    """
    wanted = number_of(typed)
    words = _folded(typed).split()
    for record in reversed(list(snapshot)):
        by_value = wanted is not None and has_value(record, wanted)
        if not words or by_value or has_words(record, words):
            yield record


def has_words(record: Record, beginnings: Sequence[str]) -> bool:
    """Tell whether each of these begins a word of the record."""
    words = words_of(record)
    return all(any(word.startswith(one) for word in words) for one in beginnings)


def number_of(typed: str) -> Quantity | None:
    """Read what was typed as a number; it may come without a unit."""
    try:
        return parse_quantity(typed, "mm")
    except BadInput:
        return None


def has_value(record: Record, wanted: Quantity) -> bool:
    """Tell whether a record holds this value, in whatever unit it was typed."""
    for value in values_in(record):
        if value.dimension == wanted.dimension and not value.metal:
            if value.to(wanted.unit) == wanted.value:
                return True
        elif wanted.unit == "mm" and value.value == wanted.value and not value.metal:
            return True
    return False


def values_in(value: object) -> Iterator[Quantity]:
    """Give every quantity a record holds, at whatever depth."""
    if isinstance(value, Quantity):
        yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from values_in(one)
    elif hasattr(value, "__dataclass_fields__") and not isinstance(value, Fraction):
        for name in value.__dataclass_fields__:
            yield from values_in(getattr(value, name))


def _folded(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text.casefold())
    kept = "".join(c for c in plain if not unicodedata.combining(c))
    return "".join(c if c.isalnum() or c in ".,/" else " " for c in kept)


def words_of(record: Record) -> frozenset[str]:
    """Give the words of a record: title, prose and facts, folded."""
    facts = shown_fact(write_facts(record))
    return frozenset(_folded(f"{record.title} {record.prose} {facts}").split())
