"""The work behind the screens: opening, saving, committing, watching, drafts.

Keys never wait for any of it. What is to be written is queued and drafted on
the records as they then are; one save at a time, in the order of the keys. What
came of it goes to the app as a message.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from typing import Any

from textual.app import App
from textual.content import Content
from textual.message import Message

from logbook.advice.advisor import Told
from logbook.errors import ChangedMeanwhile, LogbookError, Refused
from logbook.plain.project_words import kept_vocabulary
from logbook.plain.vocabulary import Vocabulary
from logbook.project import Choose, Project, Saved, repository_of
from logbook.records.design import Revision
from logbook.records.happenings import Entry
from logbook.records.pieces import current_build
from logbook.records.sharing import Joined
from logbook.records.snapshot import Snapshot
from logbook.records.workshop import Build
from logbook.screens.adviser import Adviser
from logbook.screens.facts import Glance, arranged, glance
from logbook.screens.lanes import Lane
from logbook.screens.lookup import Lookup
from logbook.screens.news import (
    Advised,
    BroughtUp,
    History,
    Impact,
    Job,
    Kept,
    Looked,
    NotOpened,
    NotWritten,
    Opened,
    Supposed,
    Taken,
    ToTakeBack,
    ToUndo,
    Undone,
    Written,
)
from logbook.screens.slips import BENCH, Slips
from logbook.screens.step_clock import StepClock
from logbook.screens.taking_back import (
    Doings,
    Shown,
    TakingBack,
    ToConfirm,
    newest_if,
    shown,
)
from logbook.screens.turns import reading_much
from logbook.store import drafts
from logbook.store.acts import Act
from logbook.store.find import find_project
from logbook.store.git.command import let_keys_go_first
from logbook.store.git.history import log_of
from logbook.store.git.state import unfinished
from logbook.store.own_places import INDEX, in_git_folder
from logbook.store.proposals import unmade_parts
from logbook.store.user_settings import read_settings
from logbook.store.watch import Watch

_Arranged = tuple[Sequence[Entry], Sequence[Entry]]
"""The entries of a build, and all as they are shown for it."""


def _arrange(snapshot: Snapshot, build: Build | None) -> _Arranged:
    here, others = arranged(snapshot, build)
    return here, Joined(others, here)


class Desk:
    """The open project, and the threads that work on it."""

    def __init__(self, app: App[Any], folder: Path) -> None:
        """Work for this app on the project of this folder."""
        self._app = app
        self._folder = folder
        self._jobs: deque[tuple[Job, Shown]] = deque()
        self._doings = Doings()
        self._wrote: deque[str] = deque(maxlen=20)
        self._door = Lock()
        self._saving, self._committing = Lane(), Lane()
        self._looking, self._advising, self._asking = Lane(), Lane(), Lane()
        self._watch: Watch | None = None
        self._resting = False
        self._slips = Slips(lambda said: self._post(Kept(said)))
        self.settings = read_settings()
        self.clock = StepClock(
            lambda work: self._run(work, "clock"),
            lambda said: self._post(Kept(said)),
            self.settings.idle_minutes,
        )
        self._project: Project | None = None
        self.refusal: LogbookError | None = None
        self._looked: Snapshot | None = None
        self._to_index: deque[str] = deque()
        self._to_fold = False
        self._suggested_of: Snapshot | None = None
        self._seen: tuple[Snapshot, dict[str, _Arranged]] = Snapshot({}), {}
        self.build: Build | None = None
        self.glance = Glance()
        self.advice = Told((), ())
        self.advised: tuple[Build | None, ...] = ()
        self._adviser: Adviser | None = None
        self.lookup: Lookup | None = None
        self._asked = ("", "")
        self._asked_of: Revision | None = None
        self.git_waits = False
        self.unfinished = ""
        self.standing = Content("")
        self.words = Vocabulary(datetime.now(UTC).astimezone())
        self._worded = Snapshot({}), self.words

    @property
    def project(self) -> Project:
        """The project; only to be asked for once it is open."""
        assert self._project is not None
        return self._project

    @property
    def is_open(self) -> bool:
        """Tell whether the project is open."""
        return self._project is not None

    @property
    def snapshot(self) -> Snapshot:
        """The records at this moment, prepared for being asked beside the keys."""
        return self._seen[0]

    @property
    def knows_waits(self) -> bool:
        """Tell whether the advice that came is about the build now chosen."""
        now = self.build or self.glance.build
        ids = [one.id if one else "" for one in self.advised]
        return ids == [now.id if now else ""]

    @property
    def pending(self) -> tuple[str, ...]:
        """The lines that are still being written."""
        return tuple(job.typed for job, _ in self._jobs if job.typed)

    @property
    def shown_entries(self) -> Sequence[Entry]:
        """The entries of earlier builds, then those of the build now chosen."""
        return self._arranged()[1]

    @property
    def entries(self) -> Sequence[Entry]:
        """The entries of the build now chosen, oldest first."""
        return self._arranged()[0]

    @property
    def last_entry(self) -> Entry | None:
        """The entry of the build shown that was written last on this desk.

        Else the newest of it: what came from another clone may be newer, but is
        not what was just typed.
        """
        build = self.build or self.glance.build
        for identity in reversed(self._wrote):
            stored = self.snapshot.stored.get(identity)
            if stored is None or not isinstance(stored.record, Entry):
                continue
            of = stored.record.build
            if of is None or build is None or of.id == build.id:
                return stored.record
        return self.entries[-1] if self.entries else None

    @property
    def _shown(self) -> Shown:
        """The build that is shown, by which what is done now belongs to it."""
        return shown(self.build or self.glance.build)

    def _arranged(self) -> _Arranged:
        (snapshot, held), build = self._seen, self.build or self.glance.build
        key = build.id if build else ""
        if key not in held:
            held[key] = _arrange(snapshot, build)
        return held[key]

    def _prepare(self, snapshot: Snapshot, build: Build | None) -> None:
        """Work out of new records what screens ask for; only then they see them."""
        current_build(snapshot)
        if self.build is not None and self.build.id not in snapshot:
            self.build = None  # its beginning was taken back
        key = build.id if build else ""
        seen, held = self._seen
        arranged = held.get(key) if seen is snapshot else None
        self._seen = snapshot, {key: arranged or _arrange(snapshot, build)}

    def now(self) -> datetime:
        """Give the present instant with this place's offset."""
        return datetime.now(UTC).astimezone()

    def _run(self, work: Callable[[], None], group: str) -> None:
        self._app.run_worker(work, thread=True, group=group)

    def _post(self, message: Message) -> None:
        self._app.post_message(message)

    # -- opening and looking -----------------------------------------------------

    def open(self) -> None:
        """Open the project; `Opened` or `NotOpened` follows."""
        self._run(self._open, "open")

    def _open(self) -> None:
        try:
            with self._door:
                let_keys_go_first()
                root = find_project(self._folder).parent
                place = in_git_folder(repository_of(root), root, INDEX)
                self.lookup = Lookup(root, place)
                watch = Watch(root)
                self._adviser = Adviser(root)
                with reading_much():
                    project = Project.open(self._folder, self._adviser.read)
                self._prepare(project.snapshot, None)
                self._project = project
                self.clock.load(root, project.snapshot)
                self._watch = watch
        except LogbookError as refusal:
            self.refusal = refusal
            self._post(NotOpened(refusal))
            return
        self._post(Opened())
        self._looking.once(self._look)
        self._committing.once(self._commit)
        self._advising.once(self._advise)
        self.lookup.catch_up()

    def go_on_with(self, build: Build) -> None:
        """Choose the build that is meant from now on."""
        self.build = build
        self.look()

    def look(self) -> None:
        """Look the records over again, for the build now chosen."""
        self._run(self._look_over, "look")

    def _look_over(self, changed: Iterable[str] = ()) -> None:
        """Look at the records as they are now, index what changed, and advise."""
        self._to_index += changed
        self._looking.once(self._look)
        self._looking.once(self._index)
        self._advising.once(self._advise)

    def _look(self) -> None:
        snapshot = self.project.snapshot
        seen = glance(snapshot, self.build)
        offered = unmade_parts(self.project.root, snapshot)
        titles = (part.title for part in offered)
        before, words = self._worded
        words = kept_vocabulary(words, before, snapshot, self.now(), titles)
        words.prepare()
        self._worded = snapshot, words
        if snapshot is self.project.snapshot:
            self._prepare(snapshot, self.build or seen.build)
        if snapshot is self.project.snapshot:
            self._looked = snapshot
            self._post(Looked(snapshot, seen, words))

    def _index(self) -> None:
        paths = [self._to_index.popleft() for _ in range(len(self._to_index))]
        if self.lookup is not None and paths:
            self.lookup.take_in(paths)

    def _advise(self) -> None:
        """Advise on what was looked at, unless it has changed again.

        While readings come in, the shop's figures wait until they are to be folded.
        """
        snapshot = self._looked
        if self._adviser is None or snapshot is not self.project.snapshot:
            return
        fold, self._to_fold = self._to_fold or not self.git_waits, False
        chosen = self.build
        told = self._adviser.told(snapshot, chosen, fold=fold)
        if snapshot is not self.project.snapshot:
            self._to_fold = self._to_fold or fold
            return
        self._post(Advised(snapshot, told, chosen or current_build(snapshot)))
        if snapshot is not self._suggested_of:
            self._suggested_of = snapshot
            self._post(BroughtUp(self._adviser.brought_up(snapshot)))

    def _fold(self) -> None:
        self._to_fold = True
        self._advising.once(self._advise)

    def impact(self, asked: Revision) -> None:
        """Ask what a revision would touch; `Impact` follows."""
        self._asked_of = asked
        self._run(lambda: self._asking.do(lambda: self._impact(asked)), "impact")

    def _impact(self, asked: Revision) -> None:
        if self._adviser is not None and self._asked_of is asked:
            self._post(Impact(asked, self._adviser.impact(self.snapshot, asked)))

    def suppose(self, about: str, typed: str) -> None:
        """Ask what a gap or joint came to if this were so; `Supposed` follows."""
        self._asked = (about, typed)
        asked = lambda: self._suppose(about, typed)  # noqa: E731
        self._run(lambda: self._asking.do(asked), "suppose")

    def _suppose(self, about: str, typed: str) -> None:
        if self._adviser is None or self._asked != (about, typed):
            return
        try:
            words, advice = self._adviser.suppose(
                self.snapshot, about, typed, self.build
            )
        except LogbookError as refusal:
            self._post(Supposed(about, typed, refusal=str(refusal)))
        else:
            self._post(Supposed(about, typed, words, advice))

    def watch(self) -> None:
        """Look whether anything was changed from outside."""
        if self._watch is not None and not self._resting:
            self._run(self._watched, "watch")

    def _watched(self) -> None:
        if self._watch is None or not self._door.acquire(blocking=False):
            return
        try:
            paths = self._watch.changed()
            changed = bool(paths) and self.project.take_in(paths)
        finally:
            self._door.release()
        doing, self.unfinished = self.unfinished, unfinished(self.project.repository)
        if changed:
            self._look_over(paths)
        if changed or doing != self.unfinished:
            self._post(Taken(len(self.project.waiting())))

    # -- writing -----------------------------------------------------------------

    def write(self, job: Job) -> None:
        """Write a job after those before it; `Written` or `NotWritten` follows."""
        self._jobs.append((job, self._shown))
        self._save(self._write_next)

    def _save(self, work: Callable[[], None]) -> None:
        """Do something to the records after what was to be done before it."""

        def save() -> None:
            self._saving.do(work)
            if self._project and self._project.snapshot is not self._looked:
                self._look_over()

        self._run(save, "save")

    def _write_next(self) -> None:
        with self._door:
            job, here = self._jobs[0]
            try:
                saved = self._saved(job, here)
            except LogbookError as refusal:
                self._jobs.popleft()
                self.clock.again()
                self._post(NotWritten(job, str(refusal)))
                return
            self._jobs.popleft()
            self._wrote += [one.id for one in saved.records if isinstance(one, Entry)]
            self._finish(job)
            self._prepare(self.project.snapshot, self.build or self.glance.build)
        self._to_index += saved.paths
        self._post(Written(job, saved))

    def _finish(self, job: Job) -> None:
        """Do what comes after a job; what is refused there is told, the job stands."""
        try:
            if job.after is not None:
                job.after()
        except LogbookError as refusal:
            self._post(Kept(str(refusal)))

    def _saved(self, job: Job, here: Shown) -> Saved:
        """Save; what somebody else changed meanwhile is read and drafted upon once."""
        try:
            return self._save_once(job, here)
        except ChangedMeanwhile:
            self.project.reload()
            return self._save_once(job, here)

    def _save_once(self, job: Job, here: Shown) -> Saved:
        draft, now = job.make(self.project), self.now()
        saved = self.project.save(draft, job.subject, now, job.files)
        self._doings.note(now, saved.records, here)
        return saved

    def take_back(self, named: Act | None, ask: Callable[[Message], object]) -> None:
        """Take back what was done here last in the build shown; `Undone` follows.

        What was not done in this window is told through `ask` first, as `ToTakeBack`,
        unless it was `named` already.
        """
        here = self._shown

        def take_back() -> None:
            wish = TakingBack(self.project, self._doings, here, named)
            try:
                self._undo(wish.choose)
            except ToConfirm as doubt:
                ask(ToTakeBack(doubt.act))

        self._save(take_back)

    def undo(self, meant: Callable[[Act], None]) -> None:
        """Take the last act of all back unless `meant` refuses it; `Undone` follows."""
        self.undo_chosen(newest_if(meant))

    def undo_chosen(self, choose: Choose) -> None:
        """Take back the act that is chosen; `Undone` follows."""
        self._save(lambda: self._undo(choose))

    def _undo(self, choose: Choose) -> None:
        with self._door:
            try:
                self._take_in_changes()
                act = self.project.undo(self.now(), choose)
            except ToConfirm:
                raise
            except LogbookError as refusal:
                self._post(Undone(refusal=str(refusal)))
                return
            self._prepare(self.project.snapshot, self.build or self.glance.build)
        self._to_index += (touched.path for touched in act.files)
        self._post(Undone(act.subject))

    def _take_in_changes(self) -> None:
        """Read what was changed from outside by now."""
        paths = self._watch.changed() if self._watch is not None else ()
        if paths and self.project.take_in(paths):
            self._to_index += paths

    def ask_undo(self, meant: Callable[[Act], None]) -> None:
        """Ask what an undo would take back; `ToUndo` follows."""
        self._save(lambda: self._ask_undo(newest_if(meant)))

    def _ask_undo(self, choose: Choose) -> None:
        with self._door:
            try:
                act = self.project.undoable(choose)
                if act is None:
                    raise Refused("there is nothing to undo in this clone")
            except LogbookError as refusal:
                self._post(ToUndo(refusal=str(refusal)))
                return
        self._post(ToUndo(act))

    # -- git ---------------------------------------------------------------------

    def hold_git(self) -> None:
        """Let git wait while readings come in, one after the other."""
        self.git_waits = True

    def let_git(self) -> None:
        """Let git go on."""
        self.git_waits = False
        self.rest()

    def rest(self) -> None:
        """Give git what waits, though a run is still open, and advise on all of it."""
        self.commit()
        self._run(self._fold, "fold")

    def commit(self) -> None:
        """Give git what waits; `Taken` follows."""
        self._run(lambda: self._committing.once(self._commit), "commit")

    def _commit(self) -> None:
        self.unfinished = unfinished(self.project.repository)
        try:
            outcome = self.project.commit_waiting()
        except LogbookError as refusal:
            self._post(Taken(len(self.project.waiting()), str(refusal)))
            return
        said = dict.fromkeys(one.sentence for one in outcome.waiting)
        waits = sum(len(one.change.paths) for one in outcome.waiting)
        self._post(Taken(waits, " ".join(said) or outcome.remark))

    def history(self, record_id: str) -> None:
        """Ask git how a record came to be; `History` follows."""
        stored = self.snapshot.stored.get(record_id)
        if stored is None:
            return
        path = self.project.in_tree(stored.path)

        def asked() -> None:
            self._post(History(record_id, log_of(self.project.repository, path)))

        self._run(asked, "history")

    # -- what is being typed -----------------------------------------------------

    def keep(self, text: str, purpose: str = BENCH) -> None:
        """Keep what stands in a line until it is taken; nothing: let it go.

        Where there is no logbook it is kept for the one that is started here.
        """
        if self.is_open or self.refusal is not None:
            root = self.project.root if self.is_open else self._folder.resolve()
            self._run(lambda: self._slips.keep(root, purpose, text), "drafts")

    def left_over(self, purpose: str = BENCH) -> drafts.Draft | None:
        """Give what was being typed in a line when it went away, the newest."""
        found = self._slips.left_over(self.project.root, purpose)
        return found[1] if found else None
