"""A line as a row of known words: names and set phrases found, figures told apart.

Misspelt names and verbs are read as what they are one slip away from; labels
(hole 3), counts (2 pieces), spelled durations (two hours) become one word each.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

from logbook.plain.figures import Sort, Word, cut
from logbook.plain.lexicon import NO_TAGS, Lexicon, lexicon
from logbook.plain.vocabulary import Name, Vocabulary
from logbook.records.told_settings import told_settings
from logbook.units import find_unit, is_unit


@dataclass(slots=True)
class Sentence:
    """The words of one line; `text` is the line as typed."""

    text: str
    words: list[Word]
    vocabulary: Vocabulary
    lexicon: Lexicon
    spans: dict[str, list[Word]] = field(default_factory=dict)

    def tagged(self, *tags: str) -> list[int]:
        """Give where words with any of the tags stand."""
        wanted = frozenset(tags)
        return [at for at, word in enumerate(self.words) if word.tags & wanted]

    def has(self, *tags: str) -> bool:
        """Tell whether any word carries one of the tags."""
        wanted = frozenset(tags)
        return any(word.tags & wanted for word in self.words)

    def named(self, role: str) -> list[int]:
        """Give where names of one role stand."""
        return [
            at
            for at, word in enumerate(self.words)
            if word.name is not None and word.name.role == role
        ]

    def sorts(self, *sorts: Sort) -> list[int]:
        """Give where figures of these sorts stand."""
        return [at for at, word in enumerate(self.words) if word.sort in sorts]

    def word(self, at: int) -> Word | None:
        """Give the word at a place, None outside the line."""
        return self.words[at] if 0 <= at < len(self.words) else None

    def tags(self, at: int) -> frozenset[str]:
        """Give the tags at a place, none outside the line."""
        return self.words[at].tags if 0 <= at < len(self.words) else NO_TAGS

    def between(self, first: int, last: int) -> str:
        """Give the typed text from one word to another, both included."""
        return self.text[self.words[first].start : self.words[last].end]

    def settings(self) -> list[Word]:
        """Give the words that tell how a thing was made: walls, nozzle, grit."""
        told = told_settings(self.text)
        return [
            word
            for word in self.words
            if word.name is None
            and any(one.start < word.end and word.start < one.end for one in told)
            and ("material" not in word.tags or word.sort is Sort.NUMBER)
        ]

    def note(self, fact: str, *words: Word) -> None:
        """Keep in which words a fact was read."""
        self.spans.setdefault(fact, []).extend(words)


def read_sentence(line: str, vocabulary: Vocabulary) -> Sentence:
    """Cut a line and find in it the project's names and the known phrases."""
    known = lexicon(vocabulary.language)
    words = cut(line, known.units, vocabulary.opened)
    while len(words) > 1 and words[-1].sort is Sort.MARK and words[-1].low in ".!…":
        words.pop()  # A stop that ends the line tells nothing.
    words = _phrases(words, vocabulary, known)
    for gather in (_sides, _too_so, _spelled_numbers, _labels, _counts, _pieces):
        words = gather(words, line)
    return Sentence(line, words, vocabulary, known)


def _join(line: str, words: Iterable[Word], **changes: object) -> Word:
    row = list(words)
    start, end = row[0].start, row[-1].end
    low = " ".join(word.low for word in row)
    return replace(
        row[0], text=line[start:end], low=low, start=start, end=end,
        **changes,  # type: ignore[arg-type]
    )  # fmt: skip


def _phrases(words: list[Word], vocabulary: Vocabulary, known: Lexicon) -> list[Word]:
    lows = [_corrected(word, vocabulary, known) for word in words]
    found: list[Word] = []
    at = 0
    while at < len(words):
        size, word = _longest(words, lows, at, vocabulary, known)
        found.append(word)
        at += size
    return found


def _longest(
    words: list[Word], lows: list[str], at: int, vocabulary: Vocabulary, known: Lexicon
) -> tuple[int, Word]:
    first = words[at]
    corrected = lows[at] != first.low
    named = vocabulary.longest(lows, at)
    if named:
        size, name = named
        phrase = known.longest(lows[: at + size], at)
        tags = phrase[1] if phrase and phrase[0] == size else NO_TAGS
        sort = Sort.WORD
        changes = {"sort": sort, "name": name, "tags": tags, "corrected": corrected}
        return size, _merge(words[at : at + size], changes)
    end = at + 1
    while end < len(lows) and not vocabulary.longest(lows, end):
        end += 1
    phrase = known.longest(lows[:end], at)
    if phrase and first.sort in (Sort.WORD, Sort.MARK):
        size, tags = phrase
        changes = {"tags": tags, "corrected": corrected}
        word = _merge(words[at : at + size], changes)
        word.low = " ".join(lows[at : at + size])
        return size, word
    code = known.longest(lows[: at + 1], at)
    if code and first.sort is Sort.NUMBER and "material" in code[1]:
        return 1, replace(first, sort=Sort.CODE, tags=code[1], amounts=())
    return 1, _done_again(first, known)


def _done_again(word: Word, known: Lexicon) -> Word:
    """Read an unknown “reprinted” as “printed”."""
    if word.sort is not Sort.WORD or not word.low.startswith("re"):
        return word
    verb = word.low.removeprefix("re").lstrip("-")
    for phrase, tags in known.phrases.get(verb, ()):
        if len(phrase) == 1 and tags & {"make", "close", "order_done"}:
            return replace(word, tags=tags)
    return word


def _merge(row: list[Word], changes: dict[str, object]) -> Word:
    text = row[0].text
    for before, word in itertools.pairwise(row):
        text += " " * (word.start - before.end) + word.text
    low = " ".join(word.low for word in row)
    return replace(row[0], text=text, low=low, end=row[-1].end, **changes)  # type: ignore[arg-type]


def _corrected(word: Word, vocabulary: Vocabulary, known: Lexicon) -> str:
    low = word.low
    if word.sort is not Sort.WORD or vocabulary.longest([low], 0):
        return low
    if right := known.put_right(low):
        return right
    if len(low) < 5 or len(low) > 24:
        return low
    if low in known.phrases or low in known.others or vocabulary.spells(low):
        return low
    return vocabulary.near(low) or known.near(low) or low


def _walk(
    words: list[Word], join: Callable[[list[Word], int], tuple[int, Word] | None]
) -> list[Word]:
    found: list[Word] = []
    at = 0
    while at < len(words):
        joined = join(words, at)
        found.append(joined[1] if joined else words[at])
        at += joined[0] if joined else 1
    return found


_AT_A = frozenset({"at", "on", "near", "by", "along"})
_BORDERS = frozenset({"edge", "end", "side", "corner", "rim", "lip"})


def _sides(words: list[Word], line: str) -> list[Word]:
    """Join the left edge of “21 thick at the left edge” as one place."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        following = words[at + 1] if at + 1 < len(words) else None
        before = words[max(0, at - 2) : at]
        led = any(one.low.split(" ")[0] in _AT_A for one in before)
        if "place" not in words[at].tags or words[at].name or not led:
            return None
        if following is None or following.low not in _BORDERS:
            return None
        joined = _join(line, words[at : at + 2])
        return 2, replace(joined, tags=frozenset({"place", "structure"}))

    return _walk(words, join)


_NOT_SO = frozenset({"much", "many", "soon", "late", "often", "far", "early", "long"})


def _too_so(words: list[Word], line: str) -> list[Word]:
    """Join “too tall” as one word that tells in which sense a size is off."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        following = words[at + 1] if at + 1 < len(words) else None
        if words[at].low != "too" or following is None or following.name:
            return None
        plain = following.sort is Sort.WORD and following.low not in _NOT_SO
        if not plain or following.tags & {"preposition", "article", "joiner"}:
            return None
        joined = _join(line, words[at : at + 2])
        return 2, replace(joined, tags=frozenset({"off", "off_strong", "too_bad"}))

    return _walk(words, join)


_SHARES = {"half": 30, "quarter": 15, "three quarters": 45}
_SHARE = r"(?:an? )?(?P<share>half|quarter|three quarters)"
_SPELLED_TIMES = tuple(
    re.compile(pattern)
    for pattern in (
        rf"(?:an? |(?P<whole>\w+) )?hours? and {_SHARE}(?! past)\b",
        rf"(?P<whole>\w+) and {_SHARE} hours?\b",
        rf"{_SHARE}(?: of)?(?: an)? hour\b",
    )
)
_MOST_WORDS_OF_A_TIME = 7


def _spelled_time(words: list[Word], at: int, line: str) -> tuple[int, Word] | None:
    """Read “an hour and a quarter”, “two and a half hours” as one duration."""
    if words[at].name is not None:
        return None
    row = words[at : at + _MOST_WORDS_OF_A_TIME]
    said = [" ".join(line[word.start : word.end].lower().split()) for word in row]
    text = " ".join(said)
    for pattern in _SPELLED_TIMES:
        match = pattern.match(text)
        minutes = _minutes_spelled(match) if match else None
        if match is None or minutes is None:
            continue
        ends = itertools.accumulate(len(word) + 1 for word in said)
        size = next((n for n, end in enumerate(ends, 1) if end == match.end() + 1), 0)
        if size > 1 or (size and "and" in match[0]):
            halves = minutes % 30 == 0
            joined = _join(line, row[:size], sort=Sort.NUMBER, tags=NO_TAGS, whole=None)
            amount = f"{minutes / 60:g}" if halves else str(minutes)
            unit = "h" if halves else "min"
            return size, replace(joined, amounts=(amount,), unit=unit)
    return None


def _minutes_spelled(match: re.Match[str]) -> int | None:
    told = match.groupdict()
    whole, share = told.get("whole"), _SHARES[match["share"]]
    if "whole" not in told:
        return share
    if whole in (None, "a", "an"):
        return 60 + share
    hours = int(whole) if whole.isdecimal() else lexicon().numbers.get(whole, 0)
    return hours * 60 + share if hours else None


def _spelled_numbers(words: list[Word], line: str) -> list[Word]:
    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        if spelled := _spelled_time(words, at, line):
            return spelled
        if word.tags & {"time:an_hour", "time:half_hour"}:
            half = "time:half_hour" in word.tags
            amount = "0.5" if half else "1"
            return 1, replace(word, sort=Sort.NUMBER, amounts=(amount,), unit="h")
        following = words[at + 1] if at + 1 < len(words) else None
        if (
            "time:half_a" in word.tags
            and following is not None
            and is_unit(following.text)
        ):
            unit = find_unit(following.text).symbol
            joined = _join(line, words[at : at + 2], sort=Sort.NUMBER, unit=unit)
            return 2, replace(joined, amounts=("0.5",), tags=NO_TAGS)
        if "number" not in word.tags or following is None:
            return None
        number = lexicon_number(word.low)
        unit = next(
            (
                unit
                for unit in ("h", "min", "d")
                if f"time:unit_{unit}" in following.tags
            ),
            "",
        )
        if unit:
            joined = _join(line, words[at : at + 2], sort=Sort.NUMBER, unit=unit)
            return 2, replace(joined, amounts=(str(number),), tags=NO_TAGS)
        return 1, replace(word, sort=Sort.ORDINAL, whole=number, text=word.text)

    return _walk(words, join)


def lexicon_number(word: str, language: str = "en") -> int:
    """Give the number a word spells."""
    return lexicon(language).numbers[word]


def _labels(words: list[Word], line: str) -> list[Word]:
    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        labels = word.tags & {"label:any", "label:small"}
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None or (word.name and not labels):
            return None
        if word.sort is Sort.NUMBER and "label:before" in following.tags:
            if word.whole is not None and not word.unit:
                return 2, _join(line, words[at : at + 2], sort=Sort.LABEL)
            return None
        if not labels and _numbers_a_size(words, at):
            return 2, _join(line, words[at : at + 2], sort=Sort.LABEL)
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
            return 4, _join(line, words[at : at + 4], sort=Sort.LABEL)
        small = "label:any" not in labels
        sized = fourth is not None and fourth.sort is Sort.NUMBER
        if _label_follows(word, following, after, small=small, figure_last=sized):
            return 2, _join(line, words[at : at + 2], sort=Sort.LABEL)
        return None

    return _walk(words, join)


def _numbers_a_size(words: list[Word], at: int) -> bool:
    """See the 1 of “diagonal 1 302.1”, which tells it from diagonal 2."""
    word, number = words[at], words[at + 1]
    figure = words[at + 2] if at + 2 < len(words) else None
    small = number.sort is Sort.NUMBER and not number.unit and number.whole is not None
    if "measures" not in word.tags or not small or not 0 < (number.whole or 0) < 10:
        return False
    return figure is not None and figure.sort is Sort.NUMBER and figure.has_decimals


def _label_follows(
    word: Word, following: Word, after: Word | None, *, small: bool, figure_last: bool
) -> bool:
    if "revision" in word.tags:
        short = len(following.text) <= 2 and following.text.isalnum()
        letter = following.text.isupper() or not following.tags & {"is", "article"}
        return (short and letter) or bool(re.fullmatch(r"[\d.]+|v\d+", following.low))
    if following.sort is not Sort.NUMBER or following.unit or following.whole is None:
        return False
    off = after is not None and bool(after.tags & {"length_adjective", "off_strong"})
    if off and not figure_last:
        return False
    return following.whole <= 20 if small else True


def _counts(words: list[Word], _: str) -> list[Word]:
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

    return _walk(words, join)


def _counts_of(words: list[Word], at: int) -> bool:
    """Tell whether “3 of 5” counts: the first number is whole too."""
    return at >= 0 and words[at].whole is not None and not words[at].unit


def _pieces(words: list[Word], line: str) -> list[Word]:
    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        word = words[at]
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None:
            return None
        if "ordinal" in word.tags or word.sort is Sort.ORDINAL:
            if following.name is None or following.name.role != "part":
                return None
            number = _ordinal(word)
            return _piece(words, at, line, following, number)
        if word.name is None or word.name.role != "part":
            return None
        if _numbers_a_piece(words, at):
            return _piece(words, at, line, word, following.whole)
        return None

    return _walk(words, join)


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
    joined = _join(line, words[at : at + 2], sort=Sort.WORD, name=called)
    return 2, replace(joined, tags=NO_TAGS, amounts=(), whole=None)


_ENDS_PIECE = frozenset({"length_adjective", "off_strong", "pieces", "fastener", "off"})


def _numbers_a_piece(words: list[Word], at: int) -> bool:
    """Tell whether the whole number behind a part name numbers a piece."""
    number = words[at + 1]
    if number.sort is not Sort.NUMBER or number.unit or number.whole is None:
        return False
    if not 0 < number.whole <= 20:
        return False
    rest = words[at + 2 :]
    if rest and any(word.tags & {"scrap", "rework"} for word in rest):
        return True
    if rest and (rest[0].tags & _ENDS_PIECE or rest[0].sort is Sort.TIMES):
        return _off_by_more(rest)
    if rest and (_is_plural(rest[0]) or "wanted" in rest[0].tags):
        return False
    led = any(
        word.tags & {"scrap", "rework", "repair", "give_back", "fail:past", "make:past",
                     "close:past", "take_back:past", "order_done"}
        for word in words[:at]
    )  # fmt: skip
    return led or bool(rest)


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
