"""Looking the records over behind the screens: at a glance, by the index, by advice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime

from logbook.advice.advisor import Told
from logbook.errors import LogbookError
from logbook.plain.words.project_words import kept_vocabulary
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.design import Revision
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.adviser import Adviser
from logbook.screens.desk.behind import Behind
from logbook.screens.desk.consequence import waits_over
from logbook.screens.desk.glancing import Glancing
from logbook.screens.desk.lanes import Lane
from logbook.screens.desk.long_work import Stopped
from logbook.screens.desk.lookup import Lookup
from logbook.screens.desk.news import (
    Advised,
    AdvisedSoFar,
    BroughtUp,
    Impact,
    Looked,
    Supposed,
)
from logbook.store.designs.proposals import unmade_parts


class Looking:
    """What is seen in the records of one desk, whenever they have changed.

    While `hold` is set, as readings come in, the shop's figures wait to be folded.
    """

    def __init__(self, behind: Behind) -> None:
        """Look at the records of this desk; what is asked comes once it is open."""
        self._behind = behind
        self._looking, self._advising, self._asking = Lane(), Lane(), Lane()
        self._glancing = Glancing()
        self._looked: Snapshot | None = None
        self._suggested_of: Snapshot | None = None
        self._worded = Snapshot({}), Vocabulary(datetime.now(UTC).astimezone())
        self._asked = ("", "")
        self._typed_so_far = ""
        self._asked_of: Revision | None = None
        self._to_fold = False
        self._told: tuple[str, Told] = "", Told((), ())
        self.hold = False
        self.adviser: Adviser | None = None
        self.lookup: Lookup | None = None

    def over(self, changed: Iterable[str] = ()) -> None:
        """Look at the records as they are now, index what changed, and advise."""
        self._behind.index_soon(changed)
        self._looking.once(self._look)
        self._looking.once(self._index)
        self._advising.once(self._advise)

    def over_if_changed(self) -> None:
        """Look the records over unless they are those that were looked at."""
        if self._behind.is_open and self._behind.project.snapshot is not self._looked:
            self.over()

    def _look(self) -> None:
        behind = self._behind
        snapshot = behind.project.snapshot
        behind.stay(snapshot)
        seen = self._glancing.over(snapshot, behind.build)
        offered = unmade_parts(behind.project.root, snapshot)
        titles = (part.title for part in offered)
        before, words = self._worded
        words = kept_vocabulary(words, before, snapshot, behind.now(), titles)
        words.prepare()
        self._worded = snapshot, words
        if snapshot is behind.project.snapshot:
            behind.prepare(snapshot, behind.build or seen.build)
        if snapshot is behind.project.snapshot:
            self._looked = snapshot
            behind.post(Looked(snapshot, seen, words))

    def _index(self) -> None:
        waiting = self._behind.to_index
        paths = [waiting.popleft() for _ in range(len(waiting))]
        if self.lookup is not None and paths:
            self.lookup.take_in(paths)

    def _advise(self) -> None:
        """Advise on what was looked at, unless it has changed again."""
        behind, snapshot = self._behind, self._looked
        if self.adviser is None or snapshot is not behind.project.snapshot:
            return
        fold, self._to_fold = self._to_fold or not self.hold, False
        chosen = behind.build
        try:
            told = self.adviser.told(snapshot, chosen, fold=fold)
        except Stopped:
            self._to_fold = self._to_fold or fold
            return
        if snapshot is not behind.project.snapshot:
            self._to_fold = self._to_fold or fold
            return
        behind.post(self._advised(snapshot, told, chosen or current_build(snapshot)))
        if snapshot is not self._suggested_of:
            self._suggested_of = snapshot
            behind.post(BroughtUp(self.adviser.brought_up(snapshot)))

    def _advised(self, snapshot: Snapshot, told: Told, build: Build | None) -> Advised:
        """Tell the advice, and which waits of the same build are over by it."""
        of = build.id if build else ""
        (before_of, before), self._told = self._told, (of, told)
        over = waits_over(before, told, snapshot) if of == before_of else {}
        return Advised(snapshot, told, build, over)

    def fold(self) -> None:
        """Fold what was read since into the shop's figures, and advise on all of it."""
        self._to_fold = True
        self._advising.once(self._advise)

    # -- what is asked -----------------------------------------------------------

    def impact(self, asked: Revision) -> None:
        """Ask what a revision would touch; `Impact` follows."""
        self._asked_of = asked
        self._behind.run(lambda: self._asking.do(lambda: self._impact(asked)), "impact")

    def _impact(self, asked: Revision) -> None:
        if self.adviser is not None and self._asked_of is asked:
            lines = self.adviser.impact(self._behind.snapshot, asked)
            self._behind.post(Impact(asked, lines))

    def so_far(self, rows: str, more: Sequence[Record], build: Build) -> None:
        """Ask what gaps come to with what is typed so far; `AdvisedSoFar` follows."""
        self._typed_so_far = rows
        asked = lambda: self._so_far(rows, more, build)  # noqa: E731
        self._behind.run(lambda: self._asking.do(asked), "so far")

    def _so_far(self, rows: str, more: Sequence[Record], build: Build) -> None:
        if self.adviser is not None and self._typed_so_far == rows:
            told = self.adviser.so_far(self._behind.snapshot, more, build)
            self._behind.post(AdvisedSoFar(rows, told))

    def suppose(self, about: str, typed: str) -> None:
        """Ask what a gap or joint came to if this were so; `Supposed` follows."""
        self._asked = (about, typed)
        asked = lambda: self._suppose(about, typed)  # noqa: E731
        self._behind.run(lambda: self._asking.do(asked), "suppose")

    def _suppose(self, about: str, typed: str) -> None:
        if self.adviser is None or self._asked != (about, typed):
            return
        behind = self._behind
        try:
            case = self.adviser.suppose(behind.snapshot, about, typed, behind.build)
        except LogbookError as refusal:
            behind.post(Supposed(about, typed, refusal=str(refusal)))
        else:
            behind.post(Supposed(about, typed, *case))
