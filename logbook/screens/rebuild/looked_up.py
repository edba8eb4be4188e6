"""What somebody holds, looked up: which revisions it is, and what nobody knows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from logbook.advice.faults.held_newest import newer_words, unknown_words
from logbook.advice.faults.held_release import came_with, release_words, released_as
from logbook.advice.faults.holding import (
    Held,
    held_by_build,
    held_by_files,
)
from logbook.advice.faults.withdrawn_release import recalled
from logbook.errors import BadInput
from logbook.publish.errata.record_ends import ends_words, newer_state
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.listing import Line
from logbook.store.designs.design_files import design_files, hashed
from logbook.store.git.repository import Repository

_UNKNOWN, _NEWER, _UNREAD = "unknown ", "newer ", "unread "


@dataclass(frozen=True, slots=True)
class LookedUp:
    """The things held; files of which nobody knows; what is to be minded of it all.

    `newer` are the sentences of held files that a newer revision took the place of,
    `ends` says where the record ends, `unread` why nothing could be looked up.
    """

    held: tuple[Held, ...] = ()
    unknown: tuple[str, ...] = ()
    remark: str = ""
    newer: tuple[tuple[str, str], ...] = ()
    ends: str = ""
    unread: str = ""

    def lines(self) -> Iterator[Line]:
        """Give a row for each file that is on no record, or not the newest."""
        for because, _ in self.newer:
            yield Line(f"{_NEWER}{because}", "older", because, "not the newest")
        for path in self.unknown:
            yield Line(f"{_UNKNOWN}{path}", "unknown", path, "on no record")
        if self.unread:
            yield Line(f"{_UNREAD}{self.unread}", "not read", self.unread)

    def said(self, key: str) -> str:
        """Give what is known of such a row; empty where it is none."""
        if key.startswith(_UNKNOWN):
            return unknown_words(key.removeprefix(_UNKNOWN))
        if key.startswith(_UNREAD):
            return "nothing was looked at, so nothing is known of it, good or bad"
        newer = dict(self.newer)
        return newer.get(key.removeprefix(_NEWER), "")


def looked_up(
    snapshot: Snapshot, root: Path, key: str, repository: Repository
) -> LookedUp:
    """Give what a row of `Holds` means, and what could not be told.

    Raises:
        BadInput: a file cannot be read, or there is no design file in a folder.
    """
    sort, _, rest = key.partition(" ")
    ends = ends_words(snapshot, root, repository)
    old = ends if newer_state(snapshot, root, repository) else ""
    if sort == "path":
        return _held_files(snapshot, Path(rest), ends, old)
    record = snapshot.by_id(rest)
    if isinstance(record, Build):
        return LookedUp(held_by_build(snapshot, record), remark=old, ends=ends)
    if isinstance(record, Release):
        held = tuple(Held((one,), one.title) for one in revisions_in(snapshot, record))
        said = ". ".join(filter(None, (recalled(snapshot, record), old)))
        return LookedUp(held, remark=said, ends=ends)
    if isinstance(record, Revision):
        held = (Held((record,), record.title),)
        return LookedUp(held, remark=old, newer=_newer(snapshot, held), ends=ends)
    raise BadInput("what was chosen is not here any more; accepted: another one")


def _held_files(snapshot: Snapshot, place: Path, ends: str, old: str) -> LookedUp:
    files, remark = _read(place)
    if not files:
        raise BadInput(
            f"{place}: found no design file in it; accepted: a folder with .stl, "
            ".step, .dxf or the like, or a file by its name"
        )
    held, unknown = held_by_files(snapshot, files)
    releases = released_as(snapshot, files.values())
    rest = came_with(snapshot, releases, held)
    told = release_words(snapshot, releases)
    said = ". ".join(filter(None, (told, remark, old)))
    return LookedUp((*held, *rest), unknown, said, _newer(snapshot, held), ends)


def _read(place: Path) -> tuple[dict[str, DesignFile], str]:
    """Give the files that lie at a place, and what of them could not be read."""
    if not place.is_dir():
        return {place.name: hashed(place)}, ""
    found, problems = design_files(place)
    files = {
        path: DesignFile(path=path, sha256=one.sha256, text_sha256=one.lf_sha256)
        for one in found
        for path in one.paths
    }
    return files, " ".join(str(problem) for problem in problems)


def _newer(snapshot: Snapshot, held: Sequence[Held]) -> tuple[tuple[str, str], ...]:
    told = ((one.because, newer_words(snapshot, one)) for one in held)
    return tuple((because, said) for because, said in told if said)
