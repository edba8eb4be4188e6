"""The revision that a part is brought to: revised the foot to B, bumped it to v2."""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.told_by_number import is_revision_label


def revising_at(words: list[Word]) -> int | None:
    """Give where a line says that it revises: revised, I have redrawn, new rev B of."""
    verbs = lexicon().clauses["revising"]
    for at, word in enumerate(words[:3]):
        label = word.sort is Sort.LABEL and "revision" in word.tags
        opened = at > 0 and "opens_revision" in words[at - 1].tags
        if label:
            return at if word.low.startswith("new ") or opened else None
        if word.name is not None or word.sort is not Sort.WORD:
            return None
        if word.low in verbs:
            return at
    return None


def join_revised(words: list[Word], _: str) -> list[Word]:
    """Make the B of “revised the foot to B” a label, as that of “rev B” is one."""
    first = revising_at(words)
    if first is None or words[first].sort is Sort.LABEL:
        return words
    for at in range(first + 2, len(words)):
        word, before = words[at], words[at - 1]
        part = before.name is not None and before.name.role == "part"
        led = before.low in ("to", "as", "into") or part
        plain = word.sort is Sort.WORD and word.name is None and not word.unit
        letter = word.text.isupper() or (word.low.startswith("v") and not part)
        if led and plain and letter and is_revision_label(word):
            tags = frozenset({"revision"})
            return [
                *words[:at],
                replace(word, sort=Sort.LABEL, tags=tags),
                *words[at + 1 :],
            ]
    return words
