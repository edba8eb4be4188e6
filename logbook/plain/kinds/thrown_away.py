"""A piece that went to where waste goes: in the trash, on the scrap heap."""

from __future__ import annotations

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named

_TO = frozenset({"in", "into", "on", "onto", "to", "for"})
_GOES = frozenset(
    {"went", "goes", "go", "gone", "going", "is", "are", "was", "ended", "ends", "up",
     "landed", "lands", "now", "straight", "right", "off", "can", "headed", "belongs",
     "moved", "thrown", "tossed", "chucked", "put", "dropped", "flew", "then", "so",
     "has", "have", "it", "they", "both", "all", "already", "sits", "lies"}
)  # fmt: skip
"""What may stand between the name of a piece and where it went, and says no more."""
_THREW = frozenset({"threw", "tossed", "chucked", "put", "dropped", "flung", "moved"})
_WHO = frozenset({"i", "we", "so", "and", "just", "then"})


def thrown_away_at(sentence: Sentence) -> int | None:
    """Give where a piece is said to have gone where waste goes.

    Not what lay or was found there, was cut of it, or is told of the bin itself.
    """
    for at in sentence.tagged("waste", "scrap"):
        start = next((one for one, end in clauses(sentence) if one <= at < end), 0)
        named = [one for one in parts_named(sentence) if one < at]
        if named and _ends_there(sentence, at + 1) and _went(sentence, start, at):
            return at
        if _with_it(sentence, start, at):
            return at
    return None


def _with_it(sentence: Sentence, start: int, at: int) -> bool:
    """See “into the scrap bin with lid 1”, “scrap bin for lid 1”."""
    led = {low for word in sentence.words[start:at] for low in word.low.split(" ")}
    word, with_it = sentence.words[at], sentence.word(at + 1)
    piece = at + 3 if "article" in sentence.tags(at + 2) else at + 2
    named = piece in parts_named(sentence)
    into = bool(led & _TO) and with_it is not None and with_it.low == "with"
    bare = not led and with_it is not None and with_it.low == "for"
    return (
        named
        and led <= _TO | _ARTICLES
        and (into or (bare and " " in word.low and word.tags.isdisjoint({"scrap"})))
    )


_ARTICLES = frozenset({"the", "my", "our", "a"})


def _ends_there(sentence: Sentence, at: int) -> bool:
    """Tell the bin of “in the bin now” from that of “in the bin box”."""
    word = sentence.word(at)
    if word is None or word.sort is not Sort.WORD:
        return True
    return bool(word.tags & _GOES_ON) or word.low in ("now", "too", "again", "already")


_GOES_ON = frozenset({"preposition", "joiner", "because", "is", "generic", "step"})


def _went(sentence: Sentence, start: int, at: int) -> bool:
    words = sentence.words[start:at]
    joined = [
        one for one, word in enumerate(words) if word.low in ("and", "so", "then")
    ]
    behind = words[joined[-1] + 1 :] if joined else []
    if any(word.name is not None for word in words[: len(words) - len(behind)]) and (
        behind and all(word.name is None for word in behind)
    ):
        words = behind  # Is too short to save and goes in the bin.
    named = [one for one, word in enumerate(words) if word.name is not None]
    before = [
        low
        for word in words[: named[0] if named else 0]
        for low in word.low.split(" ")
        if "adjective" not in word.tags  # The bad mask, the old lid.
    ]
    behind = words[named[-1] + 1 :] if named else words
    said = [low for word in behind for low in word.low.split(" ")]
    while said and said[-1] in _ARTICLES:
        said.pop()
    led_to = said.pop() if said else ""
    lid = led_to in ("on", "onto") and sentence.words[at].low in _HAS_A_LID
    if led_to not in _TO or lid:
        return False
    threw = bool(_THREW & set(before)) and set(before) <= _THREW | _WHO | {
        "the",
        "both",
    }
    led = set(before) <= {"the", "both", "this", "that", "my", "so", "and"}
    goes = bool(said) or threw or sentence.words[at].low not in _STAND_BY_THEMSELVES
    return set(said) <= _GOES and goes and (threw or led)


_HAS_A_LID = frozenset({"bin", "waste bin", "trash can", "scrap bin"})
_STAND_BY_THEMSELVES = frozenset({"stove", "wood stove", "fire", "tip", "waste"})
"""Where a thing may be for another reason: a lid for the stove."""
