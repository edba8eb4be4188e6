"""A line as a row of known words: names and set phrases found, figures told apart.

Misspelt names and verbs are read as what they are one slip away from.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, field, replace

from logbook.plain.words.between_labels import join_between
from logbook.plain.words.cutting import cut
from logbook.plain.words.degrees import heat_told
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.forms import join_forms
from logbook.plain.words.joined import join_short, join_where, join_words
from logbook.plain.words.lexicon import NO_TAGS, Lexicon, lexicon
from logbook.plain.words.noun_slips import noun_put_right
from logbook.plain.words.numbered import join_counts, join_labels, join_pieces
from logbook.plain.words.priced import join_priced
from logbook.plain.words.rated import TURNS, join_rated, tell_speeds
from logbook.plain.words.revised_to import join_revised
from logbook.plain.words.sized_things import without_things
from logbook.plain.words.spelled import join_spelled
from logbook.plain.words.states import tell_states
from logbook.plain.words.told_places import join_places
from logbook.plain.words.told_ways import join_ways
from logbook.plain.words.unlisted_verbs import by_what_it_is_made_of, work_on_a_part
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.making.told_settings import told_settings

_READ_TOO = frozenset({"speed", "feed", "stitch length"})
"""Settings that are measured too, and then held against what they should be."""


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
        if self.has("wanted", TURNS):  # Runs at 240 rpm, should be 250.
            told = tuple(one for one in told if one.name not in _READ_TOO)
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
    units = known.units
    if vocabulary.counts_feet:
        units = replace(units, never=units.never | {"feet"})
    if vocabulary.unit == "mm":  # 9 in from the edge: so far in, and no inches.
        units = replace(units, after_in=units.after_in - {"from"})
    words = cut(line, units, vocabulary.opened, vocabulary.figured)
    if vocabulary.commas:
        words = [_point_asked(word) for word in words]
    while len(words) > 1 and words[-1].sort is Sort.MARK and words[-1].low in ".!…":
        words.pop()  # A stop that ends the line tells nothing.
    words = join_short(words, line)
    words = without_things(_phrases(words, vocabulary, known), known)
    for gather in (
        _sides,
        _too_so,
        join_spelled,
        join_between,
        join_labels,
        join_revised,
        join_counts,
        join_pieces,
    ):
        words = gather(words, line)
    words = heat_told(work_on_a_part(words, known), vocabulary, known)
    words = join_forms(tell_states(words, line, known), line, known)
    for gather in (join_places, join_ways, join_rated, join_priced):
        words = gather(words, line)
    return Sentence(line, tell_speeds(words), vocabulary, known)


_THOUSANDS = re.compile(r"[1-9]\d{0,2}\.\d{3}")


def _point_asked(word: Word) -> Word:
    """Have 1.216 asked about where decimals are typed with commas: may be thousands."""
    [amount] = word.amounts if len(word.amounts) == 1 else ("",)
    if word.sort is not Sort.NUMBER or word.asks or not _THOUSANDS.fullmatch(amount):
        return word
    return replace(word, asks=(amount.replace(".", ""), amount))


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
    if corrected and first.low.isalpha() and vocabulary.spells(lows[at]):
        return 1, replace(first, low=lows[at], corrected=True)  # Wall trakc.
    if corrected and noun_put_right(first.low, known) == lows[at]:
        return 1, replace(first, low=lows[at])  # Baord: a noun as good as any.
    return 1, by_what_it_is_made_of(first, known)


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
    strange = low not in known.phrases and low not in known.others
    if strange and (short := vocabulary.shortened(low)):
        return short
    if len(low) < 5 or len(low) > 24:
        return low
    if low in known.phrases or low in known.others or vocabulary.spells(low):
        return low
    right = vocabulary.near(low) or known.near(low)
    return right or noun_put_right(low, known) or low


_AT_A = frozenset({"at", "on", "near", "by", "along"})
_BORDERS = frozenset({"edge", "end", "side", "corner", "rim", "lip"})


def _sides(words: list[Word], line: str) -> list[Word]:
    """Join the left edge of “21 thick at the left edge” as one place."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        before = words[max(0, at - 2) : at]
        led = any(one.low.split(" ")[0] in _AT_A for one in before)
        if "place" not in words[at].tags or words[at].name or not led:
            return None
        following = words[at + 1 : at + 2]
        if not following or following[0].low.split(" ")[-1] not in _BORDERS:
            return None
        joined = join_words(line, [words[at], *following])
        return 2, replace(joined, tags=frozenset({"place", "structure"}))

    return join_where(words, join)


_NOT_SO = frozenset({"much", "many", "soon", "late", "often", "far", "early", "long"})


_OF_SIZES = frozenset({
    "long", "short", "wide", "narrow", "thick", "thin", "tall", "deep", "tight",
    "loose", "big", "small", "large",
})  # fmt: skip
"""What is often typed behind “to” where “too” is meant."""


def _too_so(words: list[Word], line: str) -> list[Word]:
    """Join “too tall” as one word that tells in which sense a size is off."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None or following.name:
            return None
        slip = words[at].low == "to" and following.low in _OF_SIZES
        if slip:
            joined = join_words(line, words[at : at + 2])
            off = frozenset({"off", "off_strong", "too_bad"})
            return 2, replace(joined, low=f"too {following.low}", tags=off)
        if words[at].low != "too":
            return None
        plain = following.sort is Sort.WORD and following.low not in _NOT_SO
        if not plain or following.tags & {"preposition", "article", "joiner"}:
            return None
        joined = join_words(line, words[at : at + 2])
        return 2, replace(joined, tags=frozenset({"off", "off_strong", "too_bad"}))

    return join_where(words, join)


STUFF = frozenset({"material", "fastener", "stock_form"})
"""The tags of what a thing is made of, or put together with."""


def parts_named(sentence: Sentence) -> list[int]:
    """Give where parts and pieces are named."""
    return [*sentence.named("part"), *sentence.named("piece")]
