"""In which order to do what known faults ask of who has built a release.

By the steps of the release: what went on last comes off first, what is made again is
made before anything is taken apart.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.faults.making_again import is_no
from logbook.publish.errata.to_do import ToDo
from logbook.publish.faults.told import KnownFault
from logbook.publish.parts.hanging import fitted_to, suited_to
from logbook.publish.release.readback import SaidStep, read_step
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.states.statements import Form
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class AtStep:
    """A step that is gone back to, and the parts that are got at there.

    A part stands with what it is gone back for only if; `closes` of a step that cannot
    be undone.
    """

    number: int
    title: str
    parts: tuple[str, ...]
    closes: bool


@dataclass(frozen=True, slots=True)
class Closes:
    """A step that closes again, and what is asked before it does.

    `release` is that of the step, where it is not the one of the page.
    """

    title: str
    release: str
    checks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class InOrder:
    """What to do one after the other; each may be empty.

    `idle` is not used until then, `ready` is made first, `bought` is got first, on a
    list or not,
    `if_needed` is made where it has to be made again; `fitted` is what comes off with
    each of these, `suited` what was made to suit one. `back` are the steps from the
    last one back, `on_top` those later than the first of them that nothing has to be
    done at; `closes` are those of the newest release, `loose` is named by no step.
    """

    idle: tuple[str, ...]
    ready: tuple[str, ...]
    bought: tuple[str, ...]
    if_needed: tuple[str, ...]
    fitted: tuple[tuple[str, tuple[str, ...]], ...]
    suited: tuple[tuple[str, str, str], ...]
    back: tuple[AtStep, ...]
    on_top: tuple[AtStep, ...]
    closes: tuple[Closes, ...]
    loose: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Numbered:
    """A released step with its number, and the parts it makes or takes."""

    number: int
    title: str
    said: SaidStep
    parts: frozenset[str]


def in_order(
    snapshot: Snapshot,
    release: Release,
    to_do: Sequence[ToDo],
    faults: Sequence[KnownFault],
) -> InOrder | None:
    """Give the order; None where there is no more than one thing, or are no steps."""
    parts = [one for one in to_do if one.part and not one.idle]
    made = [named for one in parts if one.take for named in _part(snapshot, one)]
    again = tuple({one.id: one for one in made}.values())
    steps = tuple(_steps(snapshot, release))
    at = {_goes_in(one): _reached(one, steps) for one in parts}
    reached = [step for step in at.values() if step]
    suited = tuple(
        (last.part.name, part.title, gap.title)
        for last, part, gap in suited_to(snapshot, again)
    )
    if not suited and (len(parts) < 2 or not reached):
        return None
    return InOrder(
        idle=tuple(dict.fromkeys(f.part for f in faults if f.stop and f.part)),
        ready=(ready := tuple(dict.fromkeys(_taken(parts, outright=True)))),
        bought=tuple(dict.fromkeys(_bought(snapshot, parts, faults))),
        if_needed=tuple(
            one
            for one in dict.fromkeys(_taken(parts, outright=False))
            if one not in ready
        ),
        fitted=tuple(_fitted(snapshot, again, steps)),
        suited=suited,
        back=(back := tuple(_back(steps, at, parts))),
        on_top=tuple(_on_top(steps, back)),
        closes=tuple(_closing(snapshot, release)),
        loose=tuple(name for name, step in at.items() if step is None),
    )


def _steps(snapshot: Snapshot, release: Release) -> Iterator[_Numbered]:
    stated = (one for one in release.statements if one.form == Form.STEP)
    for number, statement in enumerate(stated, 1):
        said = read_step(statement.says, statement.of.name)
        step = snapshot.find(statement.of, Step)
        made = snapshot.find(step.makes, Part) if step else None
        named = {*said.of("uses"), *({made.title} if made else ())}
        yield _Numbered(number, statement.of.name, said, frozenset(named))


def _fitted(
    snapshot: Snapshot, again: Iterable[Part], steps: Sequence[_Numbered]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Give for each part that is made again what is joined to it in a later step."""
    first: dict[str, int] = {}
    for step in steps:
        for name in step.parts:
            first.setdefault(name, step.number)
    for part in again:
        at = first.get(part.title, 0)
        on = [one.title for one in fitted_to(snapshot, part)]
        later = tuple(one for one in on if first.get(one, at) > at)
        if later:
            yield part.title, later


def _part(snapshot: Snapshot, one: ToDo) -> tuple[Part, ...]:
    """Give the part that is made again; none of what is bought or has two meanings."""
    found = snapshot.named(one.made or one.part, Part)
    bought = one.gets or (one.bought and not one.made)
    return () if bought or len(found) > 1 else found


def _goes_in(one: ToDo) -> str:
    """Name the part whose step is gone back to: what is bought goes where it was."""
    return one.part if one.gets else one.made or one.part


def _is_got(one: ToDo) -> bool:
    """Tell whether something else is bought for a part."""
    return one.gets and bool(one.take) and not is_no(one.remake)


def _bought(
    snapshot: Snapshot, parts: Sequence[ToDo], faults: Sequence[KnownFault]
) -> Iterator[str]:
    """Name what is bought to do it: what takes the place of a part, what a cure names.

    Of what a cure names those that no list has, and screws and the like that are on
    record under the size they are called by.
    """
    yield from (_named(one) for one in parts if _is_got(one))
    for fault in faults:
        yield from fault.unlisted
        do = "" if fault.idle else f" {folded(fault.do_this)} "
        for part in snapshot.all(Part):
            sized = re.match(r"M\d", part.title) and part.source is Source.BOUGHT
            if sized and part.title != fault.part and f" {folded(part.title)} " in do:
                yield part.title


def _named(one: ToDo) -> str:
    return one.take.partition(" (")[0]


def _reached(one: ToDo, steps: Sequence[_Numbered]) -> _Numbered | None:
    """Give the step that is gone back to for a part.

    The last one that makes or takes it: there it went on; rather one that takes what
    the instruction names too. Of one that is made again the
    first one that takes it: all that was fitted to it since comes off.
    """
    named = [step for step in steps if _goes_in(one) in step.parts]
    if not named:
        named = [step for step in steps if one.part in step.parts]
    part = _goes_in(one) if named and _goes_in(one) in named[0].parts else one.part
    if one.take and one.remake.startswith("yes"):
        taken = [step for step in named if part in step.said.of("uses")]
        return next(iter(taken or named), None)
    told = _spaced(" ".join(doing.says for doing in one.doing))
    meant = [
        step
        for step in named
        if any(_spaced(other) in told for other in step.parts - {part})
    ]
    return next(reversed(meant or named), None)


def _spaced(words: str) -> str:
    return folded(words.replace("-", " "))


def _back(
    steps: Sequence[_Numbered],
    at: dict[str, _Numbered | None],
    parts: Sequence[ToDo],
) -> Iterator[AtStep]:
    only_if = {
        _goes_in(one): one.remake
        for one in parts
        if one.remake.startswith("only if") and "; against" not in one.remake
    }
    for step in reversed(steps):
        here = (name for name, one in at.items() if one is step)
        told = tuple(
            f"{name} ({only_if[name]})" if name in only_if else name for name in here
        )
        if told:
            yield AtStep(step.number, step.title, told, step.said.closes)


def _on_top(steps: Sequence[_Numbered], back: Sequence[AtStep]) -> Iterator[AtStep]:
    """Give the steps after the first one gone back to that nothing is done at."""
    reached = {one.number for one in back}
    first = min(reached, default=len(steps))
    for step in reversed(steps):
        if step.number > first and step.number not in reached:
            yield AtStep(step.number, step.title, (), step.said.closes)


def _taken(parts: Sequence[ToDo], *, outright: bool) -> Iterator[str]:
    """Name the revisions that are made again outright, or only if it has to be."""
    for one in parts:
        outright_here = one.remake.startswith("yes")
        if one.take and not one.gets and outright_here is outright:
            yield _named(one)


def _closing(snapshot: Snapshot, release: Release) -> Iterator[Closes]:
    """Give the steps that close in the newest release, where they ask for something."""
    newest = max(snapshot.all(Release), key=lambda one: (one.when, one.id))
    label = "" if newest is release else newest.label
    for step in _steps(snapshot, newest):
        asked = (
            (name, ", ".join(step.said.of(f"{name} first")))
            for name in ("inside", "tested", "clean")
        )
        checks = tuple(one for one in asked if one[1])
        if step.said.closes and checks:
            yield Closes(step.title, label, checks)
