"""The project's own words: what its parts, pieces, places and instruments are called.

Whoever holds the records fills a `Vocabulary`; this layer knows no records.
"""

from __future__ import annotations

import re
from collections import ChainMap
from collections.abc import Iterator, Mapping, MutableMapping, Sequence
from copy import copy
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property

from logbook.plain.words.day_said import DaySaid
from logbook.plain.words.figured_names import FiguredNames, NameWords
from logbook.plain.words.lexicon import one_slip
from logbook.plain.words.part_titles import PartTitles
from logbook.plain.words.spoken import (
    Name,
    spoken,
    spoken_ways,
    without_number,
    without_units,
)

_LONGEST = 10
"""So many words of a name are looked for before the ending of a file."""
_FILE = re.compile(
    r"(?i)(?<![\w/.])(?P<folder>(?:[\w-]+/)*)(?P<stem>[\w-]+)"
    r"(?P<ending>\.(?:dxf|stl|step|stp|svg|pdf|3mf)\b)"
)


@dataclass(frozen=True)
class Vocabulary(PartTitles):
    """The names of a project, its unit and the clock.

    `parts` maps a part to its other names; `characteristics` and `pieces` map
    a part to the names of its dimensions and pieces. `now` carries its offset.
    `numbered` gives the steps of the order of work by their numbers.
    `day` is the one that was said for what is typed, where it tells none by itself;
    `commas` that sizes are typed with decimal commas here.
    `proposed` are the parts, with their other names, that design files speak of
    and nobody has made yet.
    """

    now: datetime
    parts: Mapping[str, Sequence[str]] = field(default_factory=dict)
    proposed: Mapping[str, Sequence[str]] = field(default_factory=dict)
    characteristics: Mapping[str, Sequence[str]] = field(default_factory=dict)
    pieces: Mapping[str, Sequence[str]] = field(default_factory=dict)
    builds: Sequence[str] = ()
    places: Sequence[str] = ()
    machines: Sequence[str] = ()
    instruments: Sequence[str] = ()
    stocks: Sequence[str] = ()
    steps: Sequence[str] = ()
    numbered: Mapping[int, str] = field(default_factory=dict)
    unit: str = "mm"
    language: str = "en"
    day: DaySaid | None = None
    commas: bool = False

    def on(self, day: DaySaid | None) -> Vocabulary:
        """Give the same names for lines of a day that was said once for them."""
        return self.keeping(day=day)

    def at(self, now: datetime) -> Vocabulary:
        """Give the same names at another instant."""
        return self.keeping(now=now)

    def keeping(self, **changed: object) -> Vocabulary:
        """Give the same names with something else told; what is worked out is kept."""
        made = copy(self)
        for name, value in changed.items():
            object.__setattr__(made, name, value)
        return made

    def prepare(self) -> None:
        """Work out what understanding asks for, where no key waits for it."""
        _ = self._names, self._buckets, self._hyphened, self._titles, self._alike
        _ = self._titles_with, self._ends, self.counts_feet
        self._figured.prepare()

    @cached_property
    def _names(self) -> MutableMapping[str, list[tuple[tuple[str, ...], Name]]]:
        found: dict[tuple[str, ...], Name] = {}
        for words, name in self._spoken():
            if words:
                found.setdefault(words, name)
        first: dict[str, list[tuple[tuple[str, ...], Name]]] = {}
        for words, name in found.items():
            first.setdefault(words[0], []).append((words, name))
        for rows in first.values():
            rows.sort(key=lambda row: -len(row[0]))
        return first

    def _spoken(self) -> Iterator[tuple[tuple[str, ...], Name]]:
        for part, others in (*self.parts.items(), *self.proposed.items()):
            for called in (part, *others):
                yield from spoken_ways(called, Name("part", part))
        for part, names in self.pieces.items():
            for called in names:
                yield spoken(called), Name("piece", called, part)
        for role, group in (
            ("instrument", self.instruments),
            ("machine", self.machines),
            ("stock", self.stocks),
            ("place", self.places),
            ("build", self.builds),
            ("step", self.steps),
        ):
            for called in group:
                yield spoken(called), Name(role, called)
                yield without_units(spoken(called)), Name(role, called)
        yield from self._spoken_characteristics()

    def _spoken_characteristics(self) -> Iterator[tuple[tuple[str, ...], Name]]:
        owners: dict[tuple[str, ...], list[Name]] = {}
        for part, names in self.characteristics.items():
            for called in names:
                name = Name("characteristic", called, part)
                owners.setdefault(spoken(called), []).append(name)
        for words, found in owners.items():
            one = found[0]
            yield words, one if len(found) == 1 else Name(one.role, one.thing)

    @cached_property
    def _buckets(self) -> dict[tuple[str, int], list[str]]:
        found: dict[tuple[str, int], list[str]] = {}
        for rows in self._names.values():
            for words, _ in rows:
                for word in words:
                    if len(word) >= 5 and word.isalpha():
                        alike = found.setdefault((word[0], len(word)), [])
                        alike += [] if word in alike else [word]
        return found

    @cached_property
    def _hyphened(self) -> re.Pattern[str] | None:
        every = [
            *self.parts,
            *self.proposed,
            *(name for names in self.pieces.values() for name in names),
        ]
        named = [re.escape(name) for name in every if "-" in name.strip("-")]
        # The piece to come is called base-2 too, as the records name pieces.
        named += [rf"{re.escape(name)}-\d{{1,3}}" for name in self.parts]
        if not named:
            return None
        named.sort(key=len, reverse=True)
        called = "|".join(named)
        return re.compile(rf"(?i)(?<![\w-])(?:{called})(?:e?s)?(?![\w-]|[.,]\d)")

    def opened(self, line: str) -> str:
        """Give the line, place for place, with hyphens of known names as blanks.

        So is the ending of a file that has the name of a part, and its folder.
        """
        if "-" in line and self._hyphened is not None:
            line = self._hyphened.sub(lambda match: match[0].replace("-", " "), line)
        return _FILE.sub(self._without_ending, line) if "." in line else line

    def _without_ending(self, file: re.Match[str]) -> str:
        """Blank the folder and the ending of a file, where a part has its name."""
        words = spoken(file.string[: file.end("stem")])
        known = any(
            words[at:] == name
            for at in range(max(0, len(words) - _LONGEST), len(words))
            for name, named in self._names.get(words[at], ())
            if named.role == "part"
        )
        if not known:
            return file[0]
        return " " * len(file["folder"]) + file["stem"] + " " * len(file["ending"])

    @cached_property
    def _figured(self) -> FiguredNames:
        return FiguredNames(
            called
            for names in (self.parts, self.proposed)
            for part, others in names.items()
            for called in (part, *others)
        )

    def figured(self, line: str) -> Iterator[NameWords]:
        """Find in a line with plain signs the words of names that have figures."""
        return self._figured.find(line)

    def longest(self, words: Sequence[str], start: int) -> tuple[int, Name] | None:
        """Give how many words of the longest name begin here, and what it names."""
        for name_words, name in self._names.get(words[start], ()):
            if tuple(words[start : start + len(name_words)]) == name_words:
                return len(name_words), name
        return None

    def with_part(
        self, words: tuple[str, ...], part: str = "", role: str = "part"
    ) -> Vocabulary:
        """Give this vocabulary with one more name, of `part` or of a part so called.

        A name of another `role` is of no part.
        """
        called = " ".join(words)
        named = Name(role, part or called)
        known = named.thing in self.parts or named.thing in self.proposed
        known = known or role != "part"
        wider = self if known else replace(self, parts={**self.parts, called: ()})
        wider = replace(wider)
        newer: dict[str, list[tuple[tuple[str, ...], Name]]] = {}
        for spoken_words, name in spoken_ways(called, named):
            first = spoken_words[0]
            rows = [(spoken_words, name), *newer.get(first, self._names.get(first, []))]
            newer[first] = sorted(rows, key=lambda row: -len(row[0]))
        wider.__dict__["_names"] = ChainMap(newer, self._names)
        wider.__dict__["_buckets"] = self._buckets
        wider.__dict__["counts_feet"] = self.counts_feet or "foot" in words
        wider.__dict__["_figured"] = FiguredNames((called,), self._figured)
        if part:
            told = without_number(spoken(part))
            wider.__dict__["_alike"] = {**self._alike, told: (part,)}
        return wider

    def spells(self, word: str) -> bool:
        """Tell whether a name has this very word, so that it is no slip."""
        return word in self._buckets.get((word[0], len(word)), ())

    def near(self, word: str) -> str:
        """Give the word of a name that `word` misspells by one slip, or nothing."""
        found = {
            known
            for size in (len(word) - 1, len(word), len(word) + 1)
            for known in self._buckets.get((word[0], size), ())
            if one_slip(word, known, replaced=len(word) > 5)
        }
        things = {
            self._names[known][-1][1] if known in self._names else known
            for known in found
        }
        return found.pop() if len(things) == 1 else ""
