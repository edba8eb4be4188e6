"""Names with figures in them, told apart before the line is cut into figures.

The 2mL of “2mL tube rack” is no volume, the 15-50 of “15-50mL tube rack” no size: a
figure that stands in a name, before the words it has there, is a word of it. A name is
known by its file too: “2mL tube rack.stl”.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.spoken import spoken

_ENDING = r"\.(?:dxf|stl|step|stp|svg|pdf|3mf)\b|-(?=\d{1,3}(?![\w.,]))"
"""What may stand behind a name: the ending of its file, the hyphen of a piece."""
_BETWEEN = r"[\s_.,/-]{1,3}"
_FIGURES = re.compile(r"\d+")
_BLANK = re.compile(r"[\s_.,/-]+")


@dataclass(frozen=True, slots=True)
class NameWords:
    """The words of a name, or of its beginning, in a line, and where they end.

    A file's ending behind them is no word of the line.
    """

    words: tuple[Word, ...]
    end: int


class FiguredNames:
    """Names that have figures, found in lines as they are typed."""

    def __init__(
        self, names: Iterable[str], others: FiguredNames | None = None
    ) -> None:
        """Keep those of the names that have a figure, and `others` behind them."""
        self._names = tuple(
            name for name in names if any(sign.isdigit() for sign in name)
        )
        self._others = others

    @cached_property
    def _rows(self) -> Mapping[str, list[tuple[str, ...]]]:
        """The rows of words to look for, by the first figures in each."""
        found: dict[str, list[tuple[str, ...]]] = defaultdict(list)
        for name in self._names:
            for row in _rows_of(spoken(name)):
                first = _FIGURES.search(" ".join(row))
                if first is not None:
                    found[first[0]].append(row)
        return {
            key: sorted({*rows}, key=lambda row: (-len(row), row))
            for key, rows in found.items()
        }

    def prepare(self) -> None:
        """Work out what finding asks for."""
        _ = self._rows

    def beginning(self, figures: str) -> Iterator[tuple[str, ...]]:
        """Go through the rows of words whose first figures these are."""
        yield from self._rows.get(figures, ())
        if self._others is not None:
            yield from self._others.beginning(figures)

    def find(self, line: str) -> Iterator[NameWords]:
        """Find names in a line with plain signs, from left to right."""
        low = line.lower()
        squeezed = _BLANK.sub("", low)
        at = 0
        for figures in _FIGURES.finditer(low):
            if figures.start() < at:
                continue
            for row in self.beginning(figures[0]):
                if not all(_BLANK.sub("", word) in squeezed for word in row):
                    continue
                found = _found(row, line, at, figures.start())
                if found is not None:
                    at = found.end
                    yield found
                    break


def _rows_of(name: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Give a name, and the figures in it that a line would read otherwise.

    Those are told by the word that follows them, which is not itself taken: the last
    word of such a row is only looked at, and marked by an empty one behind it.
    """
    if len(name) > 1 or _is_figured(name[0]):
        yield tuple(name)
    at = 0
    while at < len(name):
        end = at
        while end < len(name) and any(sign.isdigit() for sign in name[end]):
            end += 1
        if at < end < len(name) and any(_is_figured(one) for one in name[at:end]):
            yield (*name[at : end + 1], "")
        at = end + 1


def _is_figured(word: str) -> bool:
    """Tell a figure with letters behind it, which a line reads as one with a unit."""
    return word[0].isdigit() and not word[-1].isdigit()


def _found(row: tuple[str, ...], line: str, start: int, over: int) -> NameWords | None:
    """Find a row of words, from `start` on, that covers the figures at `over`."""
    for match in _pattern(row).finditer(line, start):
        if match.start() <= over < match.end():
            words = tuple(
                Word(text, said, *match.span(at), Sort.WORD)
                for at, said in enumerate(_taken(row), 1)
                if (text := match[at])
            )
            return NameWords(words, match.end())
    return None


def _taken(row: tuple[str, ...]) -> tuple[str, ...]:
    return row[:-2] if row[-1] == "" else row


@cache
def _pattern(row: tuple[str, ...]) -> re.Pattern[str]:
    spelled = [f"({_spelled(word)})" for word in _taken(row)]
    ends = rf"(?={_BETWEEN}{re.escape(row[-2])}(?!\w))" if row[-1] == "" else ""
    tail = ends or rf"(?!\w)(?:{_ENDING})?"
    return re.compile(rf"(?i)(?<![\w.,]){_BETWEEN.join(spelled)}{tail}")


def _spelled(word: str) -> str:
    """Give how a word is typed: 2 mL for 2mL too."""
    return re.sub(r"(?<=\d)(?=[^\W\d_])", r"\\s?", re.escape(word))
