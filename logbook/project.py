"""The face of a project: its records at this moment, saving, committing, undoing.

Screens and command line talk to this and to nothing below it. A save is durable
when it returns; git follows separately, whenever `commit_waiting` is called.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import NotFound, Refused
from logbook.records.kinds.place import FOLDER
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of, path_of
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import next_snapshot
from logbook.records.written.text import write_record
from logbook.store.acts.amending import amended, dropped
from logbook.store.acts.last import Act, acts_taken_back, read_acts, undoable_acts
from logbook.store.acts.ledger import Ledger
from logbook.store.acts.signed import sign_builds
from logbook.store.acts.taken_away import TakenAway
from logbook.store.acts.taking_back import refuse_named, refuse_released
from logbook.store.disk.save import Write, clean_up
from logbook.store.git.own_folder import in_git_folder
from logbook.store.git.repository import Repository, repository_of
from logbook.store.photos.sorted_items import sorted_again, wait_again
from logbook.store.reading.at_hand import build_at_hand, worked_in
from logbook.store.reading.at_odds import refuse_at_odds
from logbook.store.reading.find import find_project, is_record
from logbook.store.reading.records import Files, read_files, reread, snapshot_of

if TYPE_CHECKING:
    from logbook.store.git.outcome import Outcome
    from logbook.store.git.waiting import Lost


@dataclass(frozen=True, slots=True)
class Saved:
    """What a save wrote: the records with their files, in order."""

    records: tuple[Record, ...]
    paths: tuple[str, ...]


Choose = Callable[[Sequence[Act]], Act | None]
"""Chooses an act to take back among those that can be, the newest first."""


class Project:
    """A project opened from a folder; `snapshot` is replaced whole by each save."""

    def __init__(self, root: Path, repository: Repository) -> None:
        """Hold the folder that contains the records, and its repository."""
        self.root = root
        self.repository = repository
        self.snapshot = Snapshot({})
        self._files: Files = {}
        self._ledger = Ledger(root, self.own(""))
        self._away = TakenAway(root, repository, self._ledger)

    @classmethod
    def open(cls, folder: Path, read: Callable[[Path], Files] = read_files) -> Project:
        """Open the nearest project from `folder` upward; `read` reads its records.

        Raises:
            NoProject: there is none.
            Refused: it lies in no git repository.
        """
        root = find_project(folder).parent
        project = cls(root, repository_of(root))
        clean_up(root / FOLDER, lock=project.own("save.lock"))
        project.reload(read)
        return project

    @property
    def folder(self) -> str:
        """The records' folder as git names it, from the top of the work tree."""
        return self.repository.relative(self.root / FOLDER)

    @property
    def own_templates(self) -> Path:
        """Where the user's own templates are looked for."""
        return self.root / FOLDER / "templates"

    def own(self, name: str) -> Path:
        """Give the place of a file of ours in the git directory."""
        return in_git_folder(self.repository, self.root, name)

    def reload(self, read: Callable[[Path], Files] = read_files) -> None:
        """Read all records again."""
        self._files = read(self.root)
        self.snapshot = snapshot_of(self._files)

    def refresh(self, paths: tuple[str, ...]) -> None:
        """Read the records with these paths again."""
        self.take_in(paths)

    def take_in(self, paths: tuple[str, ...]) -> bool:
        """Read these records again where their content differs; tell if any does."""
        own = [path for path in paths if is_record(path)]
        old = self._files
        new = reread(self.root, old, own)
        after = next_snapshot(self.snapshot, old, new, own)
        differs = after is not self.snapshot
        self._files, self.snapshot = new, after
        return differs

    # -- writing -----------------------------------------------------------------

    def draft(self, now: datetime, build: str = "") -> Draft:
        """Begin a draft; `build` names the build meant, else the one at hand."""
        chosen = self.snapshot.lookup(build, Build) if build else self.at_hand
        return Draft(self.snapshot, now, chosen)

    @property
    def at_hand(self) -> Build | None:
        """The build that is worked on here, by what was typed last."""
        return build_at_hand(self.snapshot, read_acts(self._ledger.journal))

    @property
    def logged_here(self) -> bool:
        """Tell whether anything was ever put on record in this clone."""
        return bool(read_acts(self._ledger.journal))

    def save(
        self,
        draft: Draft,
        subject: str,
        at: datetime,
        files: Mapping[str, bytes] | None = None,
        shown: str = "",
    ) -> Saved:
        """Save all records of a draft, and other files first, in one durable step.

        `shown` is the id of the build one is looking at meanwhile.

        Raises:
            ChangedMeanwhile: a record is not what was read; nothing was written.
            Refused: the project is read-only, or the disk refused.
        """
        if why := self.snapshot.read_only:
            raise Refused(why)
        sign_builds(draft, self.root, self.repository)
        others = [Write(path, data, None) for path, data in (files or {}).items()]
        writes = [
            amended(self.snapshot, self._ledger, record) for record in draft.amended
        ]
        writes += [
            Write(path_of(record), write_record(record).encode(), None)
            for record in draft.new
        ]
        writes += [
            dropped(self.snapshot, self._ledger, record) for record in draft.dropped
        ]
        paths = tuple(write.path for write in writes)
        build = worked_in(draft.new, shown)
        self._ledger.write([*others, *writes], subject, at, build)
        self.refresh(paths)
        return Saved(draft.records, paths)

    def write_files(
        self, files: Mapping[str, bytes], subject: str, at: datetime
    ) -> None:
        """Write derived files (notes, guides), whatever stood there, as one act."""
        self._ledger.replace(files, subject, at)

    def undo(self, at: datetime, choose: Choose | None = None) -> Act:
        """Take the last act back, or the one chosen: new files go, replaced come back.

        History is not rewritten; what was committed is followed by a commit
        that takes it back.

        Raises:
            NotFound: there is nothing left to undo here.
            ChangedMeanwhile: a file was changed since; nothing is touched.
            Refused: it made a release whose tag stands, or a record that one which
                stays names.
        """
        act = self.undoable(choose)
        if act is None:
            raise NotFound("there is nothing to undo in this clone")
        refuse_released(self.snapshot, self.repository, act)
        refuse_named(self.snapshot, self.records_of(act), act)
        self.refresh(self._ledger.undo(act, at))
        wait_again(self.root, act)
        return act

    def redo(self, at: datetime, choose: Choose | None = None) -> Act:
        """Bring back what was taken back last, or by the act chosen; give that act.

        It is an act like any other then, and can be taken back again.

        Raises:
            NotFound: nothing that was taken back is left to bring back here.
            ChangedMeanwhile: a file was changed since; nothing is touched.
            Refused: it is at odds with what was logged since, or kept no more.
        """
        acts = acts_taken_back(self._ledger.journal)
        act = choose(acts) if choose else next(iter(acts), None)
        if act is None:
            raise NotFound("nothing taken back in this clone is left to bring back")
        refuse_at_odds(self.snapshot, self._files, self._ledger.reversing(act))
        self.refresh(self._ledger.redo(act, at))
        sorted_again(self.root, act)
        return act

    def undoable(self, choose: Choose | None = None) -> Act | None:
        """Give the act `undo` would take back; None where nothing is left to undo."""
        acts = undoable_acts(self._ledger.journal)
        return choose(acts) if choose else next(iter(acts), None)

    def records_of(self, act: Act) -> tuple[Record, ...]:
        """Give the records an act wrote, as they are now; not those that are gone."""
        paths = (touched.path for touched in act.files if touched.path in self._files)
        found = (self._files[path][1].record for path in paths)
        return tuple(record for record in found if record is not None)

    def made_with(self, identity: str) -> tuple[Record, ...]:
        """Give the records that one act made together with this one, as they are now.

        Nothing where this clone does not know the act any more.
        """
        path = self.snapshot.stored[identity].path
        for act in undoable_acts(self._ledger.journal):
            if any(one.path == path and not one.before for one in act.files):
                return self.records_of(act)
        return ()

    # -- git ---------------------------------------------------------------------

    def waiting(self) -> tuple[str, ...]:
        """Give the record files git has not taken yet, relative to the project.

        Among them are those that were taken back while git still has them.

        Raises:
            Refused: git cannot tell.
        """
        return tuple(sorted(self._away.standing()))

    def deleted(self) -> tuple[str, ...]:
        """Give the files that were deleted by hand and that git still has."""
        return self._away.by_hand()

    def taken(self, path: str) -> bool:
        """Tell whether git has a file as it is; False where git cannot tell."""
        try:
            return path not in self.waiting()
        except Refused:
            return False

    def commit_waiting(self) -> Outcome:
        """Commit what waits, one commit for each act, in the order it was done."""
        from logbook.store.git.outcome import Outcome
        from logbook.store.git.route import commit
        from logbook.store.git.survey import why_unanswered

        try:
            changes = self._away.waiting_changes(self._called)
            return commit(self.repository, changes, folder=self.folder)
        except Refused as said:  # what was logged is saved all the same
            why = why_unanswered(self.repository, self.folder, said)
            return Outcome(unanswered=why)

    def lost(self) -> tuple[Lost, ...]:
        """Give the saved files git clean, stash or reset took; git still has them."""
        return self._away.lost()

    def bring_back(self, at: datetime) -> tuple[str, ...]:
        """Write what was lost where it stood, as one act; give the paths.

        Raises:
            Refused: git has it no more, or the disk refused.
        """
        paths = self._away.bring_back(at)
        self.refresh(tuple(path for path in paths if is_record(path)))
        return paths

    def let_go(self) -> tuple[str, ...]:
        """Let git keep no longer what was lost; give the paths."""
        return self._away.let_go()

    def in_tree(self, path: str) -> str:
        """Give a path of the project as git names it, from the top of the tree."""
        return self.repository.relative(self.root / path)

    def _called(self, path: str) -> str:
        """Name the record of a file, with its kind; empty where it holds none."""
        record = self._files[path][1].record if path in self._files else None
        return f"{kind_of(record).shown}: {record.title}" if record else ""
