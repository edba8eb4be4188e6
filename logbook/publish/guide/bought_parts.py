"""What is bought by a release beside the words of its list: its sizes, what is new.

The words of a list line are often older than the revision that is bought now.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.faults.older_pieces import piece_again
from logbook.publish.guide.parts_list import Listed, listed
from logbook.publish.release.released import Released
from logbook.records.kinds.words import Source
from logbook.records.together.revisions import revisions_of, shown_label


@dataclass(frozen=True, slots=True)
class Rebought:
    """A part that is bought by another revision than before.

    `is_now` says by which one and what changed in it, `replace` whether one that was
    bought by the older is replaced: empty where the older release has the later one.
    """

    part: str
    is_now: str
    replace: str


def rebought(released: Released, before: Released) -> Iterator[Rebought]:
    """Give what both releases need and buy, where its revision is another."""
    then = {line.part.id: line for line in _bought(before) if line.part}
    for line in _bought(released):
        old = then.get(line.part.id) if line.part else None
        if line.part is None or old is None:
            continue
        was, now = before.revision(line.part), released.revision(line.part)
        if was is None or now is None or was is now:
            continue
        words = now.changed or "nobody said what changed"
        if line.said.bought_as and line.said.bought_as == old.said.bought_as:
            words += f"; newer than “{line.said.bought_as}” of the list"
        order = revisions_of(released.snapshot, line.part)
        later = order.index(was) < order.index(now)
        again = piece_again(released.snapshot, was, now) if later else ""
        yield Rebought(line.name, f"{shown_label(now)} ({words})", again)


def _bought(released: Released) -> Iterator[Listed]:
    seen = set()
    for line in listed(released):
        if line.said.source is Source.BOUGHT and not line.dropped:
            if line.name not in seen:
                yield line
            seen.add(line.name)
