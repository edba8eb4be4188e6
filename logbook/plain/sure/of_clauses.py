"""Signs that a long line tells more than one fact, or one that nobody wrote a rule for.

Each clause is read by itself: where one tells a kind of its own that no fact of the
line took, the line is asked about instead of being taken for the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.plain.kinds.choosing import choose
from logbook.plain.sure.asides import bare
from logbook.plain.sure.chances import surely_so
from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.understanding import SURE_ENOUGH, Doubt, Kind
from logbook.plain.values.readings import find_values
from logbook.plain.words.figures import Sort, Word

_LONG = 9
"""From so many words on a line is looked through clause by clause."""
_JOINS = frozenset({"and", "so", "but", "then", "while", "after", "because", "until"})
_DISAGREE: dict[Kind, frozenset[Kind]] = {
    Kind.ORDER: frozenset({Kind.STEP}),
    Kind.FAILURE: frozenset({Kind.DISPOSITION}),
    Kind.STEP: frozenset({Kind.FAILURE, Kind.DECISION, Kind.DISPOSITION}),
    Kind.JOINT: frozenset({Kind.FAILURE, Kind.DECISION, Kind.DISPOSITION, Kind.STEP}),
    Kind.READING: frozenset({Kind.FAILURE, Kind.STEP, Kind.ORDER}),
    Kind.SUBSTITUTION: frozenset({Kind.FAILURE, Kind.DISPOSITION}),
}
"""What a clause of a line of each kind may not tell beside it."""
_BEFORE: dict[Kind, frozenset[Kind]] = {
    Kind.DECISION: frozenset({Kind.READING, Kind.FAILURE}),
    Kind.SUBSTITUTION: frozenset({Kind.READING}),
}
"""What a clause may not tell before the one that told the kind."""


def clauses_disagree(reading: Unread) -> Iterator[Doubt]:
    """See a long line one of whose clauses tells another kind than the line."""
    words, kind = reading.sentence.words, reading.line.kind
    if len(words) < _LONG or surely_so(reading.sentence, kind):
        return
    for start, end in _parts(words):
        row = words[start:end]
        if _covered(reading, row) or start <= reading.told_at < end:
            continue
        told = _kind_of(reading, row)
        early = end <= reading.told_at and told in _BEFORE.get(kind, ())
        if early or told in _DISAGREE.get(kind, ()):
            yield is_it(reading.typed(row), told)


def _parts(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Go through the clauses, also those that only a joiner parts."""
    start = 0
    for at, word in enumerate(words):
        stop = word.sort is Sort.MARK and word.low in ",;.-"
        joined = word.low in _JOINS and at - start >= 2 and len(words) - at > 2
        if not (stop or joined):
            continue
        if at > start:
            yield start, at
        start = at + 1
    if start < len(words):
        yield start, len(words)


def _covered(reading: Unread, row: Sequence[Word]) -> bool:
    """Tell whether the clause is the cause, the cure or the reason that was read."""
    spans = [
        span
        for fact in ("cause", "cure", "beside", "disposition", "off")
        for span in reading.line.words.get(fact, ())
    ]
    return any(one.start < span.end and span.start < one.end
               for span in spans for one in row)  # fmt: skip


def _kind_of(reading: Unread, row: Sequence[Word]) -> Kind | None:
    """Give the kind that a clause would have by itself, where that is sure."""
    own = [replace(word) for word in row]
    clause = bare(replace(reading.sentence, words=own, spans={}))
    choice = choose(clause, find_values(clause))
    sure = choice.confidence >= SURE_ENOUGH and choice.doubt is None
    return choice.kind if sure else None


_MOST_UNREAD = 5


def mostly_unread(reading: Unread) -> Iterator[Doubt]:
    """See a line most of whose words say something that no fact took."""
    if surely_so(reading.sentence, reading.line.kind):
        return  # Reworked the lid: rivets drilled out, rivet nuts set, screws fitted.
    set_so = reading.sentence.settings()
    left = [
        word
        for word in reading.sentence.words
        if reading.unread(word) and word not in set_so
    ]
    if len(left) >= _MOST_UNREAD:
        yield is_it(left[0].text)
