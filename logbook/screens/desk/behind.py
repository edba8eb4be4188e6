"""What all work behind the screens shares: the open project, its door, the threads.

Keys never wait for any of it. What came of the work goes to the app as a message.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from threading import Lock
from typing import Any

from textual.app import App
from textual.geometry import Size
from textual.message import Message
from textual.timer import Timer

from logbook.plain.words.day_said import DaySaid
from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.together.ordered import Joined
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.glance import Glance
from logbook.screens.desk.interleaved import Interleaved, made_in
from logbook.screens.desk.long_work import LongWorks
from logbook.screens.desk.of_build import arranged
from logbook.screens.desk.taking_back import Shown, shown
from logbook.store.reading.watch import Watch

Arranged = tuple[Sequence[Entry], Sequence[Record], int]
"""The entries of a build, all that is listed for it, how much of that is before it."""


def _arrange(snapshot: Snapshot, build: Build | None) -> Arranged:
    here, others = arranged(snapshot, build)
    listed = Interleaved(here, made_in(snapshot, build))
    return here, Joined(others, listed), len(others)


class Behind:
    """The project as it is by now, prepared for being asked beside the keys.

    `door` is held by whoever changes the records or reads them anew.
    """

    def __init__(self, app: App[Any], folder: Path) -> None:
        """Work for this app on the project of this folder, which is not open yet."""
        self._app = app
        self.folder = folder
        self.door = Lock()
        self.works = LongWorks()
        self.opened: Project | None = None
        self.changes: Watch | None = None
        self.to_index: deque[str] = deque()
        self.build: Build | None = None
        self.day: DaySaid | None = None
        self._choosing = Lock()
        self.glance = Glance()
        self._seen: tuple[Snapshot, dict[str, Arranged]] = Snapshot({}), {}

    @property
    def project(self) -> Project:
        """The project; only to be asked for once it is open."""
        assert self.opened is not None
        return self.opened

    @property
    def is_open(self) -> bool:
        """Tell whether the project is open."""
        return self.opened is not None

    @property
    def here(self) -> Build | None:
        """The build that is shown: the one chosen, else the current one."""
        return self.build or self.glance.build

    @property
    def shown(self) -> Shown:
        """The build that is shown, by which what is done now belongs to it."""
        return shown(self.here)

    def called_if_other(self, build: str) -> str:
        """Give the name of the build with this id, if it is not the one shown."""
        named = self.snapshot.by_id(build)
        return named.title if named and build != self.shown.id else ""

    @property
    def snapshot(self) -> Snapshot:
        """The records at this moment, prepared for being asked beside the keys."""
        return self._seen[0]

    @property
    def arranged(self) -> Arranged:
        """The entries of the build that is shown, and all as they stand in the list."""
        (snapshot, held), build = self._seen, self.here
        key = build.id if build else ""
        if key not in held:
            held[key] = _arrange(snapshot, build)
        return held[key]

    def prepare(self, snapshot: Snapshot, build: Build | None) -> None:
        """Work out of new records what screens ask for; only then they see them."""
        self.stay(snapshot)
        key = build.id if build else ""
        seen, held = self._seen
        kept = held.get(key) if seen is snapshot else None
        self._seen = snapshot, {key: kept or _arrange(snapshot, build)}

    def stay(self, snapshot: Snapshot) -> None:
        """Stay in the build that is shown, whichever the newest entry is of.

        Another is chosen only where there is none yet, or its beginning was taken back.
        """
        with self._choosing:
            here = snapshot.find(self.build.ref, Build) if self.build else None
            if here is None and self.opened is not None:
                here = self.opened.at_hand
            self.build = here

    def choose(self, build: Build | None) -> None:
        """Choose the build that is meant from now on."""
        with self._choosing:
            self.build = build

    def take_in_changes(self, *, by_turns: bool = True) -> None:
        """Read what was changed from outside by now; the door is ours."""
        watch = self.changes
        paths = watch.changed(by_turns=by_turns) if watch is not None else ()
        if paths and self.project.take_in(paths):
            self.index_soon(paths)

    def index_soon(self, paths: Iterable[str]) -> None:
        """Have the index take these files in when it is its turn."""
        self.to_index += paths

    def now(self) -> datetime:
        """Give the present instant with this place's offset."""
        return datetime.now(UTC).astimezone()

    def when(self) -> datetime:
        """Give the instant that what is logged now is of: of the day said, else now."""
        now = self.now()
        return self.day.instant(now) if self.day else now

    @property
    def size(self) -> Size:
        """The columns and rows there are to draw on."""
        return self._app.size

    def run(self, work: Callable[[], object], group: str) -> None:
        """Do work in a thread."""
        self._app.run_worker(work, thread=True, group=group)

    def later(self, seconds: float, work: Callable[[], None]) -> Timer:
        """Do work on the event loop after so many seconds."""
        return self._app.set_timer(seconds, work)

    def post(self, message: Message) -> None:
        """Tell the app."""
        self._app.post_message(message)
