"""Advice beside the keys: worked out in a thread, or in a child process.

A small project's advice is a matter of milliseconds. That of a large one would
be a second busy thread beside the event loop, and keys would wait for it: it is
worked out by a child process, which reads the records itself, keeps what it knows,
and ends with us.
"""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from pathlib import Path
from threading import Lock
from typing import Any

from logbook.advice.advisor import Advisor, Told
from logbook.advice.ground.advice import Advice
from logbook.advice.proposals import brought_up
from logbook.advice.proposed.proposal import Proposal
from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.records.kinds.design import Revision
from logbook.records.kinds.place import FOLDER
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.beside import Beside, Impacts, impact_of
from logbook.screens.desk.long_work import LongWork, LongWorks, Stopped, counted
from logbook.store.reading.find import record_files
from logbook.store.reading.records import Files, read_files

IN_A_CHILD = 500
"""Records from which on a child works the advice out."""
READ_IN_A_CHILD = 5000
"""Files from which on a child reads them, since it takes its time to start."""

ENDED = (OSError, EOFError, pickle.UnpicklingError)
"""What is met where the child was ended."""
NOT_READ = "the records are not read: that was stopped"
"""What is said where a large project was not waited for; nothing of it is known."""
Case = tuple[str, tuple[Advice, ...]]
"""What is supposed, in words, and the advice about it."""


class Adviser:
    """Gives advice about the records as they are, or as they are supposed to be."""

    def __init__(self, root: Path, works: LongWorks | None = None) -> None:
        """Advise on the project in this folder; nothing is worked out yet.

        What takes long is one of the `works` that are told of and can be stopped.
        """
        self._root = root
        self._works = works or LongWorks()
        self._lock = Lock()
        self._advisor = Advisor()
        self._child: Beside | None = None
        self._asked_of: Snapshot | None = None

    def read(self, root: Path) -> Files:
        """Read all records, those of a large project beside the keys.

        Raises:
            Stopped: somebody did not want to wait for it.
        """
        total = len(record_files(root / FOLDER))
        if total < READ_IN_A_CHILD:
            return read_files(root)
        so_far = [0]
        work = LongWork(
            "reading the records", lambda: counted((so_far[0], total)), stop=self._end
        )
        with self._lock, self._works.doing(work):
            try:
                self._child = Beside(root)
                return self._child.read(so_far)
            except ENDED:
                self._child = None
                if work.stopped:
                    raise Stopped(NOT_READ) from None
            return read_files(root)

    def told(
        self, snapshot: Snapshot, build: Build | None = None, *, fold: bool = True
    ) -> Told:
        """Give all advice about the records.

        Without `fold` the shop's figures stay as they were, as while a run goes on.

        Raises:
            Stopped: somebody did not want to wait for it.
        """
        work = LongWork("working out what waits and what to make", stop=self._end)
        with self._lock, self._works.doing(work):
            words = ("told", build.id if build else "", fold)
            found = self._asked(snapshot, words)
            if isinstance(found, Told):
                return found
            work.check()
            return self._advisor.update(snapshot, build, fold=fold)

    def _end(self) -> None:
        """End the child, which begins anew when it is asked next."""
        if self._child is not None:
            self._child.end()

    def suppose(
        self, snapshot: Snapshot, about: str, typed: str, build: Build | None = None
    ) -> Case:
        """Give the advice about a gap or joint if what was typed were so.

        Raises:
            BadInput: what was typed cannot be supposed.
            ChangedMeanwhile: the gap or joint is not there any more.
        """
        with self._lock:
            if about not in snapshot:
                raise ChangedMeanwhile("this is not on record any more")
            words = ("suppose", build.id if build else "", about, typed)
            found = self._asked(snapshot, words)
            if isinstance(found, LogbookError):
                raise found
            if found is not None:
                case: Case = found
                return case
            return self._advisor.suppose(snapshot, about, typed, build)

    def so_far(
        self, snapshot: Snapshot, more: Sequence[Record], build: Build | None = None
    ) -> tuple[Advice, ...]:
        """Give the advice about gaps as if `more` were on record too."""
        with self._lock:
            found = self._asked(snapshot, ("so far", build, more))
            if isinstance(found, tuple):
                return found
            told = self._advisor.with_more(snapshot, more, build)
            return tuple(one for one in told if one.topic == "gaps")

    def impact(self, snapshot: Snapshot, asked: Revision) -> Impacts:
        """Say what a revision that is not on record yet would touch, line by line."""
        with self._lock:
            found = self._asked(snapshot, ("impact", asked))
            if isinstance(found, tuple):
                return found
            return impact_of(snapshot, asked)

    def brought_up(self, snapshot: Snapshot) -> Proposal | None:
        """Give the one proposal that came up since this was asked last, if one did."""
        with self._lock:
            before, self._asked_of = self._asked_of, snapshot
            found = self._asked(snapshot, ("brought up",))
            if isinstance(found, tuple):
                return found[0] if found else None
            return brought_up(before, snapshot) if before is not None else None

    def _asked(self, snapshot: Snapshot, question: tuple[Any, ...]) -> Any:
        """Ask the child; None where there is none, or where it was ended."""
        if len(snapshot) < IN_A_CHILD:
            return None
        try:
            if self._child is None:
                self._child = Beside(self._root)
            return self._child.ask(snapshot, question)
        except ENDED:
            self._child = None
            return None
