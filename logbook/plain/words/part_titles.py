"""Which parts are meant where a name is said in part, run together or misspelt."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from functools import cached_property

from logbook.plain.words.lexicon import one_slip
from logbook.plain.words.near_ends import NearEnds
from logbook.plain.words.spoken import (
    cuts_short,
    forms,
    holds,
    one_word,
    spoken,
    without_number,
)

_SHORTEST_END = 3
_SLIP_FROM = 3
"""A word of more letters may be a slip of the name of a part."""


class PartTitles:
    """The titles of the parts of a project, of those not made yet too.

    Each maps to the other names of the part, which are no concern here.
    """

    parts: Mapping[str, Sequence[str]]
    proposed: Mapping[str, Sequence[str]]

    @cached_property
    def _titles(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        return tuple((title, spoken(title)) for title in (*self.parts, *self.proposed))

    @cached_property
    def _titles_with(self) -> Mapping[str, tuple[int, ...]]:
        """Where the titles stand that have a word: few of many are looked at."""
        found: dict[str, list[int]] = {}
        for at, (_, name) in enumerate(self._titles):
            for word in name:
                found.setdefault(word, []).append(at)
        return {word: tuple(places) for word, places in found.items()}

    @cached_property
    def _ends(self) -> NearEnds:
        return NearEnds(name[-1] if name else "" for _, name in self._titles)

    @cached_property
    def _alike(self) -> Mapping[tuple[str, ...], tuple[str, ...]]:
        found: dict[tuple[str, ...], tuple[str, ...]] = {}
        for title, name in self._titles:
            words = without_number(name)
            found[words] = tuple(dict.fromkeys((*found.get(words, ()), title)))
        return found

    def alike(self, part: str) -> tuple[str, ...]:
        """Give the parts called so when spoken: Z-Mount, Z Mount, 1009 Z Mount."""
        return self._alike.get(without_number(spoken(part)), ())

    def containing(self, words: Sequence[str]) -> tuple[str, ...]:
        """Give the parts whose longer names hold these words in this order.

        Those that end in them come first, then the shorter names.
        """
        ways = [
            tuple(words),
            *(
                (*words[:at], words[at] + words[at + 1], *words[at + 2 :])
                for at in range(len(words) - 1)
            ),
        ]
        found = [
            (not one_word(name[-1], way[-1]), len(name), at, title)
            for way in ways
            for form in forms(way[0])
            for at in self._titles_with.get(form, ())
            for title, name in self._titles[at : at + 1]
            if holds(name, way)
        ]
        return tuple(dict.fromkeys(title for *_, title in sorted(found)))

    def titled(self, word: str) -> bool:
        """Tell whether the name of a part has this word."""
        return word in self._titles_with

    @cached_property
    def counts_feet(self) -> bool:
        """Whether a part is called a foot, so that feet are parts and no unit."""
        return self.titled("foot")

    def having(
        self, words: AbstractSet[str], beside: AbstractSet[str] = frozenset()
    ) -> tuple[str, ...]:
        """Give the parts whose names have these words and most of those `beside`.

        At least one of them, where there are any; in any order.
        """
        found: dict[str, int] = {}
        for word in beside or words:
            for at in self._titles_with.get(word, ()):
                title, name = self._titles[at]
                if words <= {*name}:
                    found[title] = len(beside & {*name})
        most = max(found.values(), default=0)
        return tuple(title for title, many in found.items() if many == most)

    def abbreviated(self, words: Sequence[str]) -> tuple[str, ...]:
        """Give the parts whose names begin so, word for word: cam arm, camera arm."""
        return tuple(
            title
            for title, name in self._titles
            if len(name) == len(words) > 1
            and all(
                len(word) > 2 and part.startswith(word)
                for word, part in zip(words, name, strict=True)
            )
        )

    def misspelt(self, words: Sequence[str]) -> tuple[str, ...]:
        """Give the parts whose names end in these words but for a slip in each.

        A word of four letters too: “wheel covr” is hardly a new part; one of three
        beside another that is right: wal track.
        """
        many = len(words)
        return tuple(
            title
            for title, name in map(self._titles.__getitem__, self._ends.of(words[-1]))
            if len(name) >= many
            and all(
                word == part
                or (
                    len(word) > _SLIP_FROM - (name[-1] == words[-1] != word)
                    and one_slip(word, part, replaced=False)
                )
                for word, part in zip(words, name[-many:], strict=True)
            )
        )

    def misspelt_apart(self, words: Sequence[str]) -> tuple[str, ...]:
        """Give the parts whose names have these words in any order, but for one slip.

        The others are right: left uper leg, of the upper leg left side.
        """
        right = [word for word in words if self._having(word)]
        slipped = [word for word in words if word not in right]
        if len(slipped) != 1 or not right or len(slipped[0]) <= _SLIP_FROM:
            return ()
        return tuple(
            title
            for title, name in self._titles
            if all(any(one_word(word, part) for part in name) for word in right)
            and any(one_slip(slipped[0], part, replaced=False) for part in name)
        )

    def _having(self, word: str) -> bool:
        return any(form in self._titles_with for form in forms(word))

    def shortened(self, word: str) -> str:
        """Give the one part whose name a word cuts short: diff, msk, xbar."""
        plain = word.replace("-", "")
        if not plain.isalpha() or len(plain) < _SHORTEST_END:
            return ""
        plain = f"cross{plain[1:]}" if plain[0] == "x" else plain
        whole = {plain} if plain != word else set()
        single = {name[0] for _, name in self._titles if len(name) == 1}
        found = {one for one in single if one in whole or cuts_short(plain, one)}
        return found.pop() if len(found) == 1 else ""

    def compounded(self, word: str) -> tuple[str, ...]:
        """Give the parts whose name is one word that ends so: crossbar for bar."""
        return tuple(
            title
            for title, name in self._titles
            if len(word) >= _SHORTEST_END
            and name[-1] != word
            and name[-1].endswith(word)
        )
