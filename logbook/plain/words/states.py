"""In which state a value was read: 1.4 A cold, 91 g painted, with the lid on.

They are joined and tagged before the line is read, so that no rule takes the painted
of “91 g painted” for work done. Behind a value they are its own, before it they are
of all that follow.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.joined import join_words
from logbook.plain.words.lexicon import Lexicon

STATE = "state"
"""The tag of a word that tells only in which state a value was read."""
_ACTS = tuple(
    f"{one}:past"
    for one in ("make", "close", "fail", "rework", "take_back", "repair", "scrap",
                "use", "order_done")
)  # fmt: skip
_OTHERS = frozenset({"decide", "instead", "negation", "todo"})
_READ = frozenset({"measured", "read", "taken", "weighed", "checked", "free"})
_JOINS = frozenset({"and", "&", "but", "vs", "versus", "then", "after", "against"})
_MOST_WORDS = 3
_SHUT = (
    r"on|off|open|closed|shut|in|out|fitted|removed|in place|up|down|running|connected"
    r"|disconnected|cleaned|plugged in|unplugged|loosened|tightened|clamped|opened"
    r"|pressed|installed|mounted"
)
_WITH = re.compile(
    rf"(?i)\b(?:with|without|w/o?)\s+(?:(?:the|its|my|both|all|no)\s+)?(?:[a-z-]+\s+){{1,2}}?"
    rf"(?:{_SHUT})(?=\s*(?:[,;.:]|$)|\s+(?:and|&|at|after|for|in|it|\d)\b)"
)
"""With the lid on, the room at 23; 63 C with both doors shut."""
_UNDER = re.compile(
    r"(?i)\b(?:under|without)\s+(?:the|its|a)\s+(?:cover|hood|lid|shroud|guard|box)"
    r"(?=\s*(?:[,;.:]|$)|\s+(?:and|&|at|after|for)\b)"
)
"""63 C under the cover; a gap under the lid is a place."""


_BESIDE = re.compile(
    r"(?i)(?<=[a-z°%Ω]\s)(?:with|without|w/o?)\s+(?:the|its|a)\s+[a-z-]+(?=\s*(?:[,;.:]|$))"
)
"""51 C with the fan, 63 C without; 0.3 with the feeler tells by what it was read."""


def tell_states(words: list[Word], line: str, known: Lexicon) -> list[Word]:
    """Join what tells in which state the values of a line were read."""
    asked = not words or words[-1].low == "?" or "question" in words[0].tags
    if asked or not any(_is_exact(word) for word in words):
        return words
    spans = [*_of_names(words, known), *_of_things(words, line), *_with_it(words)]
    spans += [*_in_air(words), *_before_or_after(words)]
    rows = _apart(spans)
    covered = {at for first, last in rows for at in range(first, last)}
    rest = [word for at, word in enumerate(words) if at not in covered]
    if not rows or any(acts(word) for word in rest):
        return words
    if not (len(rows) > 1 or _measures(rest) or not _worked(words, rows, known)):
        return words
    ends = dict(rows)
    found, at = [], 0
    while at < len(words):
        last = ends.get(at, at + 1)
        row = words[at:last]
        told = at in ends
        found.append(_state(line, row) if told else words[at])
        at = last
    return found


def _state(line: str, row: list[Word]) -> Word:
    tags = frozenset({STATE})
    return replace(
        join_words(line, row), tags=tags, name=None, sort=Sort.WORD, corrected=False
    )


def _is_exact(word: Word) -> bool:
    return word.sort in FIGURES and bool(word.unit or word.has_decimals)


def is_read(word: Word) -> bool:
    """Tell a figure that may be measured from how long or how dear it was."""
    time = word.dimension == "time" or word.dimension.startswith(("money", "count"))
    return _is_exact(word) and not time


def acts(word: Word) -> bool:
    """Tell whether a word tells of more than what was read."""
    if word.name is not None or word.tags & {"measure", "measures", "structure"}:
        return False
    return bool(word.tags & _OTHERS) or any(tag in word.tags for tag in _ACTS)


def _measures(words: list[Word]) -> bool:
    return any("measures" in word.tags for word in words)


def _worked(words: list[Word], rows: list[tuple[int, int]], known: Lexicon) -> bool:
    """Tell whether the one state told is also a verb of work: painted, clamped."""
    first, last = rows[0]
    low = " ".join(word.low for word in words[first:last])
    return low in known.clauses["worked_state"]


def _of_names(words: list[Word], known: Lexicon) -> Iterator[tuple[int, int]]:
    """Go through the states told by a word or two, as places of words."""
    leading = []
    for at in range(len(words)):
        last = at + 1 if _switched(words, at) else _longest(words, at, known)
        if not last:
            continue
        loaded = words[last - 1].low.split(" ")[-1] in ("load", "idle")
        if _behind_value(words, at, last) or (loaded and last - at > 1):
            yield at, last
        elif _of_all(words, at, last):
            yield at, _with_where(words, last)
        elif _before_value(words, at, last):
            leading.append((at, last))
    if len(leading) > 1:
        yield from leading


def _longest(words: list[Word], at: int, known: Lexicon) -> int:
    """Give where the longest state that begins here ends, 0 where none does."""
    told = known.clauses["state"] | known.clauses["worked_state"]
    for last in range(min(len(words), at + _MOST_WORDS), at, -1):
        row = words[at:last]
        plain = all(one.sort is Sort.WORD and one.name is None for one in row)
        if plain and " ".join(one.low for one in row) in told:
            return last
    return 0


_WHEN = frozenset({"when", "while", "once", "after"})


def _behind_value(words: list[Word], at: int, last: int) -> bool:
    led = at > 1 and words[at - 1].low in _WHEN
    return _is_told(words, at - 1 if led else at) and _ends(words, last)


def _switched(words: list[Word], at: int) -> bool:
    """See the off of “draws 18 mA off”; of a length it is how far it is out."""
    before = words[at - 1] if at else None
    drawn = before is not None and before.dimension in ("current", "power", "voltage")
    return drawn and words[at].low in ("on", "off") and _ends(words, at + 1)


def _ends(words: list[Word], at: int) -> bool:
    word = words[at] if at < len(words) else None
    if word is None or word.sort in (Sort.MARK, Sort.WHEN):
        return True
    return word.low in _JOINS or is_read(word)


def _of_all(words: list[Word], at: int, last: int) -> bool:
    """See the free of “212.4, width 148.9, measured free on the bench”."""
    before = words[at - 1] if at else None
    following = words[last] if last < len(words) else None
    ends = following is None or following.sort is Sort.MARK
    led = following is not None and following.low.split(" ")[0] in _WHERE_LED
    read = any(is_read(word) for word in words[:at])
    return read and before is not None and before.low in _READ and (ends or led)


def _with_where(words: list[Word], at: int) -> int:
    """Give where “free on the bench” ends."""
    row = words[at : at + 3]
    if row and row[0].low in _HELD_IN:
        return at + 1
    led = [one for one in row if one.tags & {"preposition", "article"}]
    where = row[-1:] if led and led == row[: len(led)] and row[-1] not in led else []
    return at + len(led) + 1 if where and where[0].tags & _WHERE else at


_HELD_IN = frozenset({"in the vice", "in the vise", "in clamps", "in the clamps"})
_WHERE_LED = frozenset({"in", "on", "at", "to", "against"})
_WHERE = frozenset({"tool", "not_bench", "instrument"})


def _before_value(words: list[Word], at: int, last: int) -> bool:
    """See the cold of “cold 0.42 ohm, warm 0.55 ohm”."""
    before = words[at - 1] if at else None
    leads = before is None or before.sort is Sort.MARK or before.name is not None
    leads = leads or before is None or bool(before.tags & {"joiner", "measures"})
    following = words[last : last + 2]
    if following and following[0].low == ":":
        following = following[1:]
    return leads and bool(following) and is_read(following[0])


def _of_things(words: list[Word], line: str) -> Iterator[tuple[int, int]]:
    """Go through what stood how: with the lid on."""
    heat = any(word.unit and word.dimension != "length" for word in words)
    by_the_way = (*_UNDER.finditer(line), *_BESIDE.finditer(line)) if heat else ()
    for match in (*_WITH.finditer(line), *by_the_way):
        row = [
            at
            for at, word in enumerate(words)
            if word.start < match.end() and match.start() < word.end
        ]
        if not row:
            continue
        first, last = row[0], row[-1] + 1
        whole = words[first].start >= match.start()
        if whole and words[last - 1].end <= match.end():
            yield first, last


_USED = frozenset({"thread lock", "threadlock", "grease", "oil", "tape", "wax"})


def _before_or_after(words: list[Word]) -> Iterator[tuple[int, int]]:
    """See “18.4 before sanding, 18.1 after”: which of two times it was read."""
    for at, word in enumerate(words):
        if word.low not in ("before", "after") or not _is_told(words, at):
            continue
        last = at + 1
        while last < len(words) and last - at < _MOST_WORDS + 1:
            if words[last].sort is not Sort.WORD or words[last].low in _JOINS:
                break
            last += 1
        work = [one.low for one in words[at + 1 : last]]
        pair = word.low == "before" and _after_follows(words, last)
        if _ends(words, last) and (not work or work[-1].endswith("ing") or pair):
            yield at, last


def _after_follows(words: list[Word], at: int) -> bool:
    """See the “and 12.05 after” behind “11.85 before paint”."""
    return any(
        word.low == "after" and _is_told(words, place) and _ends(words, place + 1)
        for place, word in enumerate(words)
        if place > at
    )


def _is_told(words: list[Word], at: int) -> bool:
    """Tell whether a value stands right before a place in the line."""
    before = words[at - 1] if at else None
    if before is not None and at > 1 and "length_adjective" in before.tags:
        before = words[at - 2]
    return before is not None and (is_read(before) or _like_before(words, before))


def _like_before(words: list[Word], figure: Word) -> bool:
    """See the bare 388 of “412 g with the clamp, 388 without”, near the one before."""
    earlier = [one for one in words[: words.index(figure)] if is_read(one)]
    if figure.whole is None or figure.unit or not earlier:
        return False
    if not earlier[-1].unit or earlier[-1].dimension == "length":
        return False
    near = earlier[-1].quantities("")
    return bool(near) and near[0].value / 2 <= figure.whole <= near[0].value * 2


def _in_air(words: list[Word]) -> Iterator[tuple[int, int]]:
    """See “at 55 % rh”: how damp the air was, and no size of the part."""
    for at, word in enumerate(words[:-2]):
        damp = words[at + 1].dimension == "ratio" and words[at + 2].low in _DAMP
        led = word.low in ("at", "@", "in")
        beside = word.sort is Sort.MARK and any(map(is_read, words[:at]))
        if damp and (beside or (led and len(words) > _MOST_WORDS)):
            yield (at if led else at + 1), at + 3


_DAMP = frozenset({"rh", "humidity", "relative humidity", "r.h."})


def _with_it(words: list[Word]) -> Iterator[tuple[int, int]]:
    """See the fibre washers of “0.4 N·m, with fibre washers”, behind all values."""
    for at, word in enumerate(words):
        if word.low not in ("with", "without") or not any(map(is_read, words[:at])):
            continue
        row = words[at + 1 :]
        plain = all(one.sort is Sort.WORD and one.low not in _JOINS for one in row)
        used = bool(row) and ("fastener" in row[-1].tags or row[-1].low in _USED)
        if plain and used and len(row) <= _MOST_WORDS:
            yield at, len(words)


def _apart(spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Give spans in their order, none of which overlaps the one before it."""
    found: list[tuple[int, int]] = []
    for first, last in sorted(spans):
        if not found or first >= found[-1][1]:
            found.append((first, last))
    return found
