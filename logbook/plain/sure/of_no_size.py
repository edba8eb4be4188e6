"""Signs that a line of work, a failure or a choice tells something else by a value."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from logbook.plain.named.unnamed import which_part
from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.when.clock_spans import is_hour
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort


def so_much_of_it(reading: Unread) -> Iterator[Doubt]:
    """See “lamp flicker 100 Hz”: what it does is a noun here, and was measured."""
    told, following = reading.told_at, reading.sentence.word(reading.told_at + 1)
    if told < 0 or following is None or following.sort not in FIGURES:
        return
    tags = reading.sentence.tags(told)
    noun = "fail:base" in tags and not tags & {"fail:past", "fail:now"}
    if noun and following.unit:
        yield is_it(following.text, Kind.READING)


def of_a_later_clause(reading: Unread) -> Iterator[Doubt]:
    """See work with a size of something nobody read: pressed in, 0.02 interference."""
    told, words = reading.told_at, reading.sentence.words
    rows = [row for row in clauses(reading.sentence) if row[0] <= told < row[1]]
    kept = {one.value.value for one in reading.line.facts.readings}
    for at, word in reading.values if rows else ():
        if kept.isdisjoint(one.value for one in word.quantities("mm")):
            continue  # Fits with 0.2 play.
        later = not rows[0][0] <= at < rows[0][1]
        for near in words[max(0, at - 1) : at] + (words[at + 1 : at + 2] * later):
            sized = near.tags & {"structure", "measures", "material"} or not near.tags
            sized = sized and "length_adjective" not in near.tags
            if near.sort is Sort.WORD and sized and reading.unread(near):
                both = sorted((near, word), key=lambda one: one.start)
                yield is_it(reading.typed(both))


_READ = frozenset({"temperature", "voltage", "current", "power", "frequency"})


def read_while_it_ran(reading: Unread) -> Iterator[Doubt]:
    """See “ran the lamp 2 h: 61 C”: what was read of it, and not what was done."""
    dimensions = {one.value.dimension for one in reading.line.facts.readings}
    for at, word in reading.values if dimensions & _READ else ():
        if at and reading.sentence.words[at - 1].low in (":", "=", "->"):
            yield is_it(word.text, Kind.READING)


def of_the_new_one(reading: Unread) -> Iterator[Doubt]:
    """See the size of the piece made anew put to the one that was scrapped."""
    anew = [one for one in reading.sentence.words if one.low in _ANEW]
    scrapped = reading.line.facts.disposition == "scrap"
    for _, word in reading.values if scrapped else ():
        if any(one.start < word.start for one in anew):
            yield is_it(reading.typed((anew[0], word)))


def work_with_its_reason(reading: Unread) -> Iterator[Doubt]:
    """See “glued to the base because the screws were too short”: work, and why."""
    words = reading.sentence.words
    why = next(iter(reading.sentence.tagged("because")), len(words))
    done = any(one.tags & {"make:past", "close:past"} for one in words[:why])
    if done and reading.told_at > why and reading.line.facts.beside is None:
        yield is_it(words[reading.told_at].text, Kind.STEP)


def which_it_was(reading: Unread) -> Iterator[Doubt]:
    """See “the base that was scrapped is a jig now”: it only says which base."""
    told, words = reading.told_at, reading.sentence.words
    before = words[told - 1].low.split(" ") if told > 0 else []
    if {"was", "were", "which", "that"} & {*before}:
        yield is_it(reading.typed(words[told - 1 : told + 1]))


_A_FEW = 20


def so_many_more(reading: Unread) -> Iterator[Doubt]:
    """See the 3 of “returned base 2, got 3”: so many came, and no size of it."""
    named = any(one.what for one in reading.line.facts.readings)
    gone = reading.line.facts.disposition in ("return", "scrap")
    for at, word in reading.values if gone and not named else ():
        few = word.whole is not None and word.whole < _A_FEW and not word.unit
        if at and few:
            yield is_it(reading.typed(reading.sentence.words[at - 1 : at + 1]))


_ANEW = frozenset({"new", "a new", "new one", "another", "again"})


def from_hour_to_hour(reading: Unread) -> Iterator[Doubt]:
    """See “from 9 to 11 soldering the lamp”: hours of work, and nothing chosen."""
    row = reading.sentence.words[:4]
    led = len(row) == len(("from", "9", "to", "11")) and row[0].low == "from"
    if led and is_hour(row[1]) and is_hour(row[3]):
        yield is_it(reading.typed(row), Kind.STEP)


_STUFF = frozenset({"fastener", "material", "structure"})


def none_left(reading: Unread) -> Iterator[Doubt]:
    """See “no more M3 pan heads”: none left, or none wanted."""
    first, *rest = reading.sentence.words
    things = all(
        word.name or word.tags & _STUFF or word.sort in (Sort.THREAD, Sort.CODE)
        for word in rest
    )
    if first.low == "no more" and rest and things:
        yield is_it(reading.typed(reading.sentence.words))
    for word, following in pairwise(rest):
        if word.low == "no more" and following.tags & {"fail", "defect"}:
            yield is_it(reading.typed((word, following)), Kind.FAILURE)


def counted_with_sizes(reading: Unread) -> Iterator[Doubt]:
    """See a count in a line of sizes: cut list: 2 uprights 300, 1 base 240."""
    left = [
        word
        for word in reading.sentence.words
        if word.sort in FIGURES and word.name is None and reading.unread(word)
    ]
    if len(left) > 1:
        yield is_it(left[0].text)


def part_put_right(reading: Unread) -> Iterator[Doubt]:
    """See a part that is new by a slip of the keys: flashed the driver baord."""
    facts, words = reading.line.facts, reading.sentence.words
    slip = any(one.corrected and reading.of_fact(one, "part") for one in words)
    known = facts.part in reading.sentence.vocabulary.proposed
    if facts.part_is_new and slip and not known:
        yield which_part((), (facts.part,))
