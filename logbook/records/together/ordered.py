"""Records in order, many of them in pieces: who differs little shares all but few.

To copy 100,000 entries at each save, and to look them over for rubbish afterwards,
holds up every key meanwhile.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import accumulate, chain
from typing import TypeVar, overload

from logbook.records.kinds.record import Record

R = TypeVar("R", bound=Record)
V = TypeVar("V")

PIECE = 512
"""Records in a piece; what is smaller is kept in one."""


def age(record: Record) -> tuple[datetime, str]:
    """Give what records are ordered by: instant, then id."""
    return record.when, record.id


class Ordered(Sequence[R]):
    """Records by instant and id; a slice is a tuple of them."""

    __slots__ = ("_ends", "_pieces")

    def __init__(self, pieces: Iterable[tuple[R, ...]]) -> None:
        """Take pieces that follow each other, none of them empty."""
        self._pieces = tuple(pieces)
        self._ends = tuple(accumulate(map(len, self._pieces)))

    @property
    def pieces(self) -> tuple[tuple[R, ...], ...]:
        """The pieces, which others may share."""
        return self._pieces

    def __len__(self) -> int:
        """Count the records."""
        return self._ends[-1] if self._ends else 0

    def __iter__(self) -> Iterator[R]:
        """Go through all of them, the oldest first."""
        return chain.from_iterable(self._pieces)

    def __reversed__(self) -> Iterator[R]:
        """Go through all of them, the newest first."""
        return chain.from_iterable(map(reversed, reversed(self._pieces)))

    @overload
    def __getitem__(self, at: int) -> R: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[R, ...]: ...
    def __getitem__(self, at: int | slice) -> R | tuple[R, ...]:
        """Give the record at a place, or those of a slice."""
        if isinstance(at, slice):
            start, stop, step = at.indices(len(self))
            if step != 1:
                return tuple([self[place] for place in range(start, stop, step)])
            return tuple(chain.from_iterable(self._stretch(start, stop)))
        place = at + len(self) if at < 0 else at
        if not 0 <= place < len(self):
            raise IndexError(at)
        which = bisect_right(self._ends, place)
        return self._pieces[which][place - self._ends[which]]

    def _stretch(self, start: int, stop: int) -> Iterator[tuple[R, ...]]:
        first = bisect_right(self._ends, start)
        for piece, end in zip(self._pieces[first:], self._ends[first:], strict=True):
            begin = end - len(piece)
            if begin >= stop:
                return
            yield piece[max(start - begin, 0) : stop - begin]

    def __eq__(self, other: object) -> bool:
        """Tell whether another sequence holds the same records in the same order."""
        if not isinstance(other, Sequence) or len(self) != len(other):
            return False
        return all(one == two for one, two in zip(self, other, strict=True))

    __hash__ = None  # type: ignore[assignment]

    def put_right(self, went: Iterable[Record], came: Iterable[R]) -> Ordered[R]:
        """Give these records without some and with others."""
        pieces: list[tuple[R, ...]] = list(self._pieces)
        changes: dict[int, tuple[list[Record], list[R]]] = defaultdict(lambda: ([], []))
        for record in went:
            changes[self._piece_of(record)][0].append(record)
        for fresh in came:
            changes[self._piece_of(fresh)][1].append(fresh)
        for which in sorted(changes, reverse=True):
            held = pieces[which] if pieces else ()
            pieces[which : which + 1] = _cut(_put_right(held, *changes[which]))
        return Ordered(pieces)

    def _piece_of(self, record: Record) -> int:
        """Give the piece a record stands in, or would stand in."""
        after = bisect_right(self._pieces, age(record), key=lambda held: age(held[0]))
        return max(after - 1, 0)


def in_order(records: Iterable[R]) -> Sequence[R]:
    """Keep records that come in order: many in pieces, few in one tuple."""
    pieces = tuple(_cut(list(records)))
    return Ordered(pieces) if len(pieces) > 1 else pieces[0] if pieces else ()


def put_right(
    held: Sequence[R], went: Iterable[Record], came: Iterable[R]
) -> Sequence[R]:
    """Give ordered records without some and with others, in order."""
    went, came = list(went), list(came)
    if not went and not came:
        return held
    if isinstance(held, Ordered):
        return held.put_right(went, came)
    return in_order(_put_right(held, went, came))


def apart(old: Sequence[R], new: Sequence[R]) -> tuple[list[R], list[R]]:
    """Give the records that only one of two holds: those that went, those that came.

    What both share is passed over piece by piece.
    """
    if old is new:
        return [], []
    before, after = _pieces_of(old), _pieces_of(new)
    shared = before.keys() & after.keys()
    went, came = (
        {id(record): record for key, piece in pieces.items() if key not in shared
         for record in piece}
        for pieces in (before, after)
    )  # fmt: skip
    return (
        [record for key, record in went.items() if key not in came],
        [record for key, record in came.items() if key not in went],
    )


def _pieces_of(held: Sequence[R]) -> dict[int, Sequence[R]]:
    pieces = held.pieces if isinstance(held, Ordered) else (held,)
    return {id(piece): piece for piece in pieces}


def _put_right(held: Iterable[R], went: Iterable[Record], came: Iterable[R]) -> list[R]:
    kept = list(held)
    for record in went:
        del kept[bisect_left(kept, age(record), key=age)]
    for fresh in came:
        insort(kept, fresh, key=age)
    return kept


def _cut(records: list[R]) -> Iterator[tuple[R, ...]]:
    """Cut records into pieces, unless they are hardly more than one."""
    size = PIECE if len(records) >= 2 * PIECE else 2 * PIECE
    for at in range(0, len(records), size):
        yield tuple(records[at : at + size])


@dataclass(frozen=True, slots=True)
class Joined(Sequence[V]):
    """Two sequences, one behind the other, that stay where they are."""

    first: Sequence[V]
    then: Sequence[V]

    def __len__(self) -> int:
        """Count both."""
        return len(self.first) + len(self.then)

    def __iter__(self) -> Iterator[V]:
        """Go through both."""
        return chain(self.first, self.then)

    @overload
    def __getitem__(self, at: int) -> V: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[V, ...]: ...
    def __getitem__(self, at: int | slice) -> V | tuple[V, ...]:
        """Give what stands at a place, or a slice."""
        if isinstance(at, slice):
            return tuple(self)[at]
        place = at + len(self) if at < 0 else at
        before = len(self.first)
        if place < 0:
            raise IndexError(at)
        return self.first[place] if place < before else self.then[place - before]
