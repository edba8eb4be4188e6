"""A part told by nothing but its name, so that it is one: “part board”."""

from __future__ import annotations

import re

from logbook.plain.named.ends_of_names import LONGEST_NAME
from logbook.plain.understanding import Facts, Kind, Span, Understanding
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.vocabulary import Vocabulary

_TOLD = re.compile(r"(?i)^\s*part\s*:?\s+(?P<name>\S.*?)\s*$")
_NO_NOUN = frozenset(
    {
        "article", "preposition", "joiner", "generic", "is", "negation", "negative",
        "fail", "fit", "todo", "off", "off_strong", "time", "absent", "place",
    }
)  # fmt: skip
_OF_NAMES = frozenset({"structure", "material", "stock_form", "fastener"})


def part_told_alone(line: str, vocabulary: Vocabulary) -> Understanding | None:
    """Give the new part that a line names and tells nothing else of, if it does."""
    told = _TOLD.match(line)
    if told is None:
        return None
    sentence = read_sentence(told["name"], Vocabulary(vocabulary.now))
    words = sentence.words
    lead = 1 if len(words) > 1 and _is_letter(words[0]) else 0  # Z nut.
    rest = words[lead:]
    if not 0 < len(words) <= LONGEST_NAME or any(map(_no_noun, rest)):
        return None
    names = sentence.lexicon.names
    last = words[-1]
    known = names["heads"] | names["alone"] | names["things"]
    if last.tags and not last.tags & _OF_NAMES and last.low not in known:
        return None
    said = tuple(word.low for word in words)
    found = vocabulary.longest(said, 0)
    offered = found is not None and found[0] == len(said)
    title = (
        found[1].thing
        if found is not None and offered
        else " ".join(told["name"].split())
    )
    slip = not vocabulary.containing(said) and vocabulary.misspelt(said)
    if title in vocabulary.parts or (not offered and slip):
        return None
    span = Span(told.start("name"), told.end("name"))
    facts = Facts(part=title, part_is_new=True)
    return Understanding(line, Kind.DRAWN, 0.95, facts, {"part": (span,)})


def _is_letter(word: Word) -> bool:
    """Tell a letter that begins a name from the “a” before one."""
    return len(word.text) == 1 and word.text.isalpha() and "article" not in word.tags


def _no_noun(word: Word) -> bool:
    """Tell a word that no name has: broke, the, of, 3."""
    verb = any(tag.endswith((":past", ":now", ":ing")) for tag in word.tags)
    short = len(word.low) < 3
    named = word.sort in (Sort.WORD, Sort.THREAD)  # M5x12 is bought by that name.
    return not named or verb or short or bool(word.tags & _NO_NOUN)
