"""Tables in pieces: one that differs little shares all pieces but few.

As with records in order (`ordered`), to copy a large one at each save holds up keys.
"""

from __future__ import annotations

from collections.abc import ItemsView, Iterable, Iterator, Mapping, Sequence, ValuesView
from itertools import chain
from typing import TypeVar, overload

K = TypeVar("K")
V = TypeVar("V")
T = TypeVar("T")

PIECE = 512
"""Entries in a piece; what is smaller is kept in one."""


class Table(Mapping[K, V]):
    """Values by their keys, in no order, spread over pieces by the hash of the key."""

    __slots__ = ("_count", "_mask", "_pieces")

    def __init__(self, pieces: Sequence[dict[K, V]], count: int) -> None:
        """Take a power of two of pieces, each key in its own, and how many they are."""
        self._pieces, self._count, self._mask = pieces, count, len(pieces) - 1

    def __getitem__(self, key: K) -> V:
        """Give the value of a key."""
        return self._pieces[hash(key) & self._mask][key]

    @overload
    def get(self, key: K, /) -> V | None: ...
    @overload
    def get(self, key: K, /, default: V | T) -> V | T: ...
    def get(self, key: K, /, default: V | T | None = None) -> V | T | None:
        """Give the value of a key, or something else where there is none."""
        return self._pieces[hash(key) & self._mask].get(key, default)

    def __contains__(self, key: object) -> bool:
        """Tell whether there is a value for a key."""
        return key in self._pieces[hash(key) & self._mask]

    def __iter__(self) -> Iterator[K]:
        """Go through the keys."""
        return chain.from_iterable(self._pieces)

    def __len__(self) -> int:
        """Count the keys."""
        return self._count

    def values(self) -> ValuesView[V]:
        """Give the values, in the order of the keys."""
        return _Values(self)

    def items(self) -> ItemsView[K, V]:
        """Give the keys with their values."""
        return _Items(self)

    def changed(self, gone: Iterable[K], fresh: Mapping[K, V]) -> Table[K, V]:
        """Give this table without some keys and with other values."""
        pieces, own, count = list(self._pieces), set[int](), self._count

        def piece(key: K) -> dict[K, V]:
            which = hash(key) & self._mask
            if which not in own:
                own.add(which)
                pieces[which] = pieces[which].copy()
            return pieces[which]

        for key in gone:
            held = piece(key)
            if key in held:
                del held[key]
                count -= 1
        for key, value in fresh.items():
            held = piece(key)
            count += key not in held
            held[key] = value
        return Table(pieces, count)


class _Values(ValuesView[V]):
    def __iter__(self) -> Iterator[V]:
        pieces = self._mapping._pieces  # type: ignore[attr-defined]  # noqa: SLF001
        return chain.from_iterable(piece.values() for piece in pieces)


class _Items(ItemsView[K, V]):
    def __iter__(self) -> Iterator[tuple[K, V]]:
        pieces = self._mapping._pieces  # type: ignore[attr-defined]  # noqa: SLF001
        return chain.from_iterable(piece.items() for piece in pieces)


def with_changes(
    held: Mapping[K, V], gone: Iterable[K], fresh: Mapping[K, V]
) -> Mapping[K, V]:
    """Give a table without some keys and with other values: many in pieces."""
    if isinstance(held, Table):
        return held.changed(gone, fresh)
    if len(held) >= 2 * PIECE:
        return _spread(held).changed(gone, fresh)
    left = dict(held)
    for key in gone:
        left.pop(key, None)
    return {**left, **fresh}


def _spread(held: Mapping[K, V]) -> Table[K, V]:
    count = 1 << (len(held) // PIECE).bit_length()
    pieces: list[dict[K, V]] = [{} for _ in range(count)]
    for key, value in held.items():
        pieces[hash(key) & (count - 1)][key] = value
    return Table(pieces, len(held))
