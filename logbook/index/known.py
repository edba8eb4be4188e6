"""The signatures of the files as the index has them, by folder.

Those of a small project stay in memory from one look to the next, as long as nobody
else writes to the database.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Mapping

from logbook.index.reading import Seen

FEW_KEPT = 4000
"""The signatures of so many files are kept: a megabyte or two."""

Files = dict[str, dict[str, Seen]]


class Known:
    """What the index knows of the files' signatures."""

    def __init__(self, db: sqlite3.Connection) -> None:
        """Ask this database, the one that takes the changes in."""
        self._db = db
        self._files: Files | None = None
        self._as_of: tuple[int, int] = (0, 0)

    def files(self) -> Mapping[str, Mapping[str, Seen]]:
        """Give the signature of each file, by its folder and its name."""
        if self._files is not None and self._as_of == self._now():
            return self._files
        now = self._now()
        files: Files = {}
        many = 0
        asked = "SELECT path, size, written_ns, changed_ns, inode FROM file"
        for path, size, written, changed, inode in self._db.execute(asked):
            folder, _, name = path.rpartition("/")
            files.setdefault(folder, {})[name] = size, written, changed, inode
            many += 1
        self._files = files if many <= FEW_KEPT else None
        self._as_of = now
        return files

    def _now(self) -> tuple[int, int]:
        """Tell the state of the database: what others wrote, and what this one did."""
        others = self._db.execute("PRAGMA data_version").fetchone()[0]
        return others, self._db.total_changes

    def follow(self, seen: Iterable[tuple[str, Seen | None]]) -> None:
        """Follow what has just been written: the files with their signatures now.

        Whoever writes to the database by this connection tells all of it here; where
        others wrote too, it is all read again.
        """
        others, _ = self._as_of
        if self._files is None or self._now()[0] != others:
            self._files = None
            return
        for path, one in seen:
            folder, _, name = path.rpartition("/")
            files = self._files.setdefault(folder, {})
            if one is None:
                files.pop(name, None)
            else:
                files[name] = one
        self._as_of = self._now()
