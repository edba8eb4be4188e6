"""Whether an entry can be committed now: ready, it waits, or it is refused.

Each is one sentence for the screen.
"""

from __future__ import annotations

from dataclasses import dataclass

from logbook.store.git.command import Answer


@dataclass(frozen=True, slots=True)
class Ready:
    """Entries can be committed; `remark` is worth showing all the same."""

    remark: str = ""


@dataclass(frozen=True, slots=True)
class Waits:
    """Entries are saved and wait; `passing` if that is a matter of moments."""

    sentence: str
    passing: bool = False


@dataclass(frozen=True, slots=True)
class Refuses:
    """Nothing can be committed in this repository until its owner changes it.

    `blind` tells that git looks at other files than those that lie here.
    """

    sentence: str
    blind: bool = False


State = Ready | Waits | Refuses

CLOSED = (
    "{} cannot be written (read-only disk or no permission); the entries wait until "
    "it can."
)


_GIVE_WAY = ("File exists", "but expected", "reference already exists")
"""Words git has for: somebody else was quicker."""


def trouble(answer: Answer) -> Waits:
    """Say what came between a command that writes and its end."""
    if any(words in answer.err for words in _GIVE_WAY):
        return Waits(
            "Other git commands kept the index or the branch busy; the entries are "
            "saved and wait for the next time.",
            passing=True,
        )
    return Waits(f"git said: {answer.complaint}; the entries are saved and wait.")
