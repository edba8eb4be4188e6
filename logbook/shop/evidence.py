"""How sure a figure is: what the word behind a source means, part by part.

A source ends with how it was read, in brackets. A source of several parts may
mark one of them otherwise: `… (sight line); bars: common practice (read)`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

HOW_MEANT = {
    "read": "the figure or rule was seen in the source named, or in a copy of it",
    "computed": "worked out here from the rule named, not read off a table",
    "memory": "from memory, not seen in the source: look it up before relying on it",
    "common practice": "what shops commonly do, no source: your own figures win",
}
"""What each of the words behind a source means."""

_BRACKET = re.compile(r"(?P<what>.*)\s\((?P<how>" + "|".join(HOW_MEANT) + r")\)")
_MARKS = (
    ("read", re.compile(r"\s*\(read\)")),
    ("common practice", re.compile(r"(?::|,| is| are)?\s*common practice\b")),
    (
        "memory",
        re.compile(r"(?:,| is| are)?\s*(?:all figures )?from memory\b|\(memory\)"),
    ),
)
_NO_SOURCE = re.compile(r",?\s*\(?no source\)?")


@dataclass(frozen=True, slots=True)
class Evidence:
    """How sure some parts of an answer are; no parts named means all of them."""

    how: str
    parts: tuple[str, ...] = ()

    @property
    def meaning(self) -> str:
        """What the word means."""
        return HOW_MEANT[self.how]

    def __str__(self) -> str:
        """Say it in one line."""
        said = f"{self.how}: {self.meaning}"
        return f"{said}. Here: {'; '.join(self.parts)}" if self.parts else said


def evidence(sources: Iterable[str]) -> tuple[Evidence, ...]:
    """Tell how sure each part of these sources is, the surest first.

    Where all of them are as sure, no part is named.
    """
    parts: dict[str, list[str]] = {}
    for source in sources:
        found = _BRACKET.fullmatch(source)
        if found is None:
            continue
        for clause in found["what"].split("; "):
            how, words = _marked(clause, found["how"])
            held = parts.setdefault(how, [])
            if words and words not in held:
                held.append(words)
    named = len(parts) > 1
    return tuple(
        Evidence(how, tuple(parts[how]) if named else ())
        for how in HOW_MEANT
        if how in parts
    )


def _marked(clause: str, how: str) -> tuple[str, str]:
    """Give how a clause was read, and its words without the mark."""
    for marked, pattern in _MARKS:
        if pattern.search(clause):
            words = _NO_SOURCE.sub("", pattern.sub("", clause, count=1))
            return marked, words.strip(" :,")
    return how, clause.strip()


def evidence_json(found: Sequence[Evidence]) -> list[dict[str, object]]:
    """Give the same for a program."""
    return [
        {"how": each.how, "meaning": each.meaning, "parts": list(each.parts)}
        for each in found
    ]
