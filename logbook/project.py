"""The face of a project: its records at this moment, saving, committing, undoing.

Screens and command line talk to this and to nothing below it. A save is durable
when it returns; git follows separately, whenever `commit_waiting` is called.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import BadInput, ChangedMeanwhile, NotFound, Refused
from logbook.records.edit import edit_record
from logbook.records.kinds import FOLDER, kind_of, path_of
from logbook.records.making import Draft
from logbook.records.model import Build, Record
from logbook.records.snapshot import Snapshot
from logbook.records.text import digest, write_record
from logbook.store.acts import (
    KEPT,
    Act,
    Touched,
    grouped,
    last_act,
    mark_undone,
    note_act,
    read_acts,
)
from logbook.store.find import NO_RECORDS, find_project
from logbook.store.git.repository import Repository
from logbook.store.reading import Files, read_files, reread, snapshot_of
from logbook.store.save import Write, clean_up, save

if TYPE_CHECKING:
    from logbook.store.git.outcome import Outcome

STATE_FOLDER = "as-built-logbook"
"""Our folder in the git directory: journal, lock, index."""


@dataclass(frozen=True, slots=True)
class Saved:
    """What a save wrote: the records with their files, in order."""

    records: tuple[Record, ...]
    paths: tuple[str, ...]


class Project:
    """A project opened from a folder; `snapshot` is replaced whole by each save."""

    def __init__(self, root: Path, repository: Repository) -> None:
        """Hold the folder that contains the records, and its repository."""
        self.root = root
        self.repository = repository
        self.snapshot = Snapshot({})
        self._files: Files = {}

    @classmethod
    def open(cls, folder: Path) -> Project:
        """Open the nearest project from `folder` upward, and read it.

        Raises:
            NoProject: there is none.
            Refused: it lies in no git repository.
        """
        root = find_project(folder).parent
        project = cls(root, repository_of(root))
        clean_up(root / FOLDER, lock=project.lock)
        project.reload()
        return project

    @property
    def lock(self) -> Path:
        """The lock every save of this project takes."""
        return self._own("save.lock")

    @property
    def journal(self) -> Path:
        """The journal of this clone's last acts."""
        return self._own("acts.jsonl")

    @property
    def folder(self) -> str:
        """The records' folder as git names it, from the top of the work tree."""
        return self.repository.relative(self.root / FOLDER)

    @property
    def own_templates(self) -> Path:
        """Where the user's own templates are looked for."""
        return self.root / FOLDER / "templates"

    def _own(self, name: str) -> Path:
        return self.repository.git_path(STATE_FOLDER) / self._tag() / name

    def _tag(self) -> str:
        """Tell several projects of one repository apart."""
        return digest(self.repository.relative(self.root).encode())[:12]

    def reload(self) -> None:
        """Read all records again."""
        self._files = read_files(self.root)
        self.snapshot = snapshot_of(self._files)

    def _refresh(self, writes: Sequence[Write]) -> None:
        """Read again what was just written."""
        records = [w.path for w in writes if _is_record(w.path)]
        self._files = reread(self.root, self._files, records)
        self.snapshot = snapshot_of(self._files)

    # -- writing -----------------------------------------------------------------

    def draft(self, now: datetime, build: str = "") -> Draft:
        """Begin a draft; `build` names the build meant, else the current one."""
        chosen = self.snapshot.lookup(build, Build) if build else None
        return Draft(self.snapshot, now, chosen)

    def save(
        self,
        draft: Draft,
        subject: str,
        at: datetime,
        files: Mapping[str, bytes] | None = None,
    ) -> Saved:
        """Save all records of a draft, and other files first, in one durable step.

        Raises:
            ChangedMeanwhile: a record is not what was read; nothing was written.
            Refused: the project is read-only, or the disk refused.
        """
        if self.snapshot.read_only:
            raise Refused(
                "this project was written by a newer logbook and is open read-only; "
                "accepted: a newer logbook"
            )
        others = [Write(path, data, None) for path, data in (files or {}).items()]
        writes = [self._amending(record) for record in draft.amended]
        made = [(path_of(record), write_record(record)) for record in draft.new]
        writes += [Write(path, text.encode(), None) for path, text in made]
        self._write([*others, *writes], subject, at)
        self._refresh(writes)
        return Saved(draft.records, tuple(write.path for write in writes))

    def _amending(self, record: Record) -> Write:
        path = self.snapshot.path(record)
        data = self._bytes(path)
        before = self.snapshot.stored[record.id].sha256
        if digest(data) != before:
            raise ChangedMeanwhile(
                f"{path} was changed by someone else since it was read; "
                "nothing was overwritten"
            )
        return Write(path, edit_record(data, record, path), before)

    def _bytes(self, path: str) -> bytes:
        try:
            return (self.root / path).read_bytes()
        except OSError:
            return b""

    def write_files(
        self, files: Mapping[str, bytes], subject: str, at: datetime
    ) -> None:
        """Write derived files (notes, guides), whatever stood there, as one act."""
        writes = []
        for path, data in files.items():
            there = (self.root / path).exists()
            old = self._bytes(path)
            if not there or old != data:
                writes.append(Write(path, data, digest(old) if there else None))
        if writes:
            self._write(writes, subject, at)

    def _write(self, writes: Sequence[Write], subject: str, at: datetime) -> None:
        touched = tuple(self._touched(write) for write in writes)
        save(self.root, writes, lock=self.lock)
        note_act(self.journal, Act(at.isoformat(), subject, touched))

    def _touched(self, write: Write) -> Touched:
        after = _digest_of(write)
        if write.before is None:
            return Touched(write.path, "", after)
        replaced = self._bytes(write.path).decode("utf-8", "surrogateescape")
        return Touched(write.path, write.before, after, replaced)

    # -- taking back -------------------------------------------------------------

    def undo(self, at: datetime) -> Act:
        """Take the last act back: new files go, replaced ones come back.

        History is not rewritten; what was committed is followed by a commit
        that takes it back.

        Raises:
            NotFound: there is nothing left to undo here.
            ChangedMeanwhile: a file was changed since; nothing is touched.
        """
        act = last_act(self.journal)
        if act is None:
            raise NotFound("there is nothing to undo in this clone")
        writes = []
        for touched in reversed(act.files):
            data = None
            if touched.before:
                data = touched.replaced.encode("utf-8", "surrogateescape")
            writes.append(Write(touched.path, data, touched.after or None))
        subject = f"undo: {act.subject}"
        restored = tuple(
            Touched(write.path, write.before or "", _digest_of(write))
            for write in writes
        )
        save(self.root, writes, lock=self.lock)
        mark_undone(self.journal, act)
        note_act(self.journal, Act(at.isoformat(), subject, restored, undoes=True))
        self._refresh(writes)
        return act

    # -- git ---------------------------------------------------------------------

    def waiting(self) -> tuple[str, ...]:
        """Give the record files git has not taken yet, relative to the project."""
        from logbook.store.git.waiting import waiting

        top = self.repository.top
        return tuple(
            (top / path).relative_to(self.root).as_posix()
            for path in waiting(self.repository, self.folder)
        )

    def commit_waiting(self) -> Outcome:
        """Commit what waits, one commit for each act, in the order it was done."""
        from logbook.store.git.message import Change
        from logbook.store.git.route import commit

        acts = read_acts(self.journal)
        digests = {path: self._digest(path) for path in self.waiting()}
        digests.update(self._taken_back(acts))
        changes = []
        for subject, instant, paths in grouped(digests, acts):
            changes.append(
                Change(
                    paths=tuple(self.in_tree(path) for path in paths),
                    subject=subject or self._subject(paths[0]),
                    when=instant,
                )
            )
        return commit(self.repository, changes, folder=self.folder)

    def _taken_back(self, acts: Sequence[Act]) -> dict[str, str]:
        """Give the files recent acts removed; git has yet to hear of some."""
        gone = {touched.path for act in acts[-KEPT:] for touched in act.files}
        return {path: "" for path in gone if not (self.root / path).exists()}

    def _digest(self, path: str) -> str:
        return digest(self._bytes(path)) if (self.root / path).exists() else ""

    def in_tree(self, path: str) -> str:
        """Give a path of the project as git names it, from the top of the tree."""
        return self.repository.relative(self.root / path)

    def _subject(self, path: str) -> str:
        for stored in self.snapshot.stored.values():
            if stored.path == path:
                return f"{kind_of(stored.record).shown}: {stored.record.title}"
        return f"as built: {Path(path).name}"


def _is_record(path: str) -> bool:
    """Tell a record's file from a photo, a page or a file of git's."""
    parts = path.split("/")
    return path.endswith(".md") and parts[1] not in NO_RECORDS


def _digest_of(write: Write) -> str:
    return "" if write.data is None else digest(write.data)


def repository_of(folder: Path) -> Repository:
    """Give the repository a folder lies in.

    Raises:
        Refused: it lies in none.
    """
    repository = Repository.find(folder)
    if repository is None:
        raise Refused(
            f"{folder} is in no git repository; accepted: a folder of one (git init)"
        )
    if repository.bare:
        raise BadInput(f"{folder} is a bare repository; accepted: a clone of it")
    return repository
