"""What somebody holds before a rebuild: chosen, and what its row means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from logbook.advice.faults.withdrawn_release import withdrawn_words
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.together.references import is_bought
from logbook.records.together.revisions import shown_label
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.record.record_words import said_of_record
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say


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
        """Give the whole row, by its name."""
        record = self.desk.snapshot.by_id(chosen.key.partition(" ")[2])
        named = isinstance(record, Build | Release)
        self.dismiss(
            replace(chosen, words=record.title) if record and named else chosen
        )

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what fits; a whole path that is there stands first, one from here last.

        A folder may be called as a build is.
        """
        words = typed.casefold().split()
        fitting = (
            _row(self.desk.snapshot, line)
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


def _row(snapshot: Snapshot, line: Line) -> Line:
    """Give a row that says its kind once; of a build or a release what tells it."""
    record = snapshot.by_id(line.key.partition(" ")[2])
    if not isinstance(record, Build | Release):
        return line
    lead = f"{line.kind} "
    bare = line.words
    if bare.casefold().startswith(lead):
        bare = bare[len(lead) :]
    if isinstance(record, Release):
        told = withdrawn_words(snapshot, record) or f"{record.when:%Y-%m-%d}"
    else:
        told = f"of {record.release.name}" if record.release else record.purpose
    return replace(line, words=" · ".join(filter(None, (bare, told))))


def _telling_first(snapshot: Snapshot) -> list[Revision]:
    """Give the revisions, newest first; those of what is bought come last."""
    newest_first = snapshot.all(Revision)[::-1]
    return sorted(newest_first, key=lambda one: is_bought(snapshot, one.part))
