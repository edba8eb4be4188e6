"""The index as others hold it: opened, brought up to date, asked.

Two connections, one that writes and one that reads, so that a pull taken in
does not keep a screen waiting. Whatever the database complains of, the index is
built anew and the question asked again.
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable, Collection, Iterable
from pathlib import Path
from typing import TypeVar

from logbook.errors import Problem
from logbook.index import query, search
from logbook.index.amend import Amended, amend
from logbook.index.changes import find_changes, is_record, keep
from logbook.index.database import in_memory, open_database
from logbook.index.fill import Progress
from logbook.index.known import Known
from logbook.index.opening import connect
from logbook.index.query import ALL, ENTRIES, Filter, Line
from logbook.index.reading import Read, Seen, read_again
from logbook.index.rebuild import make
from logbook.index.stored import asked_of
from logbook.store.git.repository import Repository

T = TypeVar("T")


class Index:
    """The index of one project; safe to use from several threads."""

    def __init__(self, root: Path, path: Path, db: sqlite3.Connection | None) -> None:
        """Hold an open database; `None` builds one in memory at the first question."""
        self.root = root
        self.path = path
        self.repository = Repository.find(root)
        self._lock = threading.RLock()
        self._reading = threading.RLock()
        self._use(db)

    def _use(self, db: sqlite3.Connection | None) -> None:
        self._in_memory = db is None
        self._write = db or in_memory(self.root)
        self._signatures = Known(self._write)
        self._read = self._write if db is None else connect(self.path)
        if self._in_memory:
            self._reading = self._lock
        self._inode = _inode(self.path)

    # -- opening -----------------------------------------------------------------

    @classmethod
    def open_existing(cls, root: Path, path: Path) -> Index | None:
        """Open the index if it is there and will do; nothing is read or built."""
        db = open_database(root, path)
        return cls(root, path, db) if db is not None else None

    @classmethod
    def open(cls, root: Path, path: Path, progress: Progress | None = None) -> Index:
        """Open the index; build it if it will not do, a large one in a child process.

        Where none can be written it lives in memory. `progress` is told how many
        files of how many were read.
        """
        found = cls.open_existing(root, path)
        if found is None:
            make(root, path, progress)
            found = cls.open_existing(root, path)
        return found or cls(root, path, None)

    @property
    def in_memory(self) -> bool:
        """Tell whether the index lives in memory only."""
        return self._in_memory

    def close(self) -> None:
        """Close the database."""
        with self._lock, self._reading:
            self._read.close()
            self._write.close()

    def rebuild(self, progress: Progress | None = None) -> None:
        """Throw the index away and build it anew."""
        with self._lock, self._reading:
            self.close()
            if not self._in_memory:
                self.path.unlink(missing_ok=True)
                make(self.root, self.path, progress)
            self._use(open_database(self.root, self.path))

    # -- bringing up to date -----------------------------------------------------

    def bring_up_to_date(self) -> tuple[str, ...]:
        """Take in whatever changed on disk; give the ids of the records touched.

        After opening, a pull or a checkout.
        """
        return self._writing(self._full_truth)

    def _full_truth(self) -> tuple[str, ...]:
        known = self._signatures
        changes = find_changes(self._write, self.root, self.repository, known)
        reads, gone = self._look(changes.read, changes.same)
        done = self._amend(reads, [*changes.gone, *gone])
        keep(self._write, changes)
        known.follow([*done.files, *changes.same])
        return done.touched

    def take_in(self, paths: Iterable[str]) -> tuple[str, ...]:
        """Take in these files as they are now; give the ids of the records touched.

        After a save, ours or an editor's; `paths` relative to the project.
        """
        asked = [path for path in paths if path.endswith(".md")]

        def now() -> tuple[str, ...]:
            there = [path for path in asked if is_record(self.root, path)]
            reads, gone = self._look(there)
            done = self._amend(reads, [*gone, *(set(asked) - {*there})])
            self._signatures.follow(done.files)
            return done.touched

        return self._writing(now)

    def _look(
        self, paths: Iterable[str], same: list[tuple[str, Seen]] | None = None
    ) -> tuple[list[Read], list[str]]:
        """Read these files; those that say what they said go to `same`, if given."""
        paths = tuple(paths)
        hashes = {} if same is None else self._hashes(paths)
        reads, gone = [], []
        for path in paths:
            read = read_again(self.root, path, hashes.get(path, ""))
            if isinstance(read, Read):
                reads.append(read)
            elif read is None:
                gone.append(path)
            elif same is not None:
                same.append((path, read))
        return reads, gone

    def _hashes(self, paths: Collection[str]) -> dict[str, str]:
        """Give the hashes of files whose record, if any, is the one that stands."""
        asked = (
            "SELECT file.path, sha256 FROM file "
            "LEFT JOIN record ON record.id = file.record "
            "WHERE (file.record = '' OR record.path = file.path) AND file.path IN"
        )
        return dict(asked_of(self._write, asked, paths))

    def _amend(self, reads: list[Read], gone: list[str]) -> Amended:
        if not reads and not gone:
            return Amended()
        return amend(self._write, self.root, reads, gone)

    # -- asking ------------------------------------------------------------------

    def newest(self, limit: int, wanted: Filter = ENTRIES) -> list[Line]:
        """Give the newest records that fit, newest first; entries if not said."""
        return self._asking(lambda db: query.newest(db, wanted, limit))

    def search(self, typed: str, wanted: Filter = ALL, limit: int = 20) -> list[Line]:
        """Give the newest records that answer what was typed."""
        return self._asking(lambda db: search.search(db, typed, wanted, limit))

    def ranked(self, typed: str, wanted: Filter = ALL, limit: int = 20) -> list[Line]:
        """Give the records that answer best; slower than `search` on common words."""
        return self._asking(lambda db: search.ranked(db, typed, wanted, limit))

    def counts(self) -> dict[str, int]:
        """Give how many records there are of each kind."""
        return self._asking(query.counts)

    def called(self, typed: str, kind: str) -> list[Line]:
        """Give the records of a kind that a name, or the start of an id, can mean."""
        return self._asking(lambda db: query.called(db, typed, kind))

    def mentions(self, identity: str) -> list[Line]:
        """Give the records that refer to this one, oldest first."""
        return self._asking(lambda db: query.mentions(db, identity))

    def problems(self) -> tuple[Problem, ...]:
        """Give what is wrong in single files; what clashes, a snapshot tells."""
        return self._asking(lambda db: tuple(query.problems(db)))

    # -- damage ------------------------------------------------------------------

    def _asking(self, question: Callable[[sqlite3.Connection], T]) -> T:
        with self._reading:
            try:
                return question(self._read)
            except sqlite3.DatabaseError as error:
                if _ours(error):
                    raise
        with self._lock, self._reading:
            self.rebuild()
            return question(self._read)

    def _writing(self, act: Callable[[], T]) -> T:
        with self._lock:
            try:
                if not self._in_memory and _inode(self.path) != self._inode:
                    self._reopen()
                return act()
            except sqlite3.DatabaseError as error:
                if _ours(error):
                    raise
            self.rebuild()
            return act()

    def _reopen(self) -> None:
        """Open anew what another program has put in place, or taken away."""
        with self._reading:
            db = open_database(self.root, self.path)
            if db is None:
                self.rebuild()
                return
            self.close()
            self._use(db)


def _inode(path: Path) -> int:
    try:
        return path.stat().st_ino
    except OSError:
        return 0


def _ours(error: sqlite3.DatabaseError) -> bool:
    """Tell an error of ours, or a wait that was too long, from damage."""
    busy = getattr(error, "sqlite_errorcode", 0) & 0xFF in {
        sqlite3.SQLITE_BUSY,
        sqlite3.SQLITE_LOCKED,
    }
    return busy or isinstance(error, sqlite3.ProgrammingError)
