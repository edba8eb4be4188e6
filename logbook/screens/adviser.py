"""Advice beside the keys: worked out in a thread, or in a child process.

A small project's advice is a matter of milliseconds. That of a large one would
be a second busy thread beside the event loop, and keys would wait for it: it is
worked out by a child process, which reads the records itself, keeps what it knows,
and ends with us.
"""

from __future__ import annotations

import gc
import pickle
import subprocess
import sys
import weakref
from collections.abc import Iterator, Mapping
from pathlib import Path
from threading import Lock
from typing import Any

from logbook.advice.advice import Advice
from logbook.advice.advisor import Advisor, Told
from logbook.advice.impact_told import (
    change_words,
    impact,
    impact_lines,
    number_words,
)
from logbook.advice.interchange import with_revision
from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.records.model import Build, Part, Revision
from logbook.records.snapshot import Snapshot, Stored
from logbook.records.succession import next_snapshot
from logbook.store.reading import Files, read_files, reread, snapshot_of

IN_A_CHILD = 500
"""Records from which on a child works the advice out."""
HOUSE = Path(__file__).parents[2]

Impacts = tuple[tuple[str, str], ...]
"""What a change touches: the word of each line, and what it says."""
Case = tuple[str, tuple[Advice, ...]]
"""What is supposed, in words, and the advice about it."""


class Adviser:
    """Gives advice about the records as they are, or as they are supposed to be."""

    def __init__(self, root: Path) -> None:
        """Advise on the project in this folder; nothing is worked out yet."""
        self._root = root
        self._lock = Lock()
        self._advisor = Advisor()
        self._child: _Child | None = None

    def told(self, snapshot: Snapshot, build: Build | None = None) -> Told:
        """Give all advice about the records."""
        with self._lock:
            found = self._asked(snapshot, ("told", build.id if build else ""))
            if isinstance(found, Told):
                return found
            return self._advisor.update(snapshot, build)

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

    def impact(self, snapshot: Snapshot, asked: Revision) -> Impacts:
        """Say what a revision that is not on record yet would touch, line by line."""
        with self._lock:
            found = self._asked(snapshot, ("impact", asked))
            if isinstance(found, tuple):
                return found
            return impact_of(snapshot, asked)

    def _asked(self, snapshot: Snapshot, question: tuple[Any, ...]) -> Any:
        """Ask the child; None where there is none, or where it was ended."""
        if len(snapshot) < IN_A_CHILD:
            return None
        try:
            if self._child is None:
                self._child = _Child(self._root)
            return self._child.ask(snapshot, question)
        except (OSError, EOFError, pickle.UnpicklingError):
            self._child = None
            return None


class _Child:
    """A process of our own that holds the records and their advice."""

    def __init__(self, root: Path) -> None:
        # -P: the folder the user stands in may be a stranger's, with modules in it.
        start = (
            f"import sys; sys.path.append({str(HOUSE)!r}); "
            "from logbook.screens.adviser import serve; serve(sys.argv[1])"
        )
        words = [sys.executable, "-P", "-c", start, str(root)]
        self._process = subprocess.Popen(
            words,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        self._seen: Mapping[str, Stored] = {}
        weakref.finalize(self, _end, self._process)

    def ask(self, snapshot: Snapshot, question: tuple[Any, ...]) -> Any:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        now = snapshot.stored
        paths = set(_paths(self._seen, now)) if self._seen else None
        pickle.dump((paths, question), self._process.stdin)
        self._process.stdin.flush()
        answer = pickle.load(self._process.stdout)  # noqa: S301  # our own process
        self._seen = now
        return answer


def _paths(before: Mapping[str, Stored], now: Mapping[str, Stored]) -> Iterator[str]:
    """Give the files of records that came, went or changed."""
    for key, one in now.items():
        held = before.get(key)
        if held is one:
            continue
        if held is None or (held.path, held.sha256) != (one.path, one.sha256):
            yield one.path
            if held is not None:
                yield held.path
    yield from (before[key].path for key in before.keys() - now.keys())


def _end(process: subprocess.Popen[bytes]) -> None:
    process.terminate()  # it only reads
    for pipe in (process.stdin, process.stdout):
        if pipe is not None:
            try:
                pipe.close()
            except OSError:  # what was not read by the child yet
                continue
    process.wait()


def serve(root: str) -> None:
    """Answer questions about the project in this folder until there are no more."""
    # Looking over for rubbish what stays anyway costs as much again as advising:
    # it is done after an answer, and not over what was there before the first one.
    gc.disable()
    advisor = Advisor()
    held: Files = {}
    snapshot = Snapshot({})
    while True:
        try:
            paths, question = pickle.load(sys.stdin.buffer)  # noqa: S301  # our parent
        except EOFError:
            return
        if paths is None:
            held = read_files(Path(root))
            snapshot = snapshot_of(held)
        else:
            fresh = reread(Path(root), held, paths)
            snapshot = next_snapshot(snapshot, held, fresh, paths)
            held = fresh
        answer = _answer(advisor, snapshot, question)
        pickle.dump(answer, sys.stdout.buffer)
        sys.stdout.buffer.flush()
        if paths is None:
            gc.freeze()
        else:
            gc.collect()


def _answer(advisor: Advisor, snapshot: Snapshot, question: tuple[Any, ...]) -> Any:
    match question:
        case ("told", build):
            return advisor.update(snapshot, _build(snapshot, build))
        case ("impact", asked):
            return impact_of(snapshot, asked)
        case (_, build, about, typed):
            if about not in snapshot:
                return ChangedMeanwhile("this is not on record any more")
            try:
                return advisor.suppose(snapshot, about, typed, _build(snapshot, build))
            except LogbookError as refusal:
                return refusal
    raise ValueError(question)


def impact_of(snapshot: Snapshot, asked: Revision) -> Impacts:
    """Say what a revision touches if it were on record; none where there is no part."""
    part = snapshot.find(asked.part, Part)
    if part is None:
        return ()
    found = impact(with_revision(snapshot, asked), part, asked)
    head = ("touches", change_words(found.change))
    return (head, *impact_lines(found), ("number", number_words(found.number)))


def _build(snapshot: Snapshot, build: str) -> Build | None:
    found = snapshot.stored.get(build)
    return found.record if found and isinstance(found.record, Build) else None
