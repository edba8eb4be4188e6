"""Numbers that name or count: hole 3, base 2, 4 pieces, the second mask."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.joined import join_where, join_words
from logbook.plain.words.lexicon import NO_TAGS, lexicon
from logbook.plain.words.numbers_in_a_row import MOST_PIECES, several_pieces
from logbook.plain.words.spoken import Name
from logbook.plain.words.told_by_number import (
    is_revision_label,
    numbers_a_size,
    numbers_two,
)


def join_labels(words: list[Word], line: str) -> list[Word]:
    """Join hole 3, layers 20 and 21, rev B."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        labels = word.tags & {"label:any", "label:small"}
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None or (word.name and not labels):
            return None
        if word.sort is Sort.NUMBER and "label:before" in following.tags:
            if word.whole is not None and not word.unit:
                return 2, join_words(line, words[at : at + 2], sort=Sort.LABEL)
            return None
        if numbers_two(words, at):
            return 4, join_words(line, words[at : at + 4], sort=Sort.LABEL)
        if not labels and numbers_a_size(words, at):
            return 2, join_words(line, words[at : at + 2], sort=Sort.LABEL)
        if not labels:
            return None
        after = words[at + 2] if at + 2 < len(words) else None
        fourth = words[at + 3] if at + 3 < len(words) else None
        if (
            "label:any" in labels
            and after is not None
            and after.low in ("and", "-", ",", "&")
            and fourth is not None
            and fourth.whole is not None
            and following.whole is not None
        ):
            return 4, join_words(line, words[at : at + 4], sort=Sort.LABEL)
        small = "label:any" not in labels
        sized = fourth is not None and fourth.sort is Sort.NUMBER
        if _label_follows(word, following, after, small=small, figure_last=sized):
            return 2, join_words(line, words[at : at + 2], sort=Sort.LABEL)
        return None

    return join_where(words, join)


def _label_follows(
    word: Word, following: Word, after: Word | None, *, small: bool, figure_last: bool
) -> bool:
    if "revision" in word.tags:
        return is_revision_label(following)
    if word.low in ("release", "version") and not following.unit:
        return bool(re.fullmatch(r"v?\d+(?:\.\d+)*", following.low))
    if following.sort is not Sort.NUMBER or following.unit or following.whole is None:
        return False
    if small and after is not None and after.low in ("more", "spare", "extra"):
        return False  # Bend 2 spare brackets.
    off = after is not None and bool(after.tags & {"length_adjective", "off_strong"})
    if off and not figure_last:
        return False
    return following.whole <= 20 if small else True


def join_counts(words: list[Word], _: str) -> list[Word]:
    """Tell whole numbers that count something."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        if word.sort not in (Sort.NUMBER, Sort.ORDINAL) or word.whole is None:
            return None
        if word.unit or (word.sort is Sort.ORDINAL and word.low[:1].isdigit()):
            return None
        before = words[at - 1] if at else None
        if before is not None and before.low == "of" and _counts_of(words, at - 2):
            return 1, replace(word, sort=Sort.COUNT)
        if before is not None and before.name and before.name.role == "part":
            after = words[at + 1] if at + 1 < len(words) else None
            if after is None or "pieces" not in after.tags:
                return None
        size = _counted_size(words, at)
        if size:
            return 1, replace(word, sort=Sort.COUNT)
        return None

    return join_where(words, join)


def _counts_of(words: list[Word], at: int) -> bool:
    """Tell whether “3 of 5” counts: the first number is whole too."""
    return at >= 0 and words[at].whole is not None and not words[at].unit


def join_pieces(words: list[Word], line: str) -> list[Word]:
    """Join base 2 and the second base as names of a piece."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None:
            return None
        counts = "number" in word.tags  # One mask: not the first of them.
        if ("ordinal" in word.tags or word.sort is Sort.ORDINAL) and not counts:
            if following.name is None or following.name.role != "part":
                return None
            number = _ordinal(word)
            return _piece(words, at, line, following, number)
        if word.name is None or word.name.role != "part":
            return None
        if size := several_pieces(words, at):
            return size, _pieces(words[at : at + size], line)
        if _numbers_a_piece(words, at):
            return _piece(words, at, line, word, following.whole)
        return None

    return join_where(words, join)


def _ordinal(word: Word) -> int | None:
    if word.whole is not None:
        return word.whole
    return lexicon().ordinals.get(word.low)


def _piece(
    words: list[Word], at: int, line: str, part: Word, number: int | None
) -> tuple[int, Word] | None:
    if number is None or part.name is None:
        return None
    called = Name("piece", f"{part.name.thing} {number}", part.name.thing)
    joined = join_words(line, words[at : at + 2], sort=Sort.WORD, name=called)
    return 2, replace(joined, tags=NO_TAGS, amounts=(), whole=None)


def _pieces(row: list[Word], line: str) -> Word:
    """Join a part and the numbers of several of its pieces as their one name."""
    part = row[0].name
    assert part is not None
    wholes = [word.whole or 0 for word in row[1::2]]
    if row[2].low in ("-", "to"):
        wholes = [*range(wholes[0], wholes[1] + 1)]
    numbers = ", ".join(map(str, wholes))
    called = Name("piece", f"{part.thing} {numbers}", part.thing)
    joined = join_words(line, row, sort=Sort.WORD, name=called)
    return replace(joined, tags=NO_TAGS, amounts=(), whole=None)


_ENDS_PIECE = frozenset({"length_adjective", "off_strong", "pieces", "fastener", "off"})


def _numbers_a_piece(words: list[Word], at: int) -> bool:
    """Tell whether the whole number behind a part name numbers a piece."""
    number = words[at + 1]
    if number.sort is not Sort.NUMBER or number.unit or number.whole is None:
        return False
    if not 0 < number.whole <= MOST_PIECES:
        return False
    rest = words[at + 2 :]
    if rest and any(word.tags & {"scrap", "waste", "rework"} for word in rest):
        return True
    if rest and (rest[0].tags & _ENDS_PIECE or rest[0].sort is Sort.TIMES):
        return _off_by_more(rest)
    if rest and (_is_plural(rest[0]) or "wanted" in rest[0].tags):
        return False
    led = any(
        word.tags & {"scrap", "waste", "rework", "repair", "give_back", "fail:past",
                     "make:past", "close:past", "take_back:past", "order_done"}
        for word in words[:at]
    )  # fmt: skip
    broke = any(word.tags & {"fail", "defect"} for word in words[:at])
    inside = at > 0 and words[at - 1].low.split(" ")[-1] in ("of", "in", "on", "from")
    return led or (broke and inside) or bool(rest)


def _off_by_more(rest: list[Word]) -> bool:
    """Tell whether another figure is how far it is off: out of square by 0.8."""
    return "off_strong" in rest[0].tags and any(
        word.low == "by" and following.sort is Sort.NUMBER
        for word, following in itertools.pairwise(rest)
    )


def _counted_size(words: list[Word], at: int) -> int:
    """Give how many words on the counted thing stands, 0 when nothing is counted."""
    for ahead in (1, 2, 3):
        word = words[at + ahead] if at + ahead < len(words) else None
        if word is None:
            return 0
        if "pieces" in word.tags:
            return ahead if word.low != "off" or _so_many_off(words, at) else 0
        if word.low == "of" and ahead == 1:
            return 1
        if word.sort is Sort.THREAD or _is_plural(word):
            return ahead
        if word.sort is Sort.CODE and at + ahead + 1 < len(words):
            continue
        if not (word.tags & {"adjective", "fastener", "material"} or not word.tags):
            return 0
        if word.sort is not Sort.WORD:
            return 0
    return 0


def _so_many_off(words: list[Word], at: int) -> bool:
    """Tell the pieces of “4 off” and “4 off 12.05 long” from 2 off the width."""
    behind = words[at + 2] if at + 2 < len(words) else None
    if behind is None or behind.sort is Sort.MARK:
        return True
    before = words[at - 1] if at else None
    led = before is None or before.sort is Sort.MARK
    made = before is not None and bool(before.tags & {"make", "order_done"})
    noun = behind.sort in (Sort.NUMBER, Sort.SIZE, Sort.THREAD, Sort.GAUGE)
    plain = behind.sort is Sort.WORD and not behind.tags & {"article", "preposition"}
    takes = before is not None and "take_back" in before.tags
    return (led or made) and not takes and (noun or plain)


def _is_plural(word: Word) -> bool:
    if word.sort is not Sort.WORD or not word.low.endswith("s"):
        return False
    if (
        word.low.endswith("ss")
        or len(word.low) < 4
        or word.low in ("plus", "less", "thus")
    ):
        return False
    if word.name is not None:
        return word.name.role == "part" and word.low != word.name.thing.lower()
    allowed = {
        "fastener",
        "structure",
        "generic",
        "material",
        "adjective",
        "label:small",
    }
    return not word.tags or (bool(word.tags & allowed) and "off" not in word.tags)
