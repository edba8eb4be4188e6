"""What came of the changes of one pass: committed, or waiting with a sentence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from logbook.store.git.message import Change
from logbook.store.git.standing import Standing


@dataclass(frozen=True, slots=True)
class Committed:
    """A change that the branch holds.

    `id` is its own commit, or, where somebody else's commit had taken it along
    (`ours` is False), the one HEAD stood on when that was seen.
    """

    change: Change
    id: str
    ours: bool = True


@dataclass(frozen=True, slots=True)
class Waiting:
    """A change that is saved and waits; `sentence` says for what."""

    change: Change
    sentence: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of each change; `remark` is worth showing with it.

    Where git could not even say what waits, `unanswered` says why.
    """

    committed: tuple[Committed, ...] = ()
    waiting: tuple[Waiting, ...] = ()
    remark: str = ""
    unanswered: str = ""


@dataclass(slots=True)
class Pass:
    """The changes of one pass, sorted: done already, blocked, and those to commit."""

    committed: list[Committed] = field(default_factory=list)
    waiting: list[Waiting] = field(default_factory=list)
    going: list[tuple[Change, tuple[Standing, ...]]] = field(default_factory=list)

    def outcome(self, remark: str = "") -> Outcome:
        """Close the pass."""
        return Outcome(tuple(self.committed), tuple(self.waiting), remark)


def all_wait(changes: Sequence[Change], sentence: str) -> Outcome:
    """Say that every change waits, for one reason."""
    return Outcome(waiting=tuple(Waiting(change, sentence) for change in changes))
