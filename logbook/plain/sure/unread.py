"""What of a line no fact took, and how it is asked about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from logbook.plain.understanding import (
    CALLED,
    Doubt,
    Kind,
    Span,
    Understanding,
)
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

SO_OR_NOTE = ("log it so", "only a note")
"""The answers to a doubt about the whole line: taken as it was read, or kept."""
PUTS_RIGHT = "that puts right an entry"
"""What is said of a line that corrects one before it."""
WHY = "why it happened"
DONE_ABOUT = "what was done about it"
NEITHER = "neither"
A_NEW_SIZE = ", a new size"
"""What stands behind a name that is offered for a size the part does not have yet."""


@dataclass(frozen=True)
class Unread:
    """A line, what was understood, and which of its words that was read in."""

    sentence: Sentence
    line: Understanding

    @cached_property
    def taken(self) -> tuple[Span, ...]:
        """Where facts were read, and the word that told the kind."""
        told = (self.line.told_by,) if self.line.told_by else ()
        at = self.told_at
        able = "negative" in self.sentence.tags(at) and self.sentence.word(at + 1)
        if able:  # Won't hold: both words tell it.
            told = (*told, Span(able.start, able.end))
        return (*told, *(one for row in self.line.words.values() for one in row))

    def read(self, word: Word) -> bool:
        """Tell whether a fact was read in a word."""
        return any(word.start < one.end and one.start < word.end for one in self.taken)

    @cached_property
    def says(self) -> frozenset[int]:
        """Where words begin that say something."""
        return frozenset(one.start for one in self.line.content)

    def of_fact(self, word: Word, fact: str) -> bool:
        """Tell whether this fact was read in a word."""
        spans = self.line.words.get(fact, ())
        return any(word.start < one.end and one.start < word.end for one in spans)

    @cached_property
    def values(self) -> tuple[tuple[int, Word], ...]:
        """The figures that were read as values, with where they stand."""
        return tuple(
            (at, word)
            for at, word in enumerate(self.sentence.words)
            if word.sort in FIGURES and self.of_fact(word, "readings")
        )

    def unread(self, word: Word) -> bool:
        """Tell whether a word says something that no fact took."""
        return word.start in self.says and not self.read(word)

    def unknown(self, word: Word) -> bool:
        """Tell whether no list, name or unit knows a word that no fact took."""
        plain = word.sort is Sort.WORD and not word.tags and word.name is None
        return plain and self.unread(word)

    @cached_property
    def told_at(self) -> int:
        """Where the word stands that told the kind, -1 where none did."""
        told = self.line.told_by
        places = enumerate(self.sentence.words)
        at = (at for at, one in places if told and one.start <= told.start < one.end)
        return next(at, -1)

    def rows(self) -> Iterator[Sequence[Word]]:
        """Go through the clauses, as rows of words."""
        for start, end in clauses(self.sentence):
            yield self.sentence.words[start:end]

    def typed(self, words: Sequence[Word]) -> str:
        """Give words as they were typed."""
        return self.sentence.text[words[0].start : words[-1].end]


def which_aside(said: str) -> Doubt:
    """Ask what a clause behind a failure tells: why it came, or what was done."""
    return Doubt("aside", f"“{said}”: which is it?", (WHY, DONE_ABOUT, NEITHER))


def is_it(said: str, other: Kind | None = None) -> Doubt:
    """Doubt what a line tells for a word of it that no fact took; see `in_full`.

    `other` is the kind that the word tells of by itself, which is offered too.
    """
    so, note = SO_OR_NOTE
    offered = (CALLED[other],) if other is not None and other in CALLED else ()
    return Doubt("kind", said, (so, *offered, note))


def in_full(doubt: Doubt, kind: Kind, why: str = "was left unread") -> Doubt:
    """Say which word is doubtful, and as what the line would be logged all the same."""
    if doubt.choices[:1] != SO_OR_NOTE[:1]:
        return doubt
    called = CALLED.get(kind.broad, "a fact")
    question = f"“{doubt.question}” {why}: log it as {called}?"
    choices = tuple(one for one in doubt.choices if one != called)
    return replace(doubt, question=question, choices=choices)
