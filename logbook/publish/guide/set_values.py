"""What was set for an operation on one build, as name and value: drill, torque, speed.

What came of the work (sawed at 178.45) is no setting: it stands among the sizes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from logbook.advice.faults.drafted import revision_then
from logbook.advice.joints.tapped import drilled_for, tapped_words
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.told_settings import settings_in
from logbook.records.states.pieces import pieces_of
from logbook.records.together.references import part_of
from logbook.records.together.revisions import shown_label
from logbook.records.together.snapshot import Snapshot

_SET = frozenset({"torque", "temperature", "pressure", "speed"})
"""What is set wherever it is told of work; a length may be what came of it."""
_TOOL = re.compile(
    r"(?i)\b(?:(?P<drill>drill(?:ed|s)?|pilot)|(?P<reamer>ream(?:ed|er|s)?)|"
    r"(?P<fence>fence)|(?P<stop>(?<!to )stop))\b(?:\s+\d+(?=\s+(?:\w+\s+)?holes?\b))?"
    r"[^,;:\d]{0,40}?(?<![\w.,])(?P<value>\d+(?:[.,]\d+)?)(?!\d|[.,]\d|\s*[x×])"
    r"(?!\s*(?:mm\s+)?(?:in|deep|from|apart|into|off|away|down)\b)"
)
"""A tool by its size, or what the work lay against: reamed 10, fence at 63.6."""


def set_at(snapshot: Snapshot, step: Step, held: Sequence[Revision]) -> Iterator[str]:
    """Say what was set when a step was done, build by build."""
    here = (one for one in _done(snapshot) if snapshot.find(one.step, Step) is step)
    yield from _lines(snapshot, here, held, ())


def set_for(snapshot: Snapshot, part: Part, held: Sequence[Revision]) -> Iterator[str]:
    """Say what was set for a part in operations that are no step of the order.

    What stands with a piece of it as its settings is told there.
    """
    here = (
        one
        for one in _done(snapshot)
        if not snapshot.find(one.step, Step) and part_of(snapshot, one) is part
    )
    known = {name for piece in pieces_of(snapshot, part) for name in piece.settings}
    yield from _lines(snapshot, here, held, known)


def _done(snapshot: Snapshot) -> Iterator[StepDone]:
    return (one for one in snapshot.all(StepDone) if not one.undone)


def _lines(
    snapshot: Snapshot,
    entries: Iterable[StepDone],
    held: Sequence[Revision],
    known: Iterable[str],
) -> Iterator[str]:
    """Put together what was set in one build, on one revision."""
    told: dict[str, dict[str, None]] = {}
    for done in entries:
        for name, value in _settings(done):
            if name not in known:
                said = f"{name} {value}".strip()
                told.setdefault(_where(snapshot, done, held), {})[said] = None
    for where, every in told.items():
        yield f"{where}: {', '.join(every)}" if where else ", ".join(every)


def _settings(done: StepDone) -> Iterator[tuple[str, str]]:
    """Give what was set as name and value; what was set by itself has no name."""
    words = settings_in(done.title)
    yield from words.items()
    tapped = drilled_for(done.title)
    doubt = f" (check: {said})" if (said := tapped_words(done)) else ""
    for value in done.set_to:
        number = _number(value)
        if number not in done.title.replace(",", "."):
            yield "", f"{value}{doubt}"
        elif tapped and number == _number(tapped[1]):
            yield "drill", f"{value} for {tapped[0]}{doubt}"
        elif value.dimension == "length" and (tool := _tool(done.title, number)):
            yield tool, str(value)
        elif value.dimension in _SET and str(value) not in words.values():
            yield value.dimension, str(value)


def _number(value: Quantity) -> str:
    return str(value).partition(" ")[0].replace(",", ".")


def _tool(title: str, number: str) -> str:
    """Name the tool of this size that words tell of; empty where they tell of none."""
    for told in _TOOL.finditer(title):
        if told["value"].replace(",", ".") == number:
            names = ("drill", "reamer", "fence", "stop")
            return next(name for name in names if told[name])
    return ""


def _where(snapshot: Snapshot, done: StepDone, held: Sequence[Revision]) -> str:
    """Name the build, and the revision worked on where it is none of those `held`."""
    build = snapshot.find(done.build, Build)
    where = [build.title] if build else []
    piece = snapshot.find(done.piece, Piece)
    part = part_of(snapshot, done)
    made = snapshot.find(piece.revision, Revision) if piece else None
    made = made or (revision_then(snapshot, part, done) if part else None)
    if made is not None and part is not None and made not in held:
        where.append(f"on {shown_label(made)}")
    return ", ".join(where)
