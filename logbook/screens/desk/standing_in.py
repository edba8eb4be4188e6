"""In which build this window stands, in which the others do, and where it began.

It begins in the build it was left in, in this terminal, else in the one at hand.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from logbook.errors import Refused
from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.screens.desk.left_off import LeavingOff
from logbook.screens.desk.taking_back import Shown
from logbook.store.git.whose import logged_by_another
from logbook.store.reading.at_hand import build_left
from logbook.store.typed.left_in import Left, leave_in, left_in
from logbook.store.typed.windows import Window


class StandingIn:
    """A window among those that are open on a project.

    `others` are the builds other windows stand in, as they were seen last; `why` says
    why it stands in another build than one may think, or nothing; `left_off` is what it
    is in the middle of, and what the window before it was. `others_builds` are the ids
    of those that somebody else has logged, while nothing is logged in this clone.
    """

    def __init__(self) -> None:
        """Stand nowhere yet."""
        self.others: tuple[str, ...] = ()
        self.why = ""
        self.left_off = LeavingOff()
        self.others_builds: frozenset[str] = frozenset()
        self._warned = False
        self._window: Window | None = None
        self._root: Path | None = None
        self._noted = ""

    def open(self, root: Path) -> None:
        """Be a window of the project in this folder."""
        self._root, self._window = root, Window(root)
        self.left_off.open(root)

    @property
    def is_open(self) -> bool:
        """Tell whether it is a window of a project by now."""
        return self._window is not None

    def begin(self, project: Project) -> Build | None:
        """Give the build to begin in."""
        left, at_hand = left_in(project.root), project.at_hand
        known = build_left(project.snapshot, left.build, left.at) if left else None
        if at_hand is not None and not project.logged_here:
            if logged_by_another(project.repository, project.folder):
                builds = project.snapshot.all(Build)
                self.others_builds = frozenset(build.id for build in builds)
                return known or at_hand
            self.why = (
                f"in {(known or at_hand).title}, which was logged in another clone; "
                "what you type is of it"
            )
            return known or at_hand
        if known is None or at_hand is None or known.id == at_hand.id:
            return known or at_hand
        self.why = (
            f"in {known.title}, as this window was left; what was logged last is of "
            f"{at_hand.title}"
        )
        return known

    def refuse_others(self, draft: Draft) -> None:
        """Refuse once what would be logged in a build of somebody else.

        Raises:
            Refused: it would; the sentence says how one of one's own is begun.
        """
        entries = [one for one in draft.new if isinstance(one, Entry)]
        builds = [one.build for one in entries if one.build is not None]
        names = [build.name for build in builds if build.id in self.others_builds]
        if names and not self._warned:
            self._warned = True
            raise Refused(
                f"{names[0]} was logged in another clone: “start build” on the bench "
                f"begins your own; the same again puts it under {names[0]}"
            )

    def logged(self) -> None:
        """Note that something is on record of this clone: whose it is was settled."""
        self.others_builds = frozenset()

    def look(self, here: Shown, now: datetime) -> bool:
        """See where the others stand and tell them of this one; tell if they moved."""
        if self._window is None:
            return False
        self._window.stand_in(here.name)
        self.left_off.note()
        if here.id != self._noted:
            self._note(here, now)
        before = self.others
        builds = [one.build for one in self._window.others() if one.build]
        others = tuple(dict.fromkeys(b for b in builds if b != here.name))
        self.others = others if here.name else ()
        return self.others != before

    def close(self, here: Shown, now: datetime) -> None:
        """Be open no more; the next window of this terminal begins here."""
        self._note(here, now)
        self.left_off.note()
        if self._window is not None:
            self._window.close()

    def _note(self, here: Shown, now: datetime) -> None:
        self._noted = here.id
        if self._root is not None and here.id:
            leave_in(self._root, Left(here.id, now))
