"""git behind the screens: it takes what waits, and tells how a record came to be."""

from __future__ import annotations

from logbook.errors import LogbookError
from logbook.screens.desk.behind import Behind
from logbook.screens.desk.lanes import Lane
from logbook.screens.desk.news import History, Taken
from logbook.store.git.history import log_of
from logbook.store.git.in_progress import unfinished
from logbook.store.reading.amended import changes_by


class Committing:
    """What git is given on one desk; `unfinished` names a merge or the like.

    `waits` counts what git had not taken when it was asked last, `why` says for what.
    """

    def __init__(self, behind: Behind) -> None:
        """Give git what this desk wrote."""
        self._behind = behind
        self._lane = Lane()
        self.unfinished = ""
        self.waits, self.why = 0, ""

    @property
    def at_rest(self) -> bool:
        """Tell whether git has answered everything it was asked."""
        return self._lane.at_rest

    def commit(self) -> None:
        """Give git what waits; `Taken` follows."""
        self._behind.run(self.commit_now, "commit")

    def commit_now(self) -> None:
        """Give git what waits, in this thread or the one that is at it."""
        self._lane.once(self._commit)

    def _commit(self) -> None:
        project = self._behind.project
        self.unfinished = unfinished(project.repository)
        try:
            outcome = project.commit_waiting()
        except LogbookError as refusal:
            self._not_known(str(refusal))
            return
        if outcome.unanswered:
            self._not_known(outcome.unanswered)
            return
        said = dict.fromkeys(one.sentence for one in outcome.waiting)
        self.waits = sum(len(one.change.touched) for one in outcome.waiting)
        self.why = " ".join(said)
        self._behind.post(Taken(self.waits, self.why or outcome.remark))

    def look(self, *, changed: bool) -> None:
        """Tell what waits where that may have changed from outside."""
        project = self._behind.project
        before, self.unfinished = self.unfinished, unfinished(project.repository)
        if not changed and before == self.unfinished:
            return
        try:
            self._behind.post(Taken(len(project.waiting())))
        except LogbookError as refusal:
            self._not_known(str(refusal))

    def _not_known(self, why: str) -> None:
        """Tell that git does not say what waits: something may, so it is not none."""
        self.waits, self.why = max(self.waits, 1), why
        self._behind.post(Taken(self.waits, why))

    def history(self, record_id: str) -> None:
        """Ask git how a record came to be; `History` follows."""
        stored = self._behind.snapshot.stored.get(record_id)
        if stored is None:
            return
        project = self._behind.project
        path = project.in_tree(stored.path)

        def asked() -> None:
            lines = log_of(project.repository, path)
            changes = changes_by(project.repository, path, lines or ())
            self._behind.post(History(record_id, lines, changes))

        self._behind.run(asked, "history")
