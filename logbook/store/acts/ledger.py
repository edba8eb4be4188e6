"""Acts carried out: files written as one act, and an act taken back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from logbook.errors import Refused
from logbook.records.written.text import digest
from logbook.store.acts.last import Act, Touched, note_act, note_undone, read_acts
from logbook.store.acts.replaced import Replaced
from logbook.store.acts.taken_back import UNDO
from logbook.store.disk.save import Write, save


@dataclass(frozen=True, slots=True)
class Ledger:
    """The acts of this clone on the project in `root`; lock and journal in `home`."""

    root: Path
    home: Path

    @property
    def lock(self) -> Path:
        """The lock every save of this project takes."""
        return self.home / "save.lock"

    @property
    def journal(self) -> Path:
        """The journal of the last acts."""
        return self.home / "acts.jsonl"

    def content(self, path: str) -> bytes:
        """Give the bytes of a file, none where it cannot be read."""
        try:
            return (self.root / path).read_bytes()
        except OSError:
            return b""

    def write(
        self, writes: Sequence[Write], subject: str, at: datetime, build: str = ""
    ) -> None:
        """Carry out writes as one durable act, done in this build.

        Raises:
            ChangedMeanwhile, Refused: as `save` does; nothing is noted then.
        """
        touched = tuple(self._touched(write) for write in writes)
        save(self.root, writes, lock=self.lock)
        # It is saved: a journal that cannot be written must not have it said refused.
        with suppress(OSError, Refused):
            act = Act(at.isoformat(), subject, touched, build=build)
            note_act(self.journal, act)

    def replace(self, files: Mapping[str, bytes], subject: str, at: datetime) -> None:
        """Write derived files (notes, guides), whatever stood there, as one act."""
        writes = []
        for path, data in files.items():
            there, old = (self.root / path).exists(), self.content(path)
            if not there or old != data:
                writes.append(Write(path, data, digest(old) if there else None))
        if writes:
            self.write(writes, subject, at)

    def undo(self, act: Act, at: datetime) -> tuple[str, ...]:
        """Take an act back; give the paths touched.

        Raises:
            ChangedMeanwhile: a file was changed since; nothing is touched.
            Refused: a later act of this clone did that; it is named.
        """
        self._refuse_built_upon(act)
        undoing = Act(
            at.isoformat(), f"{UNDO}{act.subject}", (), undoes=True, of=act.at
        )
        return self._reverse(act, undoing)

    def redo(self, undoing: Act, at: datetime) -> tuple[str, ...]:
        """Bring back what this act took back; give the paths touched.

        A file that a merge kept meanwhile, changed in another clone, stays as it is.

        Raises:
            ChangedMeanwhile: a file was changed since; nothing is touched.
            Refused: a text it took away is kept no more.
        """
        acts = read_acts(self.journal)
        build = next((one.build for one in acts if one.at == undoing.of), "")
        subject = undoing.subject.removeprefix(UNDO)
        return self._reverse(undoing, Act(at.isoformat(), subject, (), build=build))

    def reversing(self, act: Act) -> list[Write]:
        """Give the writes that put every file of an act as it was before.

        Raises:
            Refused: a text it replaced is kept no more.
        """
        texts = Replaced(self.home)
        writes = [
            Write(one.path, texts.of(one), one.after or None)
            for one in reversed(act.files)
        ]
        gone = [one for one in writes if one.before or not self._stands(one.path)]
        return gone if act.undoes and gone else writes

    def _refuse_built_upon(self, act: Act) -> None:
        """Refuse to take an act back whose files a later one of this clone changed."""
        changed = [one.path for one in act.files if self._now(one.path) != one.after]
        ours = self.as_left(changed) if changed else {}
        for later in reversed(read_acts(self.journal) if ours else ()):
            for one in later.files:
                if ours.get(one.path) == one.after:
                    did = "changed" if one.after else "took away"
                    raise Refused(
                        f"“{later.subject}” came later and {did} {one.path}; "
                        "accepted: that one taken back first (logbook undo)"
                    )

    def _stands(self, path: str) -> bool:
        return (self.root / path).exists()

    def _reverse(self, act: Act, by: Act) -> tuple[str, ...]:
        """Put the files as they were before an act, noted as done by another."""
        writes = self.reversing(act)
        touched = tuple(self._touched(write) for write in writes)
        save(self.root, writes, lock=self.lock)
        with suppress(OSError, Refused):  # it is done
            note_undone(self.journal, act, replace(by, files=touched))
        Replaced(self.home).let_go(lambda: read_acts(self.journal))
        return tuple(write.path for write in writes)

    def standing(self, saved: Iterable[str], gone: Iterable[str]) -> dict[str, str]:
        """Give the digest of each path git has not taken; empty: taken back here.

        `gone` are paths git misses in the folder. A file the user removed himself is
        his own business and is not in what is given.
        """
        found = {path: digest(self.content(path)) for path in saved}
        missed = [path for path in gone if not (self.root / path).exists()]
        if missed:
            touched = (one for act in read_acts(self.journal) for one in act.files)
            last = {one.path: one.after for one in touched}
            found |= {path: "" for path in missed if last.get(path) == ""}
        return found

    def as_left(self, paths: Iterable[str]) -> dict[str, str]:
        """Give those of these paths that are as the last act on them left them.

        With the digest it left; empty: it took the file away.
        """
        acts = read_acts(self.journal)
        last = {one.path: one.after for act in acts for one in act.files}
        return {path: last[path] for path in paths if self._now(path) == last.get(path)}

    def _now(self, path: str) -> str:
        """Give the digest of a file as it is; empty where there is none."""
        there = (self.root / path).exists()
        return digest(self.content(path)) if there else ""

    def _touched(self, write: Write) -> Touched:
        if write.before is None:
            return Touched(write.path, "", _digest(write))
        replaced = Replaced(self.home).keep(self.content(write.path), write.before)
        return Touched(write.path, write.before, _digest(write), replaced)


def _digest(write: Write) -> str:
    return "" if write.data is None else digest(write.data)
