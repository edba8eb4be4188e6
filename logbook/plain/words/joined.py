"""Several words of a line joined into one."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from logbook.plain.words.figures import Word


def join_words(line: str, words: Iterable[Word], **changes: object) -> Word:
    """Give several words as one."""
    row = list(words)
    start, end = row[0].start, row[-1].end
    low = " ".join(word.low for word in row)
    return replace(
        row[0], text=line[start:end], low=low, start=start, end=end,
        **changes,  # type: ignore[arg-type]
    )  # fmt: skip


def join_where(
    words: list[Word], join: Callable[[list[Word], int], tuple[int, Word] | None]
) -> list[Word]:
    """Go through the words, joining where `join` says how many are one."""
    found: list[Word] = []
    at = 0
    while at < len(words):
        joined = join(words, at)
        found.append(joined[1] if joined else words[at])
        at += joined[0] if joined else 1
    return found
