"""Between which two numbered places it was read: hole 8 and 11, holes 3 to 4."""

from __future__ import annotations

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.joined import join_where, join_words

_LED = frozenset({"between", "between the", "from", "spacing", "distance", "pitch",
                  "centres", "centers", "apart"})  # fmt: skip
_JOINS = frozenset({"and", "to", "&", "-", "and the", "to the"})
_MOST = 40


def join_between(words: list[Word], line: str) -> list[Word]:
    """Join both numbers with what they number, where a figure of their own follows."""

    def join(words: list[Word], at: int) -> tuple[int, Word] | None:
        if not at or words[at - 1].low not in _LED or not _is_place(words[at]):
            return None
        last = at + 3
        if last < len(words) and _is_place(words[last]):
            last += 1  # From hole 2 to hole 5.
        if last >= len(words) or words[at + 2].low not in _JOINS:
            return None
        numbered = _is_number(words[at + 1]) and _is_number(words[last])
        read = any(word.sort is Sort.NUMBER for word in words[last + 1 :])
        if not numbered or not read:
            return None
        joined = join_words(line, words[at : last + 1], sort=Sort.LABEL)
        return last + 1 - at, joined

    return join_where(words, join)


def _is_place(word: Word) -> bool:
    return (
        bool(word.tags & {"label:small", "structure", "fastener"}) and word.name is None
    )


def _is_number(word: Word) -> bool:
    return word.whole is not None and not word.unit and word.whole <= _MOST
