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
    said = {"text": line[start:end], "low": low, "start": start, "end": end}
    return replace(row[0], **{**said, **changes})  # type: ignore[arg-type]


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


_WITH = {"w/o": "without", "w/": "with"}


def join_short(words: list[Word], line: str) -> list[Word]:
    """Read “w/” and “w/o” as what they are short for: 410 g w/ the screws in."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        for short, meant in _WITH.items():
            row = words[at : at + len(short)]
            said = "".join(one.low for one in row)
            end = row[0].start + len(short)
            last = line[end : end + 1]
            ends = last in ("", " ", ",", ";") or (meant == "with" and last.isdigit())
            if said != short or row[-1].end != end or not ends:
                continue
            return len(row), join_words(line, row, low=meant, sort=row[0].sort)
        return None

    return join_where(words, join)
