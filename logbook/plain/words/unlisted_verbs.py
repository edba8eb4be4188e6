"""Verbs no list has, known by what they are made of or by where they stand.

“Match-drilled” is drilled, “overcut” went wrong; “fettled the base” is work, whatever
fettling is, where nobody would so tell of a mishap, and so is “rubbed the lid down”.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import NO_TAGS, Lexicon

_WORK = frozenset({"make", "close", "rework"})
_FAILED = frozenset({"fail", "fail:past"})
_DONE = frozenset({"make", "make:past"})
_AMISS = ("mis", "over", "under")
_LED = frozenset({"and", "then", "i", "we", "have", "had", "just", "also", "finally"})
_BETWEEN = frozenset(
    {"up", "down", "out", "off", "in", "back", "over", "together", "and", "adjective"}
)  # fmt: skip

_PAPERS = frozenset(
    {"drawing", "drawings", "dxf", "stl", "file", "files", "picture", "photo", "sketch",
     "model", "price", "cost", "plan", "page", "story", "video", "order", "idea"}
)  # fmt: skip
"""What goes by the name of a part and is none: the lid drawing."""


def by_what_it_is_made_of(word: Word, known: Lexicon) -> Word:
    """Read “reprinted” as printed, “wire-brushed” as brushed, “overcut” as failing."""
    if word.sort is not Sort.WORD:
        return word
    for start in ("re", *_AMISS):
        verb = word.low.removeprefix(start).lstrip("-")
        if verb == word.low:
            continue
        tags = _of_work(verb, known)
        if start == "re" and tags | _tags(verb, known) & {"order_done"}:
            return replace(word, tags=_tags(verb, known))
        if start != "re" and any(tag.endswith(":past") for tag in tags):
            return replace(word, tags=_FAILED)
    first, hyphen, last = word.low.rpartition("-")
    tags = _of_work(last, known) if hyphen and first.isalpha() else NO_TAGS
    return replace(word, tags=_tags(last, known)) if tags else word


def _tags(verb: str, known: Lexicon) -> frozenset[str]:
    rows = known.phrases.get(verb, ())
    return next((tags for phrase, tags in rows if len(phrase) == 1), NO_TAGS)


def _of_work(verb: str, known: Lexicon) -> frozenset[str]:
    """Give the tags of a verb of work, none of any other word."""
    tags = _tags(verb, known)
    return tags if tags & _WORK and tags.isdisjoint({"fail", "material"}) else NO_TAGS


def work_on_a_part(words: list[Word], known: Lexicon) -> list[Word]:
    """Read an unknown past before a known part as work done: fettled the base."""
    done = {
        at for at in _begin(words) if _is_done(words, at, known) or _is_meant(words, at)
    }
    return [
        replace(word, tags=_DONE) if at in done else word
        for at, word in enumerate(words)
    ]


_MEANT = {
    "rubbed": frozenset({"down", "back", "over", "with", "off", "in", "dry", "clean"}),
    "scuffed": frozenset({"up", "with", "over", "before"}),
    "blew": frozenset({"out", "off", "down", "clean", "with", "dry"}),
    "gave": frozenset({"a", "its", "one", "two", "another", "some"}),
}
"""What tells of work where a known part and one of these words stand behind it."""


def _is_meant(words: list[Word], at: int) -> bool:
    """See “rubbed the lid down”, “gave the base a rub”: meant, no mishap."""
    behind = _MEANT.get(words[at].low)
    part = at + 2 if at + 1 < len(words) and "article" in words[at + 1].tags else at + 1
    rest = words[part : part + 4]
    if behind is None or len(rest) < len("ab") or rest[0].name is None:
        return False
    return rest[1].low in behind and not any("fail" in word.tags for word in rest)


def _begin(words: list[Word]) -> Iterator[int]:
    """Go through the places where a clause begins, past what leads to its verb."""
    begins = True
    for at, word in enumerate(words):
        if begins:
            yield at
        begins = word.sort is Sort.MARK or word.low in _LED


def _is_done(words: list[Word], at: int, known: Lexicon) -> bool:
    word = words[at]
    plain = word.sort is Sort.WORD and word.name is None and not word.tags
    if not plain or len(word.low) < len("oiled") or not word.low.endswith("ed"):
        return False
    if word.low in known.clauses["happens"] | known.clauses["no_work"]:
        return False
    end = at + 1
    while end < min(len(words) - 1, at + 4) and (
        words[end].low in _BETWEEN or words[end].tags & {"article", "adjective"}
    ):
        end += 1
    name = words[end].name if end < len(words) else None
    if end == at + 1 or name is None or name.role not in ("part", "piece"):
        return False
    return end + 1 == len(words) or words[end + 1].low not in _PAPERS
