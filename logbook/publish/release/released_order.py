"""Which steps of a released order of work cannot be followed as they are written.

A release may go out in spite of it. What was released decides, not what the steps say
by now: who holds it reads the order as it went out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from logbook.advice.ground.register import Register, View
from logbook.advice.steps.order import Must, closing_too_soon, musts, proposed
from logbook.publish.release.readback import read_step
from logbook.publish.release.statements import step_text
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Release, Statement
from logbook.records.states.statements import Form
from logbook.records.together.once import once
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class TooSoon:
    """A step that closes before another one that has to come first; both as numbered.

    `circle`: as they are told each waits for the other, so none is the first.
    """

    step: int
    title: str
    first: int
    first_title: str
    risk: str
    circle: bool

    @property
    def says(self) -> str:
        """Say which of the two has to come first, and why."""
        then, first = self._closing, f"step {self.first} ({self.first_title})"
        if self.circle:
            return f"{then} and {first} wait for each other: {self.risk}"
        return f"{first} has to come before {then}: {self.risk}"

    @property
    def at_closing(self) -> str:
        """Say at the step that closes what is done before it."""
        if self.circle:
            return f"{self.says}; which of them goes first nobody has said"
        return f"first do step {self.first} ({self.first_title}): {self.risk}"

    @property
    def at_first(self) -> str:
        """Say at the step that stands too late where it belongs."""
        if self.circle:
            return self.at_closing
        return f"do this before {self._closing}: {self.risk}"

    @property
    def _closing(self) -> str:
        return f"step {self.step} ({self.title})"


@once
def closes_too_soon(snapshot: Snapshot, release: Release) -> tuple[TooSoon, ...]:
    """Give each step of a release that closes before what has to come first."""
    steps = tuple(_as_released(snapshot, release))
    register = Register()
    register.update(snapshot)
    view = View(register)
    number = {step.id: at for at, step in enumerate(steps, 1)}
    _, round_ = proposed(steps, musts(view, steps))
    circling = {step.id for step in round_}
    return tuple(
        TooSoon(
            step=number[one.then.id],
            title=one.then.title,
            first=number[one.first.id],
            first_title=one.first.title,
            risk=one.risk,
            circle=_in_circle(one, circling),
        )
        for one in closing_too_soon(view, steps)
    )


def _in_circle(one: Must, circling: set[str]) -> bool:
    return one.first.id in circling and one.then.id in circling


def _as_released(snapshot: Snapshot, release: Release) -> Iterator[Step]:
    for one in release.statements:
        if one.form == Form.STEP:
            yield _step(snapshot, release, one)


def _step(snapshot: Snapshot, release: Release, statement: Statement) -> Step:
    """Give a step as its record has it, if that still says so; else as it was said."""
    live = snapshot.find(statement.of, Step)
    if live is not None and step_text(snapshot, live) == statement.says:
        return live
    title = statement.of.name
    said = read_step(statement.says, title)
    named = statement.of.id or statement.id
    blank = live or Step(id=named, title=title, when=release.when)
    return replace(
        blank,
        title=title,
        uses=tuple(map(Ref, said.of("uses"))),
        after=tuple(map(Ref, said.of("after"))),
        inside=said.of("inside first"),
        closes=said.closes,
    )
