"""What one line told together goes together to another part, piece, dimension or day.

“opening 178.6 should be 180” is kept as a reading and as the deviation it led to. Whose
size that is, and when it was read, was told once: put right in one of them it is put
right in both. What the other part lacks for it is made, and what the line alone had put
on record of the wrong part is taken away, in the same step.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import timedelta

from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Deviation,
    Disposal,
    Failure,
    Reading,
    Run,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.left_alone import made_by_alone
from logbook.records.making.same_fact import Change
from logbook.records.states.read_now import reading_behind
from logbook.records.together.snapshot import Snapshot

Told = Deviation | Run | Failure | Disposal
"""What tells something of a part or a piece, which may be put right to another."""


def moved_together(
    snapshot: Snapshot, before: Record, after: Record
) -> tuple[tuple[Change, ...], Draft] | None:
    """Give what is changed by an entry's going elsewhere, itself first, and the rest.

    The rest is a draft of what is made and taken away for it. None where the entry
    stays with its part, piece, dimension and day.
    """
    if not isinstance(before, Told) or type(after) is not type(before):
        return None
    assert isinstance(after, Told)
    move = _Move(snapshot, before, after)
    return move.changes() if move.goes_elsewhere else None


def _told_with(snapshot: Snapshot, entry: Told) -> tuple[Told, ...]:
    """Give what the same line told, itself first.

    A run in which more was read than one line tells stays where it is.
    """
    run: Run | None = entry if isinstance(entry, Run) else None
    if isinstance(entry, Deviation):
        behind = reading_behind(snapshot, entry)
        if behind and (behind[0].title == entry.title or len(behind[0].readings) == 1):
            run = behind[0]
    piece = snapshot.find(run.piece, Piece) if run else None
    led_to = [
        one
        for one in (snapshot.mentions(piece, Deviation) if piece else ())
        if run and (found := reading_behind(snapshot, one)) and found[0].id == run.id
    ]
    every = (entry, *((run,) if run else ()), *led_to)
    return tuple({one.id: one for one in every}.values())


@dataclass
class _Move:
    """One entry as it is and as it is to be; `draft` is what is made for that."""

    snapshot: Snapshot
    before: Told
    after: Told
    draft: Draft = field(init=False)
    _sizes: dict[str, Ref] = field(default_factory=dict)
    _names: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Draft what is made as of the build and moment of the entry."""
        build = self.snapshot.find(self.after.build, Build)
        self.draft = Draft(self.snapshot, self.after.when, build)

    @property
    def goes_elsewhere(self) -> bool:
        """Whether its part, piece, a dimension of it or its day is another."""
        was, now = self.before, self.after
        return (
            was.when != now.when
            or (was.part, was.piece) != (now.part, now.piece)
            or [*_what(was)] != [*_what(now)]
        )

    def changes(self) -> tuple[tuple[Change, ...], Draft]:
        """Give each entry as it is and is to be, and what is made and taken away."""
        group = _told_with(self.snapshot, self.before)
        part, piece = self._new_part(), self.snapshot.find(self.before.piece, Piece)
        now = self._new_piece(part)
        if part is not None and self._old_part() is not part:
            self._lead_sizes(group, part)
        self._keep_names(part, piece, now)
        changed = tuple((one, self._moved(one, part, now)) for one in group)
        self._tidy(group, piece if now is not piece else None)
        if piece is not None and now is piece:
            self._dated(group, piece)
        return changed, self.draft

    # -- where it goes -----------------------------------------------------------

    def _old_part(self) -> Part | None:
        return self.snapshot.find(self.before.part, Part)

    def _new_part(self) -> Part | None:
        """Give the part it is of: as told, else that of the piece or size told."""
        was, now, find = self.before, self.after, self.snapshot.find
        if now.part != was.part:
            return find(now.part, Part)
        if now.piece != was.piece and (piece := find(now.piece, Piece)):
            return find(piece.part, Part)
        for old, new in zip(_what(was), _what(now), strict=False):
            if old != new and (item := find(new, Characteristic)):
                return find(item.part, Part)
        return find(was.part, Part)

    def _new_piece(self, part: Part | None) -> Piece | None:
        """Give the piece it is of: as told, else the newest of another part."""
        was, now = self.before, self.after
        piece = self.snapshot.find(now.piece, Piece)
        if now.piece != was.piece or was.piece is None or part is None:
            return piece
        return piece if part is self._old_part() else self.draft.piece(part)

    def _lead_sizes(self, group: tuple[Told, ...], part: Part) -> None:
        """Lead each size that the line told of the old part to the same of the new."""
        told = dict(zip(_what(self.before), _what(self.after), strict=False))
        wanted = {
            one.characteristic: one.wanted
            for one in group
            if isinstance(one, Deviation)
        }
        for ref in dict.fromkeys(ref for one in group for ref in _what(one)):
            item = self.snapshot.find(told.get(ref, ref), Characteristic)
            if item is None or self.snapshot.find(item.part, Part) is part:
                continue
            drawn = wanted.get(ref)
            new = self.draft.characteristic(part, item.title, drawn)
            self._sizes[item.id] = new.ref

    def _keep_names(
        self, part: Part | None, old: Piece | None, new: Piece | None
    ) -> None:
        """Keep by which names the words of the line call what it is of now."""
        for was, now in ((self._old_part(), part), (old, new)):
            if was is not None and now is not None and was.id != now.id:
                self._names[was.title] = now.title
        for one, other in zip(_what(self.before), _what(self.after), strict=False):
            was_, now_ = (
                self.snapshot.find(each, Characteristic) for each in (one, other)
            )
            if was_ is not None and now_ is not None and was_ is not now_:
                self._names[was_.title] = now_.title

    # -- as it is to be ----------------------------------------------------------

    def _moved(self, one: Told, part: Part | None, piece: Piece | None) -> Told:
        own = one.id == self.before.id
        fresh: Told = self.after if own else one
        by = self.after.when - self.before.when
        title = fresh.title
        if not own or self.after.title == self.before.title:
            title = self._renamed(title)
        fresh = replace(
            fresh,
            title=title,
            when=one.when + by,
            part=part.ref if part else fresh.part,
            piece=piece.ref if piece else self.after.piece,
        )
        if isinstance(fresh, Deviation):
            return replace(fresh, characteristic=self._size(fresh.characteristic))
        if isinstance(fresh, Run):
            return replace(fresh, readings=tuple(self._read(fresh.readings, by)))
        return fresh

    def _read(self, readings: tuple[Reading, ...], by: timedelta) -> Iterator[Reading]:
        for one in readings:
            yield replace(one, at=one.at + by, what=self._size(one.what) or one.what)

    def _size(self, ref: Ref | None) -> Ref | None:
        """Give the size that is meant now where this one was told."""
        told = dict(zip(_what(self.before), _what(self.after), strict=False))
        now = told.get(ref, ref) if ref else None
        item = self.snapshot.find(now, Characteristic)
        return self._sizes.get(item.id, now) if item else now

    def _renamed(self, words: str) -> str:
        """Give the words of the line with the name of what it is of now.

        Only a name that stands there once can be the one meant.
        """
        for old, new in self._names.items():
            named = re.compile(rf"(?i)(?<![\w-]){re.escape(old)}(?![\w-])")
            if len(named.findall(words)) == 1:
                words = new.join(named.split(words))
        return words

    # -- what the line alone had made --------------------------------------------

    def _tidy(self, group: tuple[Told, ...], left: Piece | None) -> None:
        """Take away the piece and the sizes that nothing else is on record of."""
        sizes = (self.snapshot.find(ref, Characteristic) for ref in _old_sizes(group))
        gone = [one for one in sizes if one is not None and one.id in self._sizes]
        for each in (left, *gone):
            if each is not None and made_by_alone(self.snapshot, group, each):
                self.draft.drop(each)

    def _dated(self, group: tuple[Told, ...], piece: Piece) -> None:
        """Give a piece that this line alone had put on record the day it has now."""
        if self.after.when != piece.when and made_by_alone(self.snapshot, group, piece):
            self.draft.amend(replace(piece, when=self.after.when))


def _what(entry: Told) -> Iterator[Ref]:
    """Give the dimensions an entry tells of."""
    if isinstance(entry, Run):
        yield from (one.what for one in entry.readings)
    elif isinstance(entry, Deviation) and entry.characteristic is not None:
        yield entry.characteristic


def _old_sizes(group: tuple[Told, ...]) -> Iterator[Ref]:
    yield from dict.fromkeys(ref for one in group for ref in _what(one))
