"""All advice about a snapshot, worked out again only where its records changed.

Each piece of advice has a subject, and notes what it looked at; a subject is
worked out again when any of that changed. What comes out is the same as from
working out everything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import Any

from logbook.advice.gaps.gaps import gap_advice
from logbook.advice.gaps.supposing import supposed
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.kept import Node
from logbook.advice.ground.register import Moved, Register, View
from logbook.advice.joints.joints import joint_advice
from logbook.advice.pieces.again import again_advice
from logbook.advice.pieces.conformity_told import conformity_advice
from logbook.advice.pieces.contradictions import (
    astray_problems,
    cited_problems,
    place_problems,
    unit_problems,
    value_problems,
)
from logbook.advice.pieces.figures import Figures, Sample, samples
from logbook.advice.pieces.figures_told import figure_advice
from logbook.advice.rooms.heat import heat_advice
from logbook.advice.rooms.wood import wood_advice
from logbook.advice.steps.holds import closing_advice, declared_advice
from logbook.advice.steps.order import order_advice
from logbook.errors import BadInput, Problem
from logbook.records.kinds.assembling import Fit, Hold, Joint, Step
from logbook.records.kinds.design import Characteristic, Part, Project
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import with_records

Work = Callable[[View, Any], Iterable[Any]]


@dataclass(frozen=True, slots=True)
class Told:
    """All advice about a snapshot, and what stands in its way."""

    advice: tuple[Advice, ...]
    problems: tuple[Problem, ...]

    def of(self, topic: str) -> tuple[Advice, ...]:
        """Give the advice of one topic."""
        return tuple(one for one in self.advice if one.topic == topic)

    @property
    def open(self) -> tuple[Advice, ...]:
        """Give what waits or is to be checked first, the strongest first."""
        return strongest_first(one for one in self.advice if one.open)


def strongest_first(advice: Iterable[Advice]) -> tuple[Advice, ...]:
    """Sort advice by the cost of being wrong: waits, checks, remarks."""
    order = list(Grade)
    return tuple(sorted(advice, key=lambda a: (order.index(a.grade), a.statement)))


class _Topic:
    """One sort of advice with its subjects, and what is said of those, in order."""

    def __init__(self, name: str, cls: type[Record], work: Work) -> None:
        self.name = name
        self._cls = cls
        self._work = work
        self.found: dict[str, tuple[Any, ...]] = {}
        self._said: tuple[Any, ...] | None = ()

    def subjects(self, moved: Moved) -> set[str]:
        """Give the ids of the subjects that are new, changed, gone or out of date."""
        # One that is gone has let its answer go, because that looked at it.
        gone = {node[1] for node in moved.gone if node[0] == self.name}
        return gone | moved.fresh.get(self._cls, set())

    def work_out(self, view: View, subjects: Iterable[str]) -> set[str]:
        """Work subjects out again; give those of which something else is said."""
        changed = set()
        for identity in subjects:
            before = self.found.pop(identity, ())
            now = self._of(view, identity)
            if now:
                self.found[identity] = now
            if before != now:
                changed.add(identity)
        if changed:
            self._said = None
        return changed

    def _of(self, view: View, identity: str) -> tuple[Any, ...]:
        held = view.stored.get(identity)
        if held is None or type(held.record) is not self._cls:
            return ()
        work = partial(_worked, view, self._work, held.record)
        return view.remembered(self.name, (held.record,), work)

    def said(self, snapshot: Snapshot) -> tuple[Any, ...]:
        """Give what is said of all subjects, by the instants of those."""
        if self._said is None:
            subjects = sorted((snapshot.stored[i].record for i in self.found), key=age)
            self._said = tuple(one for s in subjects for one in self.found[s.id])
        return self._said


_TOPICS: tuple[tuple[str, type[Record], Work], ...] = (
    ("gaps", Fit, gap_advice),
    ("joints", Joint, joint_advice),
    ("holds", Hold, declared_advice),
    ("closing", Step, closing_advice),
    ("again", Step, again_advice),
    ("units", Characteristic, unit_problems),
    ("values", Characteristic, value_problems),
    ("cited", Characteristic, cited_problems),
    ("astray", Characteristic, astray_problems),
    ("places", Part, place_problems),
    ("conformity", Piece, conformity_advice),
    ("order", Project, order_advice),
    ("heat", Part, heat_advice),
    ("wood", Part, wood_advice),
)


class Advisor:
    """Keeps advice up to date from snapshot to snapshot."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._register = Register()
        self._topics = [_Topic(*one) for one in _TOPICS]
        self._samples = _Topic("samples", Characteristic, samples)
        self._figures = Figures()
        self._unfolded: set[str] = set()
        self._begun = False

    def update(
        self, snapshot: Snapshot, build: Build | None = None, *, fold: bool = True
    ) -> Told:
        """Give all advice about a snapshot, for the current build or the one named.

        Without `fold` the shop's figures stay as they were until the next time:
        each reading moves one a little, and with it every gap of that process.
        """
        moved = self._register.update(snapshot, build)
        view = View(self._register, self._figures.shops)
        self._unfolded |= self._samples.subjects(moved)
        if fold or not self._begun:
            moved = Moved(moved.fresh, moved.gone | self._fold(view))
        for topic in self._topics:
            topic.work_out(view, topic.subjects(moved))
        said = [one for topic in self._topics for one in topic.said(view)]
        said += figure_advice(view, self._figures.shops)
        return Told(
            tuple(one for one in said if isinstance(one, Advice)),
            tuple(dict.fromkeys(one for one in said if isinstance(one, Problem))),
        )

    def _fold(self, view: View) -> set[Node]:
        """Sum the shop's figures up again; let go of what hangs on those that moved."""
        fresh = {
            what: tuple(
                one for one in self._samples.found.get(what, ())
                if isinstance(one, Sample)
            )
            for what in self._samples.work_out(view, self._unfolded)
        }  # fmt: skip
        self._unfolded, self._begun = set(), True
        changed = self._figures.fold(fresh)
        return self._register.kept.forget(f"figure:{key}" for key in changed)

    def with_more(
        self, snapshot: Snapshot, more: Iterable[Record], build: Build | None = None
    ) -> tuple[Advice, ...]:
        """Give all advice as if `more` were on record too; its figures stay.

        The next `update` puts everything back.
        """
        with_it = with_records(snapshot, (Stored(one, "", "") for one in more))
        return self.update(with_it, build, fold=False).advice

    def suppose(
        self, snapshot: Snapshot, about: str, typed: str, build: Build | None = None
    ) -> tuple[str, tuple[Advice, ...]]:
        """Say in words what is supposed of the gap or joint `about`, and its advice.

        The next `update` puts everything back. What is supposed is no work of the
        shop's: its figures stay.

        Raises:
            BadInput: what was typed cannot be supposed.
        """
        self.update(snapshot, build)
        view = View(self._register, self._figures.shops)
        case = supposed(view, view[about], typed)
        told = self.update(case.snapshot, build, fold=False)
        return case.words, tuple(a for a in told.advice if a.about.id == about)


def _worked(view: View, work: Work, record: Record) -> tuple[Any, ...]:
    """Work one subject out; a figure of the wrong kind is a problem of its record."""
    try:
        return tuple(work(view, record))
    except BadInput as refusal:
        found, _, accepted = str(refusal).partition("; accepted: ")
        found = f"{record.title}: {found}"
        return (Problem(view.path(record), 0, "a size", found, accepted),)


def advise(snapshot: Snapshot, build: Build | None = None) -> Told:
    """Give all advice about a snapshot, worked out from the beginning."""
    return Advisor().update(snapshot, build)
