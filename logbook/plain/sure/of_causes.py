"""Signs that a clause of a failure tells why it happened, or what was done about it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.plain.sure.unread import Unread, which_aside
from logbook.plain.told.cause_clauses import AFTERWARDS, never_why
from logbook.plain.told.likely_causes import Row, why_likely
from logbook.plain.told.where import made_so, place_clauses
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.figures import Sort, Word

MAY_TELL = 0.2
"""From here on a clause that no fact took may tell why, and is asked about.

Of lines left out in their turn, of which the rules had read no cause, 5 of 15 asked
about from here on told one; of those below it 3 of 35.
"""
_TELLS_NO_MORE = frozenset(
    {
        "mood",
        "ordinal",
        "as_is",
        "fit",
        "rework_sense",
        "order_done",
        "order_wish",
        "todo",
    }
)
_MENDS = frozenset({"it", "them", "now", "again", "new", "instead", "another"})


def no_clue(reading: Unread) -> Iterator[Doubt]:
    """See a clause behind a failure that nothing was read in: glue squeeze-out."""
    facts = reading.line.facts
    if reading.line.kind is not Kind.FAILURE or facts.cure:
        return
    for row in [*reading.rows()][1:]:
        says = [word for word in row if word.start in reading.says]
        told = any(
            word.sort is not Sort.WORD
            or word.name is not None
            or word.tags & _TELLS_NO_MORE
            or reading.read(word)
            for word in row
        )
        told = told or never_why(reading.sentence, [*row])
        if says and not told and not says[0].low.endswith("ly"):
            yield which_aside(reading.typed(row))


def may_tell_why(reading: Unread) -> Iterator[Doubt]:
    """See a clause that likely tells why though no rule saw it: glue didn't hold."""
    if reading.line.kind is not Kind.FAILURE or reading.line.facts.cause:
        return
    rows = why_likely(reading.sentence)
    if not rows or max(likely for _, likely in rows) < MAY_TELL:
        return
    (start, end), _ = _likeliest(reading, rows)
    words = reading.sentence.words
    placed = [*place_clauses(reading.sentence)]
    others = [
        words[slice(*row)]
        for row, _ in rows
        if row != (start, end) and row not in placed
    ]
    fails = any(word.tags & {"fail", "defect", "off_strong"} for row in others
                for word in row)  # fmt: skip
    if start <= reading.told_at < end and not fails:
        return  # What failed is told there, and nowhere else.
    if made_so(words[start:end]):
        return  # In PETG by rev A: which one it was.
    if _untaken(reading, words[start:end]) and _something_failed(reading, others):
        yield which_aside(reading.typed(words[start:end]))


def _likeliest(reading: Unread, rows: Sequence[tuple[Row, float]]) -> tuple[Row, float]:
    """Give the likeliest clause, one that tells what failed only where no other may."""
    told = reading.told_at
    best = max(rows, key=lambda row: row[1])
    apart = [row for row in rows if not row[0][0] <= told < row[0][1]]
    other = max(apart, key=lambda row: row[1], default=best)
    return other if other[1] * 2 >= best[1] else best


def _untaken(reading: Unread, row: Sequence[Word]) -> bool:
    """Tell whether two words of a clause or more say what no fact took."""
    lead = row[0].low
    again = any(
        word.tags & _TELLS_NO_MORE or word.sort is Sort.ORDINAL or word.low == "again"
        for word in row
    )
    if again or lead in AFTERWARDS or never_why(reading.sentence, [*row]):
        return False
    facts = reading.line.words.items()
    taken = [one for fact, spans in facts if fact not in _OF_WHAT for one in spans]
    cures = reading.line.words.get("cure", ())
    if any(one.start < word.end and word.start < one.end
           for word in row for one in cures):  # fmt: skip
        return False
    left = [
        word
        for word in row
        if word.sort is Sort.WORD
        and not any(one.start < word.end and word.start < one.end for one in taken)
    ]
    return len(left) > 1


_OF_WHAT = frozenset({"part", "piece", "others", "material"})


def _something_failed(reading: Unread, others: Sequence[Sequence[Word]]) -> bool:
    """Tell whether a clause beside it can be what failed: no lone place or part."""
    told = reading.line.told_by
    return any(
        len(row) > 1 or (told is not None and row[0].start == told.start)
        for row in others
        if row
    )


def cure_or_cause(reading: Unread) -> Iterator[Doubt]:
    """See what is taken for the cure and may be why: oiled one side only."""
    facts, spans = reading.line.facts, reading.line.words.get("cure", ())
    if reading.line.kind is not Kind.FAILURE or facts.cause or not spans:
        return
    start, end = spans[0].start, spans[-1].end
    row = [one for one in reading.sentence.words if start <= one.start < end]
    lows = {low for one in row for low in one.low.split(" ")}
    if lows & {"only", "too", "without", "wrong"} and not lows & _MENDS:
        yield which_aside(reading.typed(row))
