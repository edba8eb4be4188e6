"""Looking a project over for the bench, again at every change of its records.

What is worked out of very many records is kept, and worked out again only where what
it hangs on came, went or changed: the letters typed meanwhile wait for each of it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from logbook.counting import so_many
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Disposal, Entry, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.dispositions import answered_in, undisposed
from logbook.records.states.pieces import current_build
from logbook.records.together.references import part_of
from logbook.records.together.refs_held import refs_in
from logbook.records.together.revisions import parts_now
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.glance import Glance, first_of
from logbook.screens.desk.interleaved import revisions_in
from logbook.screens.desk.last_value import last_value
from logbook.screens.desk.of_build import entries_of, is_in

Pieces = Mapping[str, Mapping[str, Piece]]
"""The pieces of each part, by their ids."""

SINGLY = 3
"""So many pieces of a part are named one by one; more are counted."""


class Glancing:
    """Looks projects over, one snapshot after the other."""

    def __init__(self) -> None:
        """Begin with nothing looked at."""
        self._of = Snapshot({})
        self._build = ""
        self._faults: tuple[Ref, ...] = ()
        self._pieces: Pieces = {}
        self._entered: dict[str, tuple[Sequence[Record], bool]] = {}

    def over(self, snapshot: Snapshot, build: Build | None = None) -> Glance:
        """Look a project over for one build, the current one if none is named."""
        build = build or current_build(snapshot)
        entries = entries_of(snapshot, build)
        where, when = _where(snapshot, build, entries)
        self._take_in(snapshot, build)
        return Glance(
            read=True,
            build=build,
            builds=snapshot.all(Build),
            title=snapshot.project.title,
            where=where,
            where_when=when,
            faults=self._faults,
            bare=tuple(self._bare(snapshot, build)),
            unread=len(snapshot.problems),
            first_unread=first_of(snapshot.problems),
            last=last_value(snapshot, entries),
        )

    def _take_in(self, snapshot: Snapshot, build: Build | None) -> None:
        """Work out again what hangs on the kinds of records that changed."""
        before = self._of
        if not _same(before, snapshot, Piece, Part):
            self._pieces = _pieces(snapshot)
        kinds = (Piece, Deviation, Failure, Disposal)
        if not _same(before, snapshot, *kinds) or _answers_by_name(snapshot):
            self._faults = tuple(fault.ref for fault in undisposed(snapshot))
        here = build.id if build else ""
        if here != self._build:
            self._build, self._entered = here, {}
        self._of = snapshot

    def _bare(self, snapshot: Snapshot, build: Build | None) -> Iterator[str]:
        """Name the parts and pieces nothing is on record against.

        What is bought is counted: most of it never has anything to be said about.
        """
        bought = 0
        for part in parts_now(snapshot):
            own = self._pieces.get(part.id, {}).values()
            here = [p for p in own if build is None or is_in(p, build)]
            if not here and not self._has_entry(snapshot, part, build):
                if part.source is Source.BOUGHT:
                    bought += 1
                else:
                    yield part.title
            pieces = [p for p in here if not self._has_entry(snapshot, p, build)]
            if len(pieces) > SINGLY:
                yield f"{part.title} ({so_many(pieces, 'piece')})"
            else:
                yield from (piece.title for piece in pieces)
        if bought:
            yield f"{bought} bought"

    def _has_entry(
        self, snapshot: Snapshot, record: Record, build: Build | None
    ) -> bool:
        mentions = snapshot.mentions(record)
        held = self._entered.get(record.id)
        if held is not None and held[0] is mentions:  # they go over where none changed
            return held[1]
        found = any(
            isinstance(entry, Entry)
            and (build is None or entry.build is None or entry.build.id == build.id)
            for entry in mentions
        )
        self._entered[record.id] = mentions, found
        return found


def _same(before: Snapshot, after: Snapshot, *kinds: type[Record]) -> bool:
    """Tell whether no record of these kinds came, went or changed."""
    return all(before.all(kind) is after.all(kind) for kind in kinds)


def _answers_by_name(snapshot: Snapshot) -> bool:
    """Tell whether what a disposal answers can change by what others are called."""
    every = snapshot.all(Disposal)
    return any(not ref.id for one in every for ref in answered_in(one))


def _pieces(snapshot: Snapshot) -> Pieces:
    """Give the pieces that mention each part; few beside all that mention it."""
    found: dict[str, dict[str, Piece]] = defaultdict(dict)
    for piece in snapshot.all(Piece):
        for ref in refs_in(piece):
            part = snapshot.find(ref, Part)
            if part is not None:
                found[part.id][piece.id] = piece
    return found


def _where(
    snapshot: Snapshot, build: Build | None, entries: Sequence[Entry]
) -> tuple[str, str]:
    if not entries and build is not None:
        begun = f"{build.title} begun {build.when.astimezone():%-d %b}"
        return f"{begun}, nothing on record yet", ""
    if not entries:
        return "", ""
    last: Record = entries[-1]
    revised = revisions_in(snapshot, build)
    if revised and revised[-1].when > last.when:
        last = revised[-1]
    part = part_of(snapshot, last)
    named = part is None or part.title.casefold() in last.title.casefold()
    said = last.title if named or part is None else f"{part.title} · {last.title}"
    return said, f"{last.when.astimezone():%d %b %H:%M}"
