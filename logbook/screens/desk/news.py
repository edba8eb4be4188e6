"""What is handed to the desk, and what the desk tells: jobs and messages."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from textual.message import Message

from logbook.advice.advisor import Told
from logbook.advice.ground.advice import Advice
from logbook.advice.proposed.proposal import Proposal
from logbook.errors import LogbookError
from logbook.plain.words.vocabulary import Vocabulary
from logbook.project import Project, Saved
from logbook.records.kinds.design import Revision
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.shown import Changed
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.beside import Impacts
from logbook.screens.desk.glance import Glance
from logbook.store.acts.last import Act
from logbook.store.git.history import LogLine


@dataclass(frozen=True)
class Job:
    """Something to write: `make` drafts it; `typed` is what it came from.

    `after` is done once it is on disk, in the thread that saved it; `said` is told
    then, where the title of the record would not tell what was done.
    What is known of it only once it was drafted is asked for then.
    """

    subject: str
    make: Callable[[Project], Draft]
    typed: str = ""
    files: Mapping[str, bytes] = field(default_factory=dict)
    after: Callable[[], None] | None = None
    said: str | Callable[[], str] = ""

    @property
    def told(self) -> str:
        """What is told of it once it is on disk; empty where its title tells it."""
        return self.said if isinstance(self.said, str) else self.said()


@dataclass
class TakenOver(Message):
    """A line of this window was taken over in another one, as it stood.

    Without a text it was typed on here; what stands here is kept apart.
    """

    purpose: str
    text: str


@dataclass
class LetGo(Message):
    """Another window has let go of the line of this purpose."""

    purpose: str


@dataclass
class Elsewhere(Message):
    """Other windows of the project stand in these builds; none, in the one shown."""

    builds: tuple[str, ...]


@dataclass
class BegunElsewhere(Message):
    """A build was begun, but not in this window."""

    build: str


@dataclass
class Opened(Message):
    """The project is open; `build` says why it stands in the build it stands in.

    Empty: in the one that was worked on last, as one expects.
    """

    build: str = ""


@dataclass
class ReadAgain(Message):
    """The records are being read, after that was stopped once."""


@dataclass
class NotOpened(Message):
    """The project could not be opened; the sentence says why."""

    refusal: LogbookError


@dataclass
class Written(Message):
    """A job is on disk for good; `also` says what was done besides, if anything."""

    job: Job
    saved: Saved
    also: str = ""


@dataclass
class NotWritten(Message):
    """A job was refused; nothing was written."""

    job: Job
    reason: str


@dataclass
class Undone(Message):
    """The last act was taken back, or `brought` back; or the sentence says why not."""

    subject: str = ""
    refusal: str = ""
    brought: bool = False


@dataclass
class ToUndo(Message):
    """What an undo would take back now, or why it would take back nothing."""

    act: Act | None = None
    refusal: str = ""


@dataclass
class ToTakeBack(Message):
    """What would be taken back, not logged in this window: to be asked for again."""

    act: Act


@dataclass
class Looked(Message):
    """A new look at the records: what the bench shows, and the names in use."""

    snapshot: Snapshot
    glance: Glance
    words: Vocabulary


@dataclass
class Advised(Message):
    """All advice about the records of a snapshot, for a build.

    `over` says which waits of it are over since it was advised on last, and what is
    to be done now, by the key of the advice.
    """

    snapshot: Snapshot
    told: Told
    build: Build | None
    over: Mapping[str, str] = field(default_factory=dict)


@dataclass
class BroughtUp(Message):
    """What the newest entries suggest to put on record; None is nothing."""

    found: Proposal | None


@dataclass
class Supposed(Message):
    """What a gap or joint would come to if `typed` were so, or why it cannot be."""

    about: str
    typed: str
    words: str = ""
    advice: tuple[Advice, ...] = ()
    refusal: str = ""


@dataclass
class AdvisedSoFar(Message):
    """The advice about gaps with what is typed so far, of the rows typed."""

    rows: str
    advice: tuple[Advice, ...]


@dataclass
class Impact(Message):
    """What a revision that is not on record yet would touch."""

    asked: Revision
    lines: Impacts


@dataclass
class Taken(Message):
    """What git has and has not taken."""

    waits: int
    sentence: str = ""


@dataclass
class History(Message):
    """The commits of one record; None where git cannot tell."""

    record_id: str
    lines: tuple[LogLine, ...] | None
    changes: tuple[tuple[Changed, ...], ...] = ()
    """What each changed in it."""


@dataclass
class Kept(Message):
    """What was being typed could not be kept; said once."""

    refusal: str
