"""What somebody holds before a rebuild: chosen, and what its row means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from logbook.advice.faults.held_release import came_with, release_words, released_as
from logbook.advice.faults.holding import (
    Held,
    held_by_build,
    held_by_files,
)
from logbook.errors import BadInput
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.together.references import is_bought
from logbook.records.together.revisions import revisions_in, shown_label
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.record.record_words import said_of_record
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.store.designs.design_files import design_files, hashed


class Holds(Choosing):
    """What somebody can hold: builds, releases, revisions, files by their content."""

    ASKS = "a name; or the path of a file or a folder you hold"
    NOTHING = "nothing is called so, and no file or folder is there"
    MARGIN_WORD = "you hold ›"
    WAY = "rebuild"
    ONLY_BESIDE = True

    def __init__(self, desk: Desk) -> None:
        """Ask what is held."""
        super().__init__(desk, "before a rebuild: what do you hold?")

    def choose(self, chosen: Line) -> None:
        """Give the whole row."""
        self.dismiss(chosen)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what fits; a whole path that is there stands first, one from here last.

        A folder may be called as a build is.
        """
        words = typed.casefold().split()
        fitting = (
            line
            for line in self._known()
            if all(word in f"{line.words} {line.kind}".casefold() for word in words)
        )
        paths = [*self._paths(typed)]
        if typed.strip().startswith("~") or Path(typed.strip()).is_absolute():
            return [*paths, *fitting]
        return [*fitting, *paths]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what is on record of a build, a release or a revision."""
        record = self.desk.snapshot.by_id(line.key.partition(" ")[2])
        return [*said_of_record(record)] if record else ()

    def _paths(self, typed: str) -> Iterator[Line]:
        place = typed.strip()
        if not place or len(place) > 1000 or "\0" in place:
            return
        try:
            path = next((p for p in self._meant_by(Path(place)) if p.exists()), None)
        except (OSError, RuntimeError):
            return
        if path is not None:
            kind = "folder" if path.is_dir() else "file"
            yield Line(f"path {path}", "", str(path), kind)

    def _meant_by(self, path: Path) -> Iterator[Path]:
        """Give where a path may lead: from the terminal's folder or the project's."""
        yield path.expanduser().absolute()
        if self.desk.is_open:
            yield self.desk.project.root / path.expanduser()

    def _known(self) -> Iterator[Line]:
        """Give what can be held; of another's builds nobody holds one."""
        snapshot, others = self.desk.snapshot, self.desk.standing_in.others_builds
        builds = [
            Line(f"build {build.id}", "", build.title, "build")
            for build in reversed(snapshot.all(Build))
        ]
        if not others:
            yield from builds
        for release in reversed(snapshot.all(Release)):
            yield Line(f"release {release.id}", "", release.title, "release")
        if self.desk.is_open:
            root = self.desk.project.root
            yield Line(f"path {root}", "", "the design files in this checkout", "files")
        if others:
            yield from builds
        for revision in _telling_first(snapshot):
            words = f"{revision.part.name} {shown_label(revision)}"
            yield Line(f"revision {revision.id}", "", words, "revision")


def _telling_first(snapshot: Snapshot) -> list[Revision]:
    """Give the revisions, newest first; those of what is bought come last."""
    newest_first = snapshot.all(Revision)[::-1]
    return sorted(newest_first, key=lambda one: is_bought(snapshot, one.part))


def held_as(snapshot: Snapshot, key: str) -> tuple[tuple[Held, ...], str]:
    """Give what a row of `Holds` means, and a remark on what could not be told.

    Raises:
        BadInput: a file cannot be read, or nothing there is known.
    """
    sort, _, rest = key.partition(" ")
    if sort == "path":
        return _held_files(snapshot, Path(rest))
    record = snapshot.by_id(rest)
    if isinstance(record, Build):
        return held_by_build(snapshot, record), ""
    if isinstance(record, Release):
        held = [Held((one,), one.title) for one in revisions_in(snapshot, record)]
        return tuple(held), ""
    if isinstance(record, Revision):
        return (Held((record,), record.title),), ""
    raise BadInput("what was chosen is not here any more; accepted: another one")


def _held_files(snapshot: Snapshot, place: Path) -> tuple[tuple[Held, ...], str]:
    if place.is_dir():
        found, problems = design_files(place)
        files = {
            path: DesignFile(path=path, sha256=one.sha256, text_sha256=one.lf_sha256)
            for one in found
            for path in one.paths
        }
        remark = " ".join(str(problem) for problem in problems)
    else:
        files, remark = {place.name: hashed(place)}, ""
    held, unknown = held_by_files(snapshot, files)
    if not held:
        raise BadInput(
            f"no revision on record has the content of {place}; accepted: a file as "
            "it was recorded or released"
        )
    if unknown and not place.is_dir():
        remark = f"{', '.join(unknown)} belongs to no revision on record"
    releases = released_as(snapshot, files.values())
    named = release_words(releases)
    rest = came_with(snapshot, releases, held)
    return (*held, *rest), ". ".join(filter(None, (named, remark)))
