"""Where on a part a value was read, told in words: 22.4 V at the plug, 18.2 at a knot.

The place stands right behind a value or right before it, in a line that names the part
by itself: with nothing else named, “0.8 A on the strip” tells of which part it is.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.joined import join_where, join_words
from logbook.plain.words.states import STATE, acts, is_read

_AT = frozenset({"at", "@", "on", "near"})
_WAYS = frozenset({"out", "down", "up", "back"})
"""Before it, telling which way it lies: 2.01 out at the flange."""
_MOST_WORDS = 3
_NO_PLACE = frozenset(
    {"preposition", "joiner", "is", "wanted", "wanted_after", "instrument", "room",
     "not_bench", "attribution_drawing", "because", "measure", "off", "article",
     "generic", STATE}
)  # fmt: skip
_NONE = frozenset(
    {"least", "most", "all", "first", "last", "once", "night", "home", "noon", "rest",
     "hand", "average", "present", "time", "paper", "drawing", "scale", "site"}
)  # fmt: skip


def join_places(words: list[Word], line: str) -> list[Word]:
    """Join “at the plug” beside a value as the place it was read at."""
    if not words or words[-1].low == "?" or any(acts(word) for word in words):
        return words
    both = _both_sides(words)

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        if _is_a_side(words, at) or (both and _before_border(words, at)):
            side = replace(join_words(line, words[at : at + 2]), corrected=False)
            return 2, replace(side, tags=frozenset({"place", "structure"}))
        first = _noun_behind(words, at)
        last = _end(words, first) if first else 0
        # “On the strap”, “44 °C at the motor” may tell which part it is of.
        sure = not words[at].low.startswith("on") and sum(map(is_read, words)) > 1
        of = _is_told_of if sure else _is_thing
        if not last or not any(map(of, words[:at])):
            return None
        if _may_have_it(words, at, words[first]):
            return None
        place = replace(
            join_words(line, words[first:last]), sort=Sort.WORD, corrected=False
        )
        if _behind_value(words, at):
            tags = frozenset({"place", "structure"})
            return last - at, replace(place, tags=tags, name=None)
        if _before_value(words, last):
            place = replace(join_words(line, words[at:last]), sort=Sort.WORD)
            return last - at, replace(place, tags=frozenset({STATE}), name=None)
        return None

    return join_where(words, join)


def _is_told_of(word: Word) -> bool:
    return _is_thing(word) or "measures" in word.tags


_BORDERS = frozenset({"side", "end", "edge", "face", "half", "corner"})


def _is_a_side(words: list[Word], at: int) -> bool:
    """See the wet side of “cup 0.8 wet side, 0.3 dry side”, right behind its value."""
    if at + 1 >= len(words) or words[at + 1].low not in _BORDERS:
        return False
    ends = at + 2 == len(words) or words[at + 2].sort is Sort.MARK
    ends = ends or words[at + 2].low in _JOINS
    plain = words[at].sort is Sort.WORD and words[at].name is None
    before = words[at - 1] if at else None
    told = before is not None and is_read(before)
    values = [one for one in words[:at] if is_read(one)]
    alone = before is not None and before.sort is Sort.MARK and len(values) == 1
    told = told or (alone and at + 2 == len(words))
    return ends and plain and told and not words[at].tags & (_NO_PLACE - {"tool"})


def _is_border(word: Word) -> bool:
    return word.low.split(" ")[-1] in _BORDERS


def _before_border(words: list[Word], at: int) -> bool:
    """See the latch of “latch side 1978”."""
    if at + 2 >= len(words) or words[at].sort is not Sort.WORD or words[at].name:
        return False
    plain = not words[at].tags & (_NO_PLACE - {"room"}) and not _is_border(words[at])
    return plain and _is_border(words[at + 1]) and words[at + 2].sort in FIGURES


def _both_sides(words: list[Word]) -> bool:
    """See “hinge side 1981, latch side 1978”: places, by the one beside the other."""
    named = [
        word
        for at, word in enumerate(words[:-1])
        if _is_border(word) and " " in word.low and words[at + 1].sort in FIGURES
    ]
    apart = [at for at in range(len(words)) if _before_border(words, at)]
    return len(named) + len(apart) > 1


def _is_thing(word: Word) -> bool:
    return word.name is not None and word.name.role != "place"


def _may_have_it(words: list[Word], at: int, noun: Word) -> bool:
    """See the idler of “slot on the idler 3.4”, whose slot it may be."""
    size = at > 0 and words[at - 1].name is not None and not _is_part(words[at - 1])
    plain = not noun.tags & {"place", "structure", "measures"}
    return size and plain and words[at].low.startswith("on")


def _is_part(word: Word) -> bool:
    return word.name is not None and word.name.role in ("part", "piece")


def _noun_behind(words: list[Word], at: int) -> int:
    """Give where the noun begins behind “at the”, 0 where none does."""
    if words[at].low in _WAYS and at + 1 < len(words) and not words[at].name:
        at += 1
    low = words[at].low
    if low.removesuffix(" the") not in _AT or words[at].name is not None:
        return 0
    following = words[at + 1] if at + 1 < len(words) else None
    led = following is not None and "article" in following.tags
    return at + 2 if led else at + 1 if low.endswith(" the") else 0


def _end(words: list[Word], first: int) -> int:
    """Give where a plain noun of a few words ends, 0 where none stands there."""
    for at in range(first, min(len(words), first + _MOST_WORDS + 1)):
        word = words[at]
        if word.sort is not Sort.WORD or word.low in (*_JOINS, "with", "after"):
            return at if at > first and words[at - 1].name is None else 0
        if not is_noun(word):
            return 0
    at = min(len(words), first + _MOST_WORDS)
    return at if at == len(words) and at > first and words[-1].name is None else 0


_JOINS = frozenset({"and", "&", "but"})


def is_noun(word: Word) -> bool:
    """Tell a plain noun, which may be where a value was read."""
    if word.name is not None:
        return word.name.role == "part"
    verb = any(tag.endswith((":past", ":now", ":ing")) for tag in word.tags)
    known = {"place", "structure", "length_adjective"}
    plain = not word.tags & _NO_PLACE or bool(word.tags & known)
    timed = any(tag.startswith("time:") for tag in word.tags)
    return (
        plain
        and not timed
        and word.low not in _NONE
        and (not verb or bool(word.tags & {"structure", "fastener"}))
    )


def _behind_value(words: list[Word], at: int) -> bool:
    before = words[at - 1] if at else None
    if before is not None and at > 1 and "length_adjective" in before.tags:
        before = words[at - 2]
    if before is None or not is_read(before):
        return False
    warm = [one for one in words if one.dimension == "temperature"]
    noun = words[_end(words, _noun_behind(words, at)) - 1]
    names_it = before in warm and len(warm) == 1  # 61 °C @ face: what is so warm.
    return not names_it or "structure" not in noun.tags


def _before_value(words: list[Word], last: int) -> bool:
    following = words[last : last + 5]
    if following and following[0].low == ":":
        return any(is_read(one) for one in following)
    return bool(following) and is_read(following[0])
