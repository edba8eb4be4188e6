"""What was worked out, kept until something it looked at changes.

What is kept is called by a tuple, its topic and the ids it is about; what it looked
at is called by keys (see `logbook.advice.ground.register`), or by such a tuple where it
looked at something else that is kept.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from typing import Any

Node = tuple[str, ...]
Key = str | Node


class Kept:
    """Values by what they are called, and who looked at what."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.values: dict[Node, Any] = {}
        # An entry too many, left by one that looked elsewhere since, costs one
        # working out more and is then gone; so none is looked for to be taken out.
        self._lookers: defaultdict[Key, set[Node]] = defaultdict(set)
        self._looked: list[tuple[Node, set[Key]]] = []

    def keep(self, node: Node, value: Any, looked_at: set[Key]) -> None:
        """Keep a value that was worked out by looking at these."""
        self.values[node] = value
        # Who looked at what is not asked before something changes: the first answer,
        # which works everything out, need not wait for it.
        self._looked.append((node, looked_at))

    def _note_lookers(self) -> None:
        lookers = self._lookers
        for node, looked_at in self._looked:
            for key in looked_at:
                lookers[key].add(node)
        self._looked.clear()

    def _is_looked_at(self, keys: Collection[Key]) -> bool:
        """Tell whether anything looked at one of a few keys, noted already or not."""
        asked = {*keys}
        noted = not asked.isdisjoint(self._lookers.keys())
        return noted or any(not asked.isdisjoint(keys) for _, keys in self._looked)

    def forget(self, touched: Iterable[Key]) -> set[Node]:
        """Let go of all that hangs on what was touched; say what that was."""
        waiting, gone = list(touched), set[Node]()
        if self._looked and not self._is_looked_at(waiting):
            return gone
        self._note_lookers()
        while waiting:
            for node in self._lookers.pop(waiting.pop(), ()):
                if node not in gone:
                    gone.add(node)
                    waiting.append(node)
                    self.values.pop(node, None)
        return gone
