"""Signs that what was read as work or a failure tells more, or something else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from logbook.plain.kinds.failing import slipped_on
from logbook.plain.kinds.work_in_doubt import did_not
from logbook.plain.sure.unread import PUTS_RIGHT, Unread, is_it
from logbook.plain.understanding import (
    Doubt,
    Kind,
)
from logbook.plain.words.figures import FIGURES, Sort, Word

_WORK = (Kind.STEP, Kind.JOINT)


def head_unread(reading: Unread) -> Iterator[Doubt]:
    """See work told by a late word while nobody knows the first ones."""
    at, words = reading.told_at, reading.sentence.words
    if reading.line.kind is not Kind.STEP or at < 2:
        return
    before = [word for word in words[:at] if word.sort is not Sort.MARK]
    if any(word.name or word.low == ":" for word in words[: at + 1]):
        before = [] if not _apart(words, at) else before
    left = [word for word in before if reading.unread(word)]
    late = _apart(words, at) and any("structure" in word.tags for word in left)
    unknown = late or any(reading.unknown(word) for word in left)
    if len(before) > 1 and unknown and words[at - 1] is not left[-1]:
        yield is_it(reading.typed(left))


def _apart(words: Sequence[Word], at: int) -> bool:
    """Tell whether the word stands in a later clause than the first."""
    return any(word.low in (",", ";") for word in words[:at])


def also_fails(reading: Unread) -> Iterator[Doubt]:
    """See work in a line whose unread words tell of a failure: rubs, leaks."""
    failing = {"fail:past", "fail:now", "defect"}
    if reading.line.kind in _WORK:
        for at, word in enumerate(reading.sentence.words):
            before = reading.sentence.words[at - 1].name if at else None
            first = before is not None and at < reading.told_at
            done = "make:past" in word.tags
            if did_not(reading.sentence, at) or slipped_on(reading.sentence, at):
                continue  # No crack this time.
            if word.tags & failing and (reading.unread(word) or (first and not done)):
                yield is_it(word.text, Kind.FAILURE)


def how_it_is(reading: Unread) -> Iterator[Doubt]:
    """See work in a line that compares: brass inserts > tapped holes."""
    if reading.line.kind not in _WORK:
        return
    for at, word in enumerate(reading.sentence.words):
        lows = set(word.low.split(" "))
        looks = lows & {"look", "looks"} and at < reading.told_at
        compares = "than" in lows or (word.sort is Sort.MARK and word.low in "<>")
        if (compares or looks) and at and not reading.read(word):
            yield is_it(word.text)


def corrects(reading: Unread) -> Iterator[Doubt]:
    """See a line that puts right one before it: it is no new fact of the bench.

    What it says is not the drawing's; the entry is to be put right where it stands.
    """
    for word in reading.sentence.words:
        headed = word.start == 0 and _HEADED.match(reading.sentence.text)
        if "corrects" in word.tags or headed or _is_put_right(reading, word):
            question = (
                f"“{word.text}”: {PUTS_RIGHT}: open it and type the value "
                f"there; keep these words as a note?"
            )
            yield Doubt("kind", question, ("only a note",))
    if found := _OF_ANOTHER.search(reading.sentence.text):
        question = (
            f"“{found[1]}”: that puts right of which part an entry is: take it back, "
            f"or open it, and say it again of the right one; keep this as a note?"
        )
        yield Doubt("kind", question, ("only a note",))


_HEADED = re.compile(
    r"(?i)(?:a )?(?:typo|wrong|mistake|error|slip|mistyped|misspel(?:t|led))\s*[,:;-]"
)
"""Typo: …, wrong, …: what follows is how it should have been said."""
_OF_ANOTHER = re.compile(
    r"(?i)\d.*\b((?:was|is|were) not (?:(?:of|on|for) )?the [^,;]+)[,;] ?"
    r"(?:but|it (?:was|is)|that (?:was|is)) (?:(?:of|on|for) )?the\b"
)
"""127.3 was not the top rack, it was the bottom rack."""
_IS = frozenset({"is", "was", "are", "were"})
_WRONG = frozenset({"wrong", "a typo", "typo", "a slip", "misread", "mistyped"})


def _is_put_right(reading: Unread, word: Word) -> bool:
    """See the wrong of “the 126.6 on the lid is wrong, it is 126.8”."""
    words = reading.sentence.words
    at = words.index(word)
    said = word.low in _WRONG or word.low.split(" ")[-1] in _WRONG
    if not said or not any(one.sort in FIGURES for one in words[at + 1 :]):
        return False
    before = [one for one in words[:at] if one.sort is not Sort.MARK]
    led = bool(before) and ("article" in before[0].tags or before[0].sort in FIGURES)
    figured = [one for one in before[:3] if one.sort in FIGURES]
    return (
        led
        and bool(figured)
        and any(one.low.split(" ")[0] in _IS for one in words[: at + 1])
    )


def by_our_own(reading: Unread) -> Iterator[Doubt]:
    """See a size taken for the drawn one that an instrument gave: my caliper says."""
    words = reading.sentence.words
    wanted = reading.line.words.get("wanted", ())
    for at, word in enumerate(words[:-2]):
        figure = words[at + 2]
        taken = any(one.start < figure.end and figure.start < one.end for one in wanted)
        says = words[at + 1].low in ("says", "gives", "shows", "reads", "gave", "said")
        if "instrument" in word.tags and says and taken:
            yield is_it(reading.typed(words[at : at + 3]))


def still_so(reading: Unread) -> Iterator[Doubt]:
    """See work in a line that tells how it held: still flat after 2 h."""
    if reading.line.kind not in _WORK:
        return
    for row in [*reading.rows()][1:]:
        lows = {low for word in row for low in word.low.split(" ")}
        timed = any(word.dimension == "time" for word in row)
        if "still" in lows and timed:
            yield is_it(reading.typed(row))


def undone_again(reading: Unread) -> Iterator[Doubt]:
    """See work that had to be undone, or that made a size: no plain work."""
    if reading.line.kind not in _WORK:
        return
    words = reading.sentence.words
    for word, following in pairwise(words):
        if word.low == "had" and following.low == "to":
            yield is_it(reading.typed((word, following)))
    facts = reading.line.facts
    if facts.off and not facts.disposition and not reading.line.words.get("changed"):
        yield is_it(facts.off.text)


def came_out(reading: Unread) -> Iterator[Doubt]:
    """See how work turned out, told with its noun: anodising came out blotchy."""
    at, words = reading.told_at, reading.sentence.words
    if (
        reading.line.kind is not Kind.STEP
        or at < 0
        or not words[at].low.endswith("ing")
    ):
        return
    following = reading.sentence.word(at + 1)
    if following is not None and (
        following.tags & {"is", "plain_verb"} or following.low in ("came", "came out")
    ):
        yield is_it(reading.typed(words[at : at + 2]))
