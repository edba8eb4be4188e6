"""Between which points, along what or by what a value was read: 612 end to end.

Such words stand right behind a value of a thing told before and end there, so that no
rule takes them for what was measured, or for another part.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.joined import join_where, join_words
from logbook.plain.words.lexicon import Lexicon, lexicon
from logbook.plain.words.states import STATE, acts, is_read
from logbook.plain.words.told_places import is_noun

_LONGEST = 4
_AT = frozenset({"at", "on", "near"})
_BESIDE = frozenset({"over", "between", "below", "above", "behind", "beside"})
_ALONG = _BESIDE | {"in", "inside", "past", "across", "along", "round", "around",
                    "through"}  # fmt: skip
_NO_LENGTHS = frozenset({"temperature", "time", "ratio"})
_BORDERS = frozenset({"end", "side", "edge", "face", "corner", "flat"})
_ITS = frozenset({"the", "its", "my", "both", "two", "each"})
_BY = frozenset({"by", "on", "with", "using", "per"})
_READERS = ("meter", "gauge", "gage", "scale", "scales", "probe", "balance", "square")


def join_ways(words: list[Word], line: str) -> list[Word]:
    """Join what tells between which points or by what a value was read."""
    if not words or words[-1].low == "?" or any(acts(word) for word in words):
        return words
    known = lexicon()

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        if not _behind_value(words, at):
            return None
        tag, first, last = "place", at, _phrase(words, at, known)
        first += bool(last) and words[at].low in ("at", "in", "on")
        if words[last - 1].low.split(" ")[-1] in _BORDERS and words[first].low == "the":
            first += 1  # The other side.
        if not last:
            first, last = _along(words, at, known)
        if not last:
            tag, (first, last) = "instrument", _instrument(words, at)
        if not last or not _ends(words, last):
            return None
        told = replace(join_words(line, words[first:last]), sort=Sort.WORD, name=None)
        return last - at, replace(told, tags=frozenset({tag}), corrected=False)

    return join_where(words, join)


def _behind_value(words: list[Word], at: int) -> bool:
    first = at - 1
    while first > 0 and words[first].tags & {"length_adjective", "off_strong"}:
        first -= 1
    figure = words[first] if first > 0 else None
    if figure is None or figure.sort not in FIGURES or len(figure.amounts) > 1:
        return False
    timed = figure.dimension == "time" and any(map(is_read, words[:first]))
    return timed or is_read(figure) or not figure.dimension


def _ends(words: list[Word], at: int) -> bool:
    word = words[at] if at < len(words) else None
    if word is None or word.sort in (Sort.MARK, Sort.WHEN) or word.sort in FIGURES:
        return True
    return STATE in word.tags or word.low in ("and", "&", "but", "after")


def _phrase(words: list[Word], at: int, known: Lexicon) -> int:
    """Give where a way of reading that the word file lists ends, 0 elsewhere."""
    for last in range(min(len(words), at + _LONGEST), at, -1):
        row = words[at:last]
        plain = all(one.sort is not Sort.MARK and one.name is None for one in row)
        said = " ".join(one.low for one in row)
        if plain and (said in known.clauses["ways"] or _one_or_other(said)):
            return last
    return 0


def _one_or_other(said: str) -> bool:
    """See “at one edge” and “the other face”."""
    *led, border = said.removeprefix("at ").removeprefix("on ").split(" ")
    return border in _BORDERS and " ".join(led) in ("one", "the other", "other")


_NOWHERE = (0, 0)


def _along(words: list[Word], at: int, known: Lexicon) -> tuple[int, int]:
    """Give where “between the stiles”, “from pivot to screw” begins and ends."""
    lead, *its = words[at].low.split(" ")
    told = any(one.sort is Sort.WORD for one in words[: at - 1])
    if not told or words[at].name is not None:
        return _NOWHERE
    if lead == "from":
        return at, _from_to(words, at)
    warm = any(one.dimension in _NO_LENGTHS for one in words[:at])
    if lead not in (_BESIDE if warm else _ALONG | _AT) or _stands_over(words, at):
        return _NOWHERE
    first, last = _noun(words, at + 1)
    led = first > at + 1 or bool({*its} & _ITS)
    noun = words[last - 1].low
    elsewhere = noun in known.names["things"] | known.clauses["as_told"]
    near = (
        words[at - 1].sort in FIGURES or last - first > 1
    )  # Too fat at the chuck end.
    border = noun in _BORDERS and near
    if not last or not led or elsewhere or (lead in _AT and not border):
        return _NOWHERE
    return (first if lead in ("in", *_AT) else at), last


_SLIGHT = 2


def _stands_over(words: list[Word], at: int) -> bool:
    """Tell “0.4 over the face”, by which it stands proud, from a size over all."""
    size = words[at - 1].quantities("mm")
    slight = bool(size) and size[0].unit == "mm" and size[0].value < _SLIGHT
    named = any("measures" in one.tags for one in words[:at])
    return words[at].low.split(" ")[0] == "over" and slight and not named


def _from_to(words: list[Word], at: int) -> int:
    _, last = _noun(words, at + 1)
    to = words[last] if last and last < len(words) else None
    joined = to is not None and to.low.split(" ")[0] == "to"
    return _noun(words, last + 1)[1] if joined else 0


def _instrument(words: list[Word], at: int) -> tuple[int, int]:
    """Give where the gauge of “by the feeler gauge” begins and ends."""
    if words[at].low.split(" ")[0] not in _BY or words[at].name is not None:
        return _NOWHERE
    first, last = _noun(words, at + 1, tools=True)
    reads = bool(last) and words[last - 1].low.endswith(_READERS)
    return (first, last) if reads else _NOWHERE


def _noun(words: list[Word], at: int, *, tools: bool = False) -> tuple[int, int]:
    """Give where a plain noun of a few words begins and ends that names no part."""
    while at < len(words) and words[at].low in _ITS:
        at += 1
    last = at
    while last < len(words) and _is_plain(words[last], tools=tools):
        last += 1
    return (at, last) if 0 < last - at < _LONGEST else _NOWHERE


def _is_plain(word: Word, *, tools: bool) -> bool:
    if word.sort is not Sort.WORD or word.name is not None or "material" in word.tags:
        return False
    noun = is_noun(word) or (tools and "instrument" in word.tags)
    return noun and word.low.split(" ")[0] != "to"
