"""Names of sizes that are words for things too: the belt of a bracket, and any belt.

Such a word is the name of the size only where its figure stands beside it. A name of
several words (bearing seat) is that of the size wherever it stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.lexicon import Lexicon


def without_things(words: list[Word], known: Lexicon) -> list[Word]:
    """Take the name of a size from words for things whose figure is not told here."""
    return [
        replace(word, name=None)
        if _is_thing(word, known) and not _has_figure(words[at + 1 : at + 3])
        else word
        for at, word in enumerate(words)
    ]


def _is_thing(word: Word, known: Lexicon) -> bool:
    if word.name is None or word.name.role != "characteristic":
        return False
    things = known.names["components"] | known.names["things"] | known.names["alone"]
    thing = word.low in things or "fastener" in word.tags
    thing = thing and " " not in word.low
    return thing and not word.tags & {"structure", "measures"}


def _has_figure(behind: Iterable[Word]) -> bool:
    """Tell whether a figure stands here, at most a mark or a small word before it."""
    row = [*behind]
    if row and (row[0].sort is Sort.MARK or row[0].tags & {"is", "place", "wanted"}):
        row = row[1:]
    return bool(row) and row[0].sort in FIGURES
