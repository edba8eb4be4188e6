"""The desk: the open project as the screens use it; the work is done behind it.

What is written, looked at and given to git has a room of its own each; all of it runs
in threads, and what came of it goes to the app as a message.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from textual.app import App
from textual.content import Content
from textual.message import Message

from logbook.advice.advisor import Told
from logbook.errors import LogbookError
from logbook.plain.words.vocabulary import Vocabulary
from logbook.project import Choose, Project
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.screens.desk.adviser import Adviser
from logbook.screens.desk.behind import Behind
from logbook.screens.desk.committing import Committing
from logbook.screens.desk.keeping import Keeping
from logbook.screens.desk.long_work import Stopped
from logbook.screens.desk.looking import Looking
from logbook.screens.desk.lookup import Lookup
from logbook.screens.desk.news import Elsewhere, Job, Kept, NotOpened, Opened, ReadAgain
from logbook.screens.desk.put_on_record import put_on_record
from logbook.screens.desk.standing_in import StandingIn
from logbook.screens.desk.step_clock import StepClock
from logbook.screens.desk.turns import reading_much
from logbook.screens.desk.writing import Writing
from logbook.store.acts.last import Act
from logbook.store.git.command import let_keys_go_first
from logbook.store.git.own_folder import INDEX, in_git_folder
from logbook.store.git.repository import repository_of
from logbook.store.reading.find import find_project
from logbook.store.reading.watch import Watch
from logbook.store.typed.user_settings import read_settings


class Desk(Behind):
    """The open project, what was seen in it last, and what can be done to it."""

    def __init__(self, app: App[Any], folder: Path) -> None:
        """Work for this app on the project of this folder."""
        super().__init__(app, folder)
        self.keeping = Keeping(self, lambda: not self._writing.at_rest)
        self.settings = read_settings()
        self.clock = StepClock(
            lambda work: self.run(work, "clock"),
            lambda said: self.post(Kept(said)),
            self.settings.idle_minutes,
        )
        self.looking, self.git = Looking(self), Committing(self)
        self.standing_in = StandingIn()
        self._writing = Writing(self, self._wrote, self.clock, self.standing_in)
        self.refusal: LogbookError | None = None
        self.advice = Told((), ())
        self.advised: tuple[Build | None, ...] = ()
        self.standing: tuple[Content, ...] = (Content(""), Content(""))
        self.words = Vocabulary(datetime.now(UTC).astimezone())

    # -- what is known -----------------------------------------------------------

    @property
    def knows_waits(self) -> bool:
        """Tell whether the advice that came is about the build now chosen."""
        now = self.here
        ids = [one.id if one else "" for one in self.advised]
        return ids == [now.id if now else ""]

    @property
    def pending(self) -> tuple[str, ...]:
        """The lines that are still being written."""
        return self._writing.pending

    @property
    def listed(self) -> Sequence[Record]:
        """The entries of earlier builds, then those of the build now chosen.

        Among these stand the revisions that were made in it.
        """
        return self.arranged[1]

    def called(self, record: Record) -> str:
        """Give what a list calls a record by what it put on record; empty: its kind."""
        return put_on_record(self.snapshot, record)

    @property
    def listed_before(self) -> int:
        """How many of those listed are of earlier builds."""
        return self.arranged[2]

    @property
    def entries(self) -> Sequence[Entry]:
        """The entries of the build now chosen, oldest first."""
        return self.arranged[0]

    @property
    def last_entry(self) -> Entry | None:
        """The entry of the build shown that was written last on this desk.

        Else the newest of it: what came from another clone may be newer, but is
        not what was just typed.
        """
        build = self.here
        for identity in reversed(self._writing.wrote):
            entry = self.snapshot.by_id(identity, Entry)
            if entry is None:
                continue
            if entry.build is None or build is None or entry.build.id == build.id:
                return entry
        return self.entries[-1] if self.entries else None

    def wrote_here(self, record: Entry | Build) -> bool:
        """Tell whether an entry or a build was written in this window, not long ago."""
        return record.id in self._writing.wrote

    def clock_words(self, *, short: bool = False) -> str:
        """Say how the clock stands, and where it counts for another build."""
        on = self.clock.on
        build = self.called_if_other(on.build) if on else ""
        return self.clock.words(self.now(), build, short=short)

    @property
    def lookup(self) -> Lookup | None:
        """The index, once the project is open."""
        return self.looking.lookup

    @property
    def unfinished(self) -> str:
        """What of git is unfinished, a merge or the like."""
        return self.git.unfinished

    # -- opening and looking -----------------------------------------------------

    def open(self) -> None:
        """Open the project; `Opened` or `NotOpened` follows."""
        self.run(self._open, "open")

    def read_again(self) -> None:
        """Read the records though that was stopped; `ReadAgain` follows at once."""
        self.refusal = None
        self.post(ReadAgain())
        self.open()

    def _open(self) -> None:
        if not self.standing_in.is_open:
            self.standing_in.open(self.keeping.root)
        try:
            with self.door:
                self._read()
        except LogbookError as refusal:
            self.refusal = refusal
            self.post(NotOpened(refusal))
            return
        self.post(Opened(self.standing_in.why))
        self._look_around()
        self.looking.over()
        self.git.commit_now()
        if self.lookup is not None:
            with suppress(Stopped):
                self.lookup.catch_up()

    def _read(self) -> None:
        let_keys_go_first()
        root = find_project(self.folder).parent
        place = in_git_folder(repository_of(root), root, INDEX)
        self.looking.lookup = Lookup(root, place, self.works)
        watch = Watch(root)
        adviser = self.looking.adviser = Adviser(root, self.works)
        with reading_much():
            project = Project.open(self.folder, adviser.read)
        self.choose(self.standing_in.begin(project))
        self.prepare(project.snapshot, self.build)
        self.opened = project
        self.clock.load(root, project.snapshot)
        self.changes = watch

    def go_on_with(self, build: Build) -> None:
        """Choose the build that is meant from now on."""
        self.choose(build)
        self.look()

    def look(self) -> None:
        """Look the records over again, for the build now chosen."""
        self.run(self.looking.over, "look")

    def watch(self) -> None:
        """Look whether anything was changed from outside."""
        if self.standing_in.is_open:
            self.run(self._look_around, "windows")
        if self.changes is not None:
            self.run(self._watched, "watch")

    def _look_around(self) -> None:
        """Look what other windows of the project do, and let them know of this one."""
        self.keeping.watch()
        self.clock.look()
        if self.standing_in.look(self.shown, self.now()):
            self.post(Elsewhere(self.standing_in.others))

    def close(self) -> None:
        """Keep what is being typed for whoever comes next; this window goes."""
        self.keeping.hand_over()
        self.standing_in.close(self.shown, self.now())

    def _watched(self) -> None:
        if self.changes is None or not self.door.acquire(blocking=False):
            return
        try:
            paths = self.changes.changed()
            changed = bool(paths) and self.project.take_in(paths)
        finally:
            self.door.release()
        if changed:
            self.looking.over(paths)
        self.git.look(changed=changed)

    def impact(self, asked: Revision) -> None:
        """Ask what a revision would touch; `Impact` follows."""
        self.looking.impact(asked)

    def advise_so_far(self, rows: str, more: Sequence[Record], build: Build) -> None:
        """Ask what gaps come to with what is typed so far; `AdvisedSoFar` follows."""
        self.looking.so_far(rows, more, build)

    def suppose(self, about: str, typed: str) -> None:
        """Ask what a gap or joint came to if this were so; `Supposed` follows."""
        self.looking.suppose(about, typed)

    # -- writing and git ---------------------------------------------------------

    def write(self, job: Job) -> None:
        """Write a job after those before it; `Written` or `NotWritten` follows."""
        self._writing.write(job)

    def take_back(self, named: Act | None, ask: Callable[[Message], object]) -> None:
        """Take back what was done here last, asking first of what is `named` by ask."""
        self._writing.take_back(named, ask)

    def bring_back(self) -> None:
        """Bring back what was taken back here last; `Undone` follows."""
        self._writing.bring_back()

    def undo_chosen(self, choose: Choose) -> None:
        """Take back the act that is chosen; `Undone` follows."""
        self._writing.undo(choose)

    def ask_undo(self, choose: Choose) -> None:
        """Ask what an undo would take back; `ToUndo` follows."""
        self._writing.ask_undo(choose)

    @property
    def git_waits(self) -> bool:
        """Tell whether git waits while readings come in."""
        return self.looking.hold

    def hold_git(self) -> None:
        """Let git wait while readings come in, one after the other."""
        self.looking.hold = True

    def let_git(self) -> None:
        """Let git go on."""
        self.looking.hold = False
        self.rest()

    def rest(self) -> None:
        """Give git what waits, though a run is still open, and advise on all of it."""
        self.commit()
        self.run(self.looking.fold, "fold")

    def commit(self) -> None:
        """Give git what waits; `Taken` follows."""
        self.git.commit()

    def history(self, record_id: str) -> None:
        """Ask git how a record came to be; `History` follows."""
        self.git.history(record_id)

    # -- what comes after a save, and before leaving -----------------------------

    def _wrote(self) -> None:
        """Let go of the line that was taken, and look at what came of it."""
        self.keeping.in_turn()
        self.looking.over_if_changed()

    @property
    def at_rest(self) -> bool:
        """Tell whether everything that was taken or taken back is on disk."""
        return self._writing.at_rest
