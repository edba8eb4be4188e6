"""What the key that takes back means: what was done last here, in the build shown.

What another window, the shell or an earlier day has done is named first, and taken
back when the same key is the very next one. What was taken back here is brought back by
another key, the last one first, whatever was logged since.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from logbook.errors import Refused
from logbook.project import Choose, Project
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.store.acts.last import Act
from logbook.store.acts.taken_back import UNDO


@dataclass(frozen=True, slots=True)
class Shown:
    """The build that is shown: its id and name, both empty where there is none."""

    id: str = ""
    name: str = ""


def shown(build: Build | None) -> Shown:
    """Give a build as what is shown."""
    return Shown(build.id, build.title) if build else Shown()


class Doings:
    """The acts done in one window, each with the builds it is of."""

    def __init__(self) -> None:
        """Start with none."""
        self._builds: dict[str, set[str]] = {}
        self._taken_back: dict[str, set[str]] = {}

    def note(self, at: datetime, records: Sequence[Record], here: Shown) -> None:
        """Note an act by its instant: of the build shown, and of where a move led.

        One that begins a build is of that build alone.
        """
        begun = {record.id for record in records if isinstance(record, Build)}
        self._builds[at.isoformat()] = begun or {here.id, *builds_of(records)}

    def last(self, acts: Sequence[Act], here: Shown) -> Act | None:
        """Give the newest act done here that is of the build shown."""
        return _newest(acts, self._builds, here)

    def note_taken_back(self, at: datetime, act: Act, here: Shown) -> None:
        """Note that an act was taken back at this instant, in the build shown."""
        self._taken_back[at.isoformat()] = {here.id, *self._builds.get(act.at, ())}

    def note_brought_back(self, at: datetime, undoing: Act) -> None:
        """Note that what an act took back was brought back: it is done here again."""
        self._builds[at.isoformat()] = self._taken_back.pop(undoing.at, set())

    def to_bring_back(self, undoings: Sequence[Act], here: Shown) -> Act:
        """Choose what is brought back: what was taken back last here, as it is shown.

        Raises:
            Refused: there is nothing; what the shell brings back is named.
        """
        if found := _newest(undoings, self._taken_back, here):
            return found
        said = "nothing was taken back in this window that can be brought back"
        said += f" in {here.name}" if here.name and self._taken_back else ""
        if undoings:
            subject = undoings[0].subject.removeprefix(UNDO)
            said += f"; logbook undo --bring-back in the shell brings back “{subject}”"
        raise Refused(said)


def _newest(
    acts: Sequence[Act], known: Mapping[str, Collection[str]], here: Shown
) -> Act | None:
    return next((act for act in acts if here.id in known.get(act.at, ())), None)


def builds_of(records: Sequence[Record]) -> set[str]:
    """Give the ids of the builds that records belong to, or begin."""
    found = {record.id for record in records if isinstance(record, Build)}
    named = (getattr(record, "build", None) for record in records)
    return found | {build.id for build in named if isinstance(build, Ref)}


class ToConfirm(Refused):
    """An act that is taken back only when that was asked for once more."""

    def __init__(self, act: Act) -> None:
        """Name the act."""
        super().__init__(f"“{act.subject}” was not logged in this window")
        self.act = act


@dataclass(frozen=True, slots=True)
class TakingBack:
    """One wish to take something back, in the build shown; `named` was confirmed."""

    project: Project
    doings: Doings
    here: Shown
    named: Act | None = None

    def choose(self, acts: Sequence[Act]) -> Act | None:
        """Choose what is meant among the acts that can be taken back.

        Raises:
            ToConfirm: it is not of this window, and was not named yet.
            Refused: nothing of the build shown is left.
        """
        if not acts:
            return None
        if self.named in acts:
            return self.named
        if own := self.doings.last(acts, self.here):
            return own
        for act in acts:
            if self._is_here(act):
                raise ToConfirm(act)
        raise Refused(
            f"nothing logged in {self.here.name} is left to take back; the last entry, "
            f"“{acts[0].subject}”, is of another build"
        )

    def _is_here(self, act: Act) -> bool:
        """Tell whether an act was done in the build shown, or is of it or of none."""
        if act.build and act.build == self.here.id:
            return True
        builds = builds_of(self.project.records_of(act))
        return not builds or not self.here.id or self.here.id in builds


def newest_of(paths: Callable[[], Collection[str]], nothing: str) -> Choose:
    """Choose the newest act that touched one of these files.

    `paths` is asked once everything before the key is written; `nothing` is said
    where no act touched any.
    """

    def choose(acts: Sequence[Act]) -> Act | None:
        own = paths()
        for act in acts:
            if any(touched.path in own for touched in act.files):
                return act
        raise Refused(nothing)

    return choose
