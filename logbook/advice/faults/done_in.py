"""Whether a revision did what was named as a cure, as the record says.

A revision that is to cure a fault need not do what was named when it was met: one is
to glue the corner, the other has a fillet there. What is on record as done is what a
revision says it changed and why, and the work told of its pieces.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import datetime

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Disposal, Status, StepDone
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.together.likeness import stems
from logbook.records.together.names import folded
from logbook.records.together.references import is_of, part_of
from logbook.records.together.snapshot import Snapshot

_FIGURE = re.compile(r"\d+(?:[.,]\d+)?")
_SHARED = 2
"""Words that what was named and what was done must share, where they have so many."""
_WORK = {Disposition.REWORK, Disposition.REPAIR}


def done_in(
    snapshot: Snapshot, words: str, trouble: str, revisions: Sequence[Revision]
) -> bool:
    """Tell whether one of these revisions did what `words` say, against a `trouble`.

    The words name it, or what is on record of it shares half their meaning and no
    figure speaks against it; what tells of the trouble or the part does not count.
    """
    for one in revisions:
        if folded(one.title) in folded(words):
            return True
        part = part_of(snapshot, one)
        apart = stems(f"{trouble} {part.title if part else ''}")
        if any(_alike(words, done, apart) for done in _done(snapshot, one)):
            return True
        if _alike(words, one.why, apart, least=_SHARED):
            return True
    return False


def done_to(snapshot: Snapshot, words: str, trouble: str, piece: Piece) -> bool:
    """Tell whether the work told of a piece, or its settings, are what `words` say."""
    apart = stems(trouble)
    told = (*works_told(snapshot, piece), *map(" ".join, piece.settings.items()))
    return any(_alike(words, done, apart) for done in told)


_NOT_DONE = re.compile(r"(?i)\b(?:instead|rather|not|no|without|never|should|but)\b.*")
_WORD = re.compile(r"[\w.×]+")


def told_done(words: str, line: str) -> bool:
    """Tell whether a line itself tells that it was done: used M5x30; “use M5x30”.

    Every word begins one of the line's first clause, up to what it was done instead of.
    """
    named = [word.casefold() for word in _WORD.findall(words)]
    told = [word.casefold() for word in _WORD.findall(_NOT_DONE.sub("", line))]
    return bool(named) and all(any(t.startswith(w) for t in told) for w in named)


def done_at_step(
    snapshot: Snapshot, words: str, trouble: str, part: Part, since: datetime
) -> bool:
    """Tell whether a step done since with a part tells what `words` say.

    It is about the part, or its step takes it: “fitted the collar with M4x20” does
    “M4x20 instead of M4x16”.
    """
    apart = stems(f"{trouble} {part.title}")
    return any(
        _alike(words, one.title, apart) or _told_first(words, one.title)
        for one in snapshot.all(StepDone)
        if one.when > since and not one.undone and _with(snapshot, one, part)
    )


def _with(snapshot: Snapshot, done: StepDone, part: Part) -> bool:
    step = snapshot.find(done.step, Step)
    takes = step is not None and any(is_of(ref, part) for ref in step.uses)
    return takes or part_of(snapshot, done) is part


def _told_first(words: str, line: str) -> bool:
    """Tell whether a line does the first thing named, where that has a figure."""
    first = _NOT_DONE.sub("", words.partition(";")[0])
    return bool(_FIGURE.search(first)) and told_done(first, line)


def _done(snapshot: Snapshot, revision: Revision) -> Iterator[str]:
    """Give what a revision changed, and the work told of pieces of it."""
    yield revision.changed
    for piece in snapshot.mentions(revision, Piece):
        if snapshot.find(piece.revision) is revision:
            yield from works_told(snapshot, piece)


def works_told(snapshot: Snapshot, piece: Piece) -> Iterator[str]:
    """Give the words for the work that was done to a piece; none are empty."""
    works: tuple[Disposal | StepDone, ...] = (
        *snapshot.mentions(piece, Disposal),
        *snapshot.mentions(piece, StepDone),
    )
    told = (_told(work) for work in works if snapshot.find(work.piece) is piece)
    yield from filter(None, told)
    for one in snapshot.mentions(piece, Status):
        if snapshot.find(one.of) is piece and one.state is State.REWORKED:
            yield from filter(None, [one.because])


def _told(work: Disposal | StepDone) -> str:
    """Give the words for what was done to a piece; none where it only went away.

    A title made of what was decided and its fault says nothing of the work.
    """
    if isinstance(work, StepDone):
        return work.title
    if work.disposition not in _WORK:
        return ""
    made = work.title.startswith(f"{work.disposition.value}: ")
    return work.because or ("" if made else work.title)


def _alike(words: str, done: str, apart: frozenset[str], least: int = 1) -> bool:
    """Tell whether two lines tell of the same work; figures of both must meet.

    `least` is what they must share however short one is: a reason names the trouble.
    """
    if not words or not done:
        return False
    if folded(words) in folded(done) or folded(done) in folded(words):
        return True
    figures = set(_FIGURE.findall(words)), set(_FIGURE.findall(done))
    if all(figures) and not figures[0] & figures[1]:
        return False
    named, told = stems(words) - apart, stems(done) - apart
    fewer = min(len(named), len(told))
    shared = len(named & told)
    return shared >= max(least, min(_SHARED, fewer)) and 2 * shared >= fewer
