"""A part named exactly: made where there is none, unless a known one is a slip away."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.errors import BadInput
from logbook.plain.words.lexicon import one_slip
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot


def new_part(draft: Draft, words: str, *, insist: bool = False) -> Part:
    """Give the part of exactly this name, made if there is none and none is near.

    Raises:
        BadInput: no name is given, or one is called nearly so and nobody insists.
    """
    if not words.strip():
        raise BadInput("the part has no name; accepted: what it is called, crossbar")
    if not draft.snapshot.named(words, Part) and not insist:
        refuse_near(words, slipped(draft.snapshot, words), "part")
    return draft.part(words)


def slipped(snapshot: Snapshot, words: str) -> list[str]:
    """Give the parts whose name, or its end, some words misspell by one slip."""
    count = len(folded(words).split())
    return [
        part.title
        for part in snapshot.all(Part)
        if any(
            one_slip_off(words, name) or one_slip_off(words, _end(name, count))
            for name in (part.title, part.name, *part.aliases, *part.formerly)
        )
    ]


def _end(name: str, count: int) -> str:
    return " ".join(folded(name).split()[-count:]) if count else ""


def one_slip_off(typed: str, known: str) -> bool:
    """Tell whether two names differ by one slip in one word, and in nothing else.

    Numbers and words of three letters are meant as they stand.
    """
    words, names = folded(typed).split(), folded(known).split()
    if len(words) != len(names):
        return False
    other = [(w, n) for w, n in zip(words, names, strict=True) if w != n]
    if len(other) != 1:
        return False
    [(word, name)] = other
    plain = word.isalpha() and name.isalpha() and max(len(word), len(name)) >= 4
    return plain and one_slip(word, name, replaced=len(name) > 4)


def refuse_near(words: str, near: Iterable[str], what: str) -> None:
    """Refuse a name that is near known ones; none near refuses nothing.

    Raises:
        BadInput: there are some; the sentence names them.
    """
    told = " or ".join(f"“{one}”" for one in dict.fromkeys(near))
    if told:
        raise BadInput(
            f"no {what} is called “{words}”; accepted: {told}, or --new to make one "
            f"called “{words}”"
        )
