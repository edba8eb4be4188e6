"""All advice about a snapshot, worked out again only where its records changed.

Each piece of advice has a subject, and notes what it looked at; a subject is
worked out again when any of that changed. What comes out is the same as from
working out everything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from logbook.advice.advice import Advice
from logbook.advice.conformity_told import conformity_advice
from logbook.advice.contradictions import place_problems, unit_problems
from logbook.advice.figures import Sample, Shop, figure_advice, samples, shop_figures
from logbook.advice.gaps import gap_advice
from logbook.advice.heat import heat_advice
from logbook.advice.holds import closing_advice, declared_advice
from logbook.advice.joints import joint_advice
from logbook.advice.order import order_advice
from logbook.advice.register import Register, View
from logbook.advice.supposing import supposed
from logbook.advice.wood import wood_advice
from logbook.errors import BadInput, Problem
from logbook.records.model import (
    Build,
    Characteristic,
    Fit,
    Hold,
    Joint,
    Part,
    Piece,
    Project,
    Record,
    Step,
)
from logbook.records.snapshot import Snapshot
from logbook.records.words import Grade

_TOPICS: tuple[tuple[str, type[Record], Callable[[View, Any], Iterable[Any]]], ...] = (
    ("gaps", Fit, gap_advice),
    ("joints", Joint, joint_advice),
    ("holds", Hold, declared_advice),
    ("closing", Step, closing_advice),
    ("units", Characteristic, unit_problems),
    ("places", Part, place_problems),
    ("conformity", Piece, conformity_advice),
    ("order", Project, order_advice),
    ("heat", Part, heat_advice),
    ("wood", Part, wood_advice),
)


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


@dataclass(frozen=True, slots=True)
class _Held:
    found: tuple[Any, ...]
    read: frozenset[str]


class Advisor:
    """Keeps advice up to date from snapshot to snapshot."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._register = Register()
        self._held: dict[str, dict[str, _Held]] = {}
        self._figures: dict[str, Shop] = {}

    def update(self, snapshot: Snapshot, build: Build | None = None) -> Told:
        """Give all advice about a snapshot, for the current build or the one named."""
        touched = self._register.update(snapshot, build)
        found = [
            sample
            for one in self._each("samples", Characteristic, samples, touched)
            for sample in one
            if isinstance(sample, Sample)
        ]
        figures = shop_figures(found)
        touched |= {
            f"figure:{key}"
            for key in figures.keys() | self._figures.keys()
            if figures.get(key) != self._figures.get(key)
        }
        self._figures = figures
        said = [
            item
            for name, cls, work in _TOPICS
            for one in self._each(name, cls, work, touched)
            for item in one
        ]
        said += figure_advice(View(self._register, figures), figures)
        return Told(
            tuple(one for one in said if isinstance(one, Advice)),
            tuple(dict.fromkeys(one for one in said if isinstance(one, Problem))),
        )

    def suppose(
        self, snapshot: Snapshot, about: str, typed: str, build: Build | None = None
    ) -> tuple[str, tuple[Advice, ...]]:
        """Say in words what is supposed of the gap or joint `about`, and its advice.

        The next `update` puts everything back.

        Raises:
            BadInput: what was typed cannot be supposed.
        """
        self.update(snapshot, build)
        view = View(self._register, self._figures)
        case = supposed(view, view[about], typed)
        told = self.update(case.snapshot, build)
        return case.words, tuple(a for a in told.advice if a.about.id == about)

    def _each(
        self,
        topic: str,
        cls: type[Record],
        work: Callable[[View, Any], Iterable[Any]],
        touched: set[str],
    ) -> Iterator[tuple[Any, ...]]:
        subjects = self._register.all(cls)
        held = self._held.setdefault(topic, {})
        for record in subjects:
            one = held.get(record.id)
            if one is None or not one.read.isdisjoint(touched):
                view = View(self._register, self._figures)
                view.read.add(record.id)
                found = _worked(view, work, record)
                one = held[record.id] = _Held(found, frozenset(view.read))
            yield one.found
        if len(held) > len(subjects):
            for gone in held.keys() - {record.id for record in subjects}:
                del held[gone]


def _worked(
    view: View, work: Callable[[View, Any], Iterable[Any]], record: Record
) -> tuple[Any, ...]:
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
