"""The process beside a large project: it reads the records, keeps them, and advises.

Reading and advising would be a busy thread beside the event loop, and keys would
wait for it. The child does both, lets the keys' own process go first when it
advises, and ends with it.
"""

from __future__ import annotations

import gc
import os
import pickle
import subprocess
import sys
import weakref
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Any

from logbook.advice.advisor import Advisor
from logbook.advice.changes.impact_told import (
    change_words,
    impact,
    impact_lines,
    number_words,
)
from logbook.advice.changes.interchange import with_revision
from logbook.advice.proposals import offered, proposals
from logbook.advice.proposed.proposal import Proposal
from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import next_snapshot
from logbook.records.written.text import Parsed
from logbook.screens.desk.advice_sent import NOTHING, Sent, as_sent, as_told
from logbook.store.reading.parcels import File, send, take
from logbook.store.reading.records import (
    Files,
    each_read,
    read_files,
    reread,
    snapshot_of,
)

HOUSE = Path(__file__).parents[3]
GIVES_WAY = 10
"""By so much advising is less urgent than the keys."""

Impacts = tuple[tuple[str, str], ...]
"""What a change touches: the word of each line, and what it says."""
Question = tuple[Any, ...]


class Beside:
    """A process of our own that holds the records and their advice."""

    def __init__(self, root: Path) -> None:
        """Start it for the project in this folder; it reads nothing yet."""
        # -P: the folder the user stands in may be a stranger's, with modules in it.
        start = (
            f"import sys; sys.path.append({str(HOUSE)!r}); "
            "from logbook.screens.desk.beside import serve; serve(sys.argv[1])"
        )
        words = [sys.executable, "-P", "-c", start, str(root)]
        self._process = subprocess.Popen(
            words,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            process_group=0,  # what is typed to end us is no business of its
        )
        self._seen: Snapshot | None = None
        self._read: Files = {}
        self._told = NOTHING
        weakref.finalize(self, _end, self._process)

    def end(self) -> None:
        """End it, whatever it is at; who waits for its answer meets that."""
        self._process.terminate()

    def read(self, so_far: list[int]) -> Files:
        """Let it read all records, and give them; count them in `so_far`.

        Raises:
            OSError, EOFError, UnpicklingError: it was ended.
        """
        self._say((None, ("read",)))
        assert self._process.stdout is not None
        read = {}
        for path, file in take(self._process.stdout):
            read[path] = file
            so_far[0] = len(read)
        self._read = read
        return self._read

    def ask(self, snapshot: Snapshot, question: Question) -> Any:
        """Give its answer to a question about these records.

        Raises:
            OSError, EOFError, UnpicklingError: it was ended.
        """
        paths = None
        if self._seen is not None:
            paths = set(_paths(self._seen, snapshot))
        elif self._read:
            paths = set(_differing(self._read, snapshot.stored))
        self._say((paths, question))
        assert self._process.stdout is not None
        answer = pickle.load(self._process.stdout)  # noqa: S301  # our own process
        self._seen, self._read = snapshot, {}
        if isinstance(answer, Sent):
            answer = self._told = as_told(self._told, answer)
        return answer

    def _say(self, words: tuple[set[str] | None, Question]) -> None:
        assert self._process.stdin is not None
        pickle.dump(words, self._process.stdin)
        self._process.stdin.flush()


def _paths(before: Snapshot, now: Snapshot) -> Iterator[str]:
    """Give the files of records that came, went or changed."""
    ids: Iterable[str] | None = now.changed_since(before.trail[-1])
    if ids is None:
        ids = chain(before.stored, (one for one in now.stored if one not in before))
    for identity in ids:
        was, held = before.stored.get(identity), now.stored.get(identity)
        if was is None or held is None or _file(was) != _file(held):
            yield from (one.path for one in (was, held) if one is not None)


def _file(held: Stored) -> tuple[str, str]:
    return held.path, held.sha256


def _differing(read: Files, now: Mapping[str, Stored]) -> Iterator[str]:
    """Give the files that are not as they were read."""
    # One after the other: to unite 100,000 names at one go holds up every key.
    known = 0
    for one in now.values():
        known += one.path in read
        if one.path not in read or read[one.path][0] != one.sha256:
            yield one.path
    if known < len(read):
        held = {one.path for one in now.values()}
        yield from (path for path in read if path not in held)


def _end(process: subprocess.Popen[bytes]) -> None:
    process.terminate()  # it only reads
    for pipe in (process.stdin, process.stdout):
        if pipe is not None:
            try:
                pipe.close()
            except OSError:  # what was not read by the child yet
                continue
    process.wait()


# -- in the child ----------------------------------------------------------------


def serve(root: str) -> None:
    """Answer questions about the project in this folder until there are no more."""
    # Looking over for rubbish what stays anyway costs as much again as advising:
    # it is done after an answer, and not over what was there before the first one.
    gc.disable()
    held, first = _Held(Path(root)), True
    while True:
        try:
            paths, question = pickle.load(sys.stdin.buffer)  # noqa: S301  # our parent
        except EOFError:
            return
        if question == ("read",):
            send(held.reading(), sys.stdout.buffer)
            continue
        if first and hasattr(os, "nice"):
            os.nice(GIVES_WAY)
        held.follow(paths)
        pickle.dump(held.answer(question), sys.stdout.buffer)
        sys.stdout.buffer.flush()
        if first:
            gc.freeze()
        else:
            gc.collect()
        first = False


class _Held:
    """The records the child holds, and what it knows of them."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._files: Files = {}
        self._snapshot: Snapshot | None = None
        self._advisor = Advisor()
        self._told = NOTHING
        self._known: frozenset[str] | None = None

    def reading(self) -> Iterator[File]:
        """Read all records, and give them one after the other."""
        files: dict[str, tuple[str, Parsed]] = {}
        for path, read in each_read(self._root):
            files[path] = read
            yield path, read
        self._files = files

    def follow(self, paths: set[str] | None) -> None:
        """Take in these files as they are now; all of them where nothing is held."""
        if paths is None:
            self._files, self._snapshot = read_files(self._root), None
        fresh = reread(self._root, self._files, paths) if paths else self._files
        if self._snapshot is None:
            self._snapshot = snapshot_of(fresh)
        else:
            self._snapshot = next_snapshot(
                self._snapshot, self._files, fresh, paths or ()
            )
        self._files = fresh

    def answer(self, question: Question) -> Any:
        assert self._snapshot is not None
        snapshot = self._snapshot
        match question:
            case ("told", build, fold):
                return self._all(snapshot, snapshot.by_id(build, Build), fold=fold)
            case ("impact", asked):
                return impact_of(snapshot, asked)
            case ("so far", build, more):
                told = self._advisor.with_more(snapshot, more, build)
                return tuple(one for one in told if one.topic == "gaps")
            case ("brought up",):
                return self._brought_up(snapshot)
            case ("suppose", build, about, typed):
                return self._supposed(
                    snapshot, snapshot.by_id(build, Build), about, typed
                )
        raise ValueError(question)

    def _all(self, snapshot: Snapshot, build: Build | None, *, fold: bool) -> Sent:
        before = self._told
        self._told = self._advisor.update(snapshot, build, fold=fold)
        return as_sent(before, self._told)

    def _supposed(
        self, snapshot: Snapshot, build: Build | None, about: str, typed: str
    ) -> Any:
        if about not in snapshot:
            return ChangedMeanwhile("this is not on record any more")
        try:
            return self._advisor.suppose(snapshot, about, typed, build)
        except LogbookError as refusal:
            return refusal

    def _brought_up(self, snapshot: Snapshot) -> tuple[Proposal, ...]:
        """Give the proposal that was not there at the last such question, if one is."""
        found = proposals(snapshot)
        known, self._known = self._known, frozenset(one.key for one in found)
        if known is None:
            return ()
        fresh = [one for one in found if one.key not in known][:1]
        return tuple(replace(one, take=partial(_taken, one.mark)) for one in fresh)


def _taken(mark: str, draft: Draft, answer: str) -> None:
    """Take a proposal that came from the child, as the records here make it."""
    offered(draft.snapshot, mark).take(draft, answer)


def impact_of(snapshot: Snapshot, asked: Revision) -> Impacts:
    """Say what a revision touches if it were on record; none where there is no part."""
    part = snapshot.find(asked.part, Part)
    if part is None:
        return ()
    found = impact(with_revision(snapshot, asked), part, asked)
    head = ("touches", change_words(found.change))
    return (head, *impact_lines(found), ("number", number_words(found.number)))
