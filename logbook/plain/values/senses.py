"""What a figure is when it is nothing measured: wanted, a limit, the room's."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.values.walk import Values, Walk
from logbook.plain.words.figures import Sort, Word


def wants_size(values: Values, word: Word) -> bool:
    """Tell “drawn 6” and “6.35 thick, ordered 6” from other words."""
    told = "order_done" in word.tags or word.low in ("says", "say")
    ordered = told and bool(values.readings)
    return ordered or bool(word.tags & {"wanted", "wanted_after"})


def has_to_be(walk: Walk, at: int) -> bool:
    """See the needs of “slot 4.1, needs 4.4”, not of “needs a 2 A fuse”, “0.3 off”."""
    word, figure, behind = (walk.at(at + step) for step in range(3))
    needs = word is not None and word.low in _NEEDS
    alone = behind is None or behind.sort is Sort.MARK or behind.low in ("for", "to")
    sized = figure is not None and figure.sort in (Sort.NUMBER, Sort.SIZE)
    return needs and sized and alone and bool(walk.values.readings)


def wants(walk: Walk, at: int) -> bool:
    """Tell whether a number follows within three words."""
    for ahead in (1, 2, 3):
        word = walk.at(at + ahead)
        stop = ahead == 1 and word is not None and word.low == "."
        if word is None or (
            word.sort is Sort.MARK and word.low not in ":=(" and not stop
        ):
            return False
        if word.sort in (Sort.NUMBER, Sort.SIZE):
            before = walk.at(at + ahead - 1)
            told = word.dimension != "time" and not word.dimension.startswith("money")
            return told and before is not None and "room" not in before.tags
    return False


_TAKES_OFF = frozenset(
    {"took", "taken", "removed", "skimmed", "shaved", "filed", "planed", "sanded",
     "milled", "sawed", "sawn", "ground", "scraped", "turned", "trimmed", "taking",
     "removing", "skimming", "filing", "cut"}
)  # fmt: skip


def _changes(walk: Walk, at: int, word: Word) -> bool:
    """Tell how much was taken off, or is to be, from a size: it is no reading."""
    before, following = walk.at(at - 1) if at else None, walk.at(at + 1)
    if before is None or word.sort is not Sort.NUMBER:
        return False
    if word.dimension not in ("", "length"):
        return False
    if _moved(walk, at, following):
        return True
    after = walk.at(at + 2)
    if before.low == "another" or _still_to_go(following, after):
        return True
    earlier = walk.sentence.words[max(0, at - 5) : at - 1]
    if before.low == "by":
        figure = bool(earlier) and earlier[-1].sort in (Sort.NUMBER, Sort.SIZE)
        how_far = any(one.tags & {"off", "off_strong", "is"} for one in earlier)
        worked = any(one.low in _TAKES_OFF for one in earlier)
        return worked and not figure and not how_far
    if following is not None and following.low == "down":
        return any(one.low in _TAKES_OFF for one in walk.sentence.words[:at])
    if before.low == "down" and (following is None or following.sort is Sort.MARK):
        little = [one for one in word.quantities("mm") if one.to("mm") < _LITTLE_MM]
        turned = any(one.low in _TAKES_OFF for one in walk.sentence.words[:at])
        return turned and bool(little)  # Turned the collar down 0.1.
    if before.low not in _TAKES_OFF or following is None:
        return False
    return following.low.split(" ")[0] in ("off", "from", "more", "away")


_MOVES = frozenset({"moved", "shifted", "raised", "lowered", "slid", "lengthened"})
_WAYS = frozenset(
    {"in", "out", "up", "down", "to", "to the", "left", "right", "forward", "forwards",
     "back", "backwards", "further", "inwards", "outwards", "towards", "over", "lower",
     "higher"}
)  # fmt: skip


def _moved(walk: Walk, at: int, following: Word | None) -> bool:
    """See the 5 of “moved the hole 5 mm in”: how far, and no size of it."""
    row = walk.sentence.words[:at]
    marks = [one for one, word in enumerate(row) if word.sort is Sort.MARK]
    row = row[marks[-1] + 1 :] if marks else row
    acted = any(one.low in _MOVES for one in row[:2])
    ends = following is None or following.sort is Sort.MARK
    way = following is not None and following.low.split(" ")[0] in _WAYS
    return acted and (ends or way) and not any(one.low == "to" for one in row)


_LITTLE_MM = 3
"""Nothing so small is what a thing was taken down to."""


def _still_to_go(following: Word | None, after: Word | None) -> bool:
    """See the “to go” of what is left to take off."""
    return (
        following is not None
        and after is not None
        and following.low == "to"
        and after.low in ("go", "come off", "take off")
    )


_ALL = "all"
"""Before a bare count: tapped all 4."""
_OVER = frozenset({"left", "left over", "leftover", "spare", "to spare", "over"})
"""Behind a bare count in a line that counts: 3 screws and 2 left over."""


def _is_left(walk: Walk, at: int, word: Word) -> bool:
    """Tell what was counted as left beside others: with 3 screws, 2 left over."""
    following = walk.at(at + 1)
    bare = word.whole is not None and not word.unit
    counted = any(
        one.whole is not None and not one.unit and "fastener" in behind.tags
        for one, behind in pairwise(walk.sentence.words[:at])
    )
    left = following is not None and following.low in _OVER
    return bare and counted and left


def only_told(walk: Walk, at: int, word: Word) -> bool:
    """Tell a number that is nothing measured: the 3.2 bit of a reason, 0.8 strips."""
    following = walk.at(at + 1)
    if (
        word.whole is not None
        and not word.unit
        and at
        and walk.sentence.words[at - 1].low == _ALL
    ):
        return True
    if _counts_teeth(walk, at) or _counts_things(walk, at) or _is_so_many_of(walk, at):
        return True
    if _is_left(walk, at, word) or _is_needed(walk, at) or _is_ratio(walk, at):
        return True
    if _changes(walk, at, word):
        walk.sentence.note("changed", word)
        return True
    if _is_limit(walk, at):
        return True
    if walk.reason:
        return not is_wanted(walk, at, following)
    gives_way = following is not None and "fail:now" in following.tags
    return bool(walk.values.readings) and gives_way and not word.unit


def _counts_teeth(walk: Walk, at: int) -> bool:
    """See the 40 of “40 tooth pulley, bore 5.02”: so many, and no size."""
    word, noun = walk.sentence.words[at], walk.at(at + 1)
    if at or word.whole is None or word.unit or noun is None:
        return False
    named = noun.sort is Sort.WORD and noun.name is None
    named = named and (not noun.tags or bool(noun.tags & {"structure"}))
    later = walk.sentence.words[at + 1 :]
    return named and any(one.has_decimals and one.amounts for one in later)


_NO_COUNT = frozenset(
    {"length_adjective", "off", "off_strong", "place", "is", "article", "preposition",
     "filler", "fail:now", "measure"}
)  # fmt: skip


def _counts_things(walk: Walk, at: int) -> bool:
    """See the 8 of “8 turns”, “2 tacks per side”, “riveted at 6 points”: so many."""
    word, noun = walk.sentence.words[at], walk.at(at + 1)
    if word.whole is None or word.unit or noun is None or noun.name is not None:
        return False
    many = noun.low.endswith("s") and not noun.low.endswith("ss")
    return noun.sort is Sort.WORD and many and not noun.tags & _NO_COUNT


def _is_ratio(walk: Walk, at: int) -> bool:
    """See both figures of “scarf 8:1”, and the 1.2 of “firmware 1.2”."""
    words = walk.sentence.words
    for first in (at, at - 2) if at > 1 else (at,):
        row = words[first : first + 3]
        close = all(one.end == two.start for one, two in pairwise(row))
        if len(row) == len(("8", ":", "1")) and row[1].low == ":" and close:
            return row[2].sort is Sort.NUMBER
    return at > 0 and words[at - 1].low in walk.sentence.lexicon.names["editions"]


def _is_so_many_of(walk: Walk, at: int) -> bool:
    """See the 8 of “glued 3 of 8 feet on”: of so many, whatever they are called."""
    row = walk.sentence.words[max(0, at - 2) : at]
    led = len(row) > 1 and row[0].whole is not None and row[1].low == "of"
    return led and walk.sentence.words[at].whole is not None


_NEEDS = frozenset({"needs", "need"})


def _is_needed(walk: Walk, at: int) -> bool:
    """See the 2 A of “draws 0.9 A, needs a 2 A fuse”: it is nothing measured."""
    before = walk.sentence.words[max(0, at - 2) : at]
    led = any(one.low in _NEEDS for one in before)
    return led and not walk.wanted and bool(walk.values.readings)


_AT_MOST = frozenset({"max", "max.", "maximum", "at most", "no more than",
                      "not more than", "not over", "never over", "at least", "min",
                      "min.", "minimum", "not under", "no less than", "less than",
                      "more than"})  # fmt: skip


_OR_SO = frozenset({"max", "max.", "maximum", "at most", "tops", "or less", "or more",
                    "min.", "minimum", "at least"})  # fmt: skip


def _is_limit(walk: Walk, at: int) -> bool:
    """See how far a value may go: tightened, not over 2 N·m; it is none measured."""
    before = " ".join(word.low for word in walk.sentence.words[max(0, at - 3) : at])
    after = " ".join(word.low for word in walk.sentence.words[at + 1 : at + 3])
    ended = any(f" {before}".endswith(f" {one}") for one in _AT_MOST)
    ended = ended or walk.sentence.words[at - 1].low == "than"  # Better than 8.4.
    to = before.endswith(" to")
    return ended or (
        not to and any(f"{after} ".startswith(f"{one} ") for one in _OR_SO)
    )


def is_wanted(walk: Walk, at: int, following: Word | None) -> bool:
    """Tell whether a value was drawn or wanted; “36 by 24” are wanted together."""
    before = walk.at(at - 1) if at else None
    joined = before is not None and before.low == "by" and walk.wanted_at == at - 2
    return walk.wanted or joined or wanted_behind(walk, at) or _has_tolerance(following)


def wanted_behind(walk: Walk, at: int) -> bool:
    """Tell “180 nominal” from “178.6 nominal 180”."""
    following, after = walk.at(at + 1), walk.at(at + 2)
    if following is not None and following.low in ("is", "was", "were", "are"):
        following, after = after, walk.at(at + 3)  # where 179.7 was wanted
    if following is None or "wanted_after" not in following.tags:
        return False
    return after is None or after.sort not in (Sort.NUMBER, Sort.SIZE)


def timed(walk: Walk) -> bool:
    """Tell whether a duration is what was measured."""
    return any("measures:time" in word.tags for word in walk.buffer)


def _has_tolerance(following: Word | None) -> bool:
    return following is not None and following.sort is Sort.TOLERANCE


def in_room(walk: Walk, at: int) -> bool:
    """Tell whether the room is named behind a value."""
    following = walk.at(at + 1)
    return (
        following is not None
        and "room" in following.tags
        and walk.at(at) is not None
        and bool(
            walk.values.readings
            or walk.values.hours
            or walk.sentence.words[at].dimension == "temperature"
        )
        and walk.sentence.words[at].dimension in ("", "temperature", "angle")
    )


def of_room(walk: Walk, at: int) -> bool:
    """See the warmth told right behind the room: the room was cold, 12 °C."""
    before = walk.sentence.words[:at]
    room = [place for place, word in enumerate(before) if "room" in word.tags]
    warmth = walk.sentence.words[at].dimension == "temperature"
    if not warmth or not room or walk.values.room is not None:
        return False
    between = before[room[-1] + 1 :]
    return len(between) < 5 and all(
        word.sort in (Sort.WORD, Sort.MARK)
        and word.name is None
        and "measures" not in word.tags
        for word in between
    )
