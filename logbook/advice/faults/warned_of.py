"""The known faults to be warned of before work, a piece, a screw or an order.

In a build by a release: of what that release, or the piece at hand, really is. Each is
told once in a build, where something first touches what it is about.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from logbook.advice.faults.applies import applies, faults_in, marks, may_have, standing
from logbook.advice.faults.as_done import instruction
from logbook.advice.faults.doing import is_idle
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.headline import titled
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.stopping import not_until, stops
from logbook.advice.faults.withdrawn_release import recalled
from logbook.records.kinds.assembling import Line, Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Order, StepDone, TakenIn
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import is_gone, pieces_of
from logbook.records.states.statements import Form
from logbook.records.together.once import once
from logbook.records.together.revisions import built_to
from logbook.records.together.snapshot import Snapshot

Act = StepDone | Order | Piece
"""What is done to a part so that its known faults matter."""


@dataclass(frozen=True, slots=True)
class Warned:
    """A known fault to be told before something is done; `stop` where not to use it."""

    fault: Erratum
    stop: bool
    says: str


def warned_of(draft: Draft) -> tuple[Warned, ...]:
    """Give the faults to tell before a draft is taken, what stops use first."""
    acts = [one for one in draft.new if isinstance(one, Act)]
    build = draft.build() if acts else None
    if build is None or build.id not in draft.snapshot:
        return ()
    pieces = {one.id: one for one in draft.new if isinstance(one, Piece)}
    touched: dict[str, tuple[Part, Revision | None]] = {}
    for act in acts:
        for part, revision in _touched(draft.snapshot, act, pieces):
            touched.setdefault(part.id, (part, revision))
    return warned_at(draft.snapshot, build, touched.values())


def warned_at(
    snapshot: Snapshot,
    build: Build,
    touched: Iterable[tuple[Part, Revision | None]],
) -> tuple[Warned, ...]:
    """Give the faults of these parts, each at its revision, not told yet in a build."""
    release = snapshot.find(build.release, Release)
    if release is None:
        return ()
    told = taken_in(snapshot, build)
    found: dict[str, Erratum] = {}
    for part, revision in touched:
        for fault in faults_at(snapshot, build, part, revision):
            if fault.id not in told and not _met_before(snapshot, build, fault):
                found.setdefault(fault.id, fault)
    every = [one for one in known_faults(snapshot) if one.id in found]
    return tuple(Warned(one, stops(one), says(snapshot, one)) for one in every)


def at_step(snapshot: Snapshot, build: Build, step: Step) -> tuple[Warned, ...]:
    """Give the faults of all that a step makes and uses, whether told before or not."""
    if build.release is None:
        return ()
    taken = taken_in(snapshot, build)
    parts = [snapshot.find(one, Part) for one in (*step.uses, step.makes)]
    found = {
        fault.id
        for part in parts
        if part is not None
        for fault in faults_at(snapshot, build, part, None)
    }
    every = [one for one in known_faults(snapshot) if one.id in found - taken]
    return tuple(Warned(one, stops(one), says(snapshot, one)) for one in every)


def says(snapshot: Snapshot, fault: Erratum) -> str:
    """Give the one line of a fault: what it is, and what to do now."""
    do = instruction(snapshot, fault)
    until = not_until(snapshot, fault)
    told = [titled(snapshot, fault), f"do not use it {until}" if until else ""]
    told.append(do if is_idle(do) else f"do this now: {do}")
    led = "STOP, known fault" if stops(fault) else "known fault"
    return f"{led}: {'; '.join(filter(None, told))}".rstrip(". ")


def counted(snapshot: Snapshot, release: Release) -> str:
    """Say how many known faults a release has, and where they are read; else nothing.

    It is said where a build by it begins; of one that was withdrawn, that it was.
    """
    if gone := recalled(snapshot, release):
        return gone
    found = faults_in(snapshot, release)
    if not found:
        return ""
    many = f"{len(found)} known fault{'s' * (len(found) > 1)}"
    grave = sum(map(stops, found))
    stop = f", {grave} with STOP" if grave else ""
    return (
        f"{release.title} has {many}{stop}; read them before you begin: "
        f"logbook errata {release.label}, or Ctrl-Y"
    )


@once
def faults_at(
    snapshot: Snapshot, build: Build, part: Part, revision: Revision | None
) -> tuple[Erratum, ...]:
    """Give the faults that concern who touches a part in a build by a release.

    Of no revision given it is the piece at hand, or else what the release froze. What
    is bought for a faulty part has its fault too, where that goes with it.
    """
    release = snapshot.find(build.release, Release)
    now = revision or _at_hand(snapshot, build, part)
    own = [
        fault
        for fault in known_faults(snapshot)
        if fault.status not in DROPPED
        and _concerns(snapshot, fault, part, now, release)
    ]
    bought = _by_hardware(snapshot, release) if release else {}
    return (*own, *bought.get(part.id, ()))


def _concerns(
    snapshot: Snapshot,
    fault: Erratum,
    part: Part,
    revision: Revision | None,
    release: Release | None,
) -> bool:
    if fault.revisions and revision is not None:
        return may_have(standing(snapshot, fault, revision))
    of_part = snapshot.find(fault.part, Part) is part
    return of_part and release is not None and applies(snapshot, fault, release)


@once
def _by_hardware(
    snapshot: Snapshot, release: Release
) -> Mapping[str, tuple[Erratum, ...]]:
    """Give the faults that mark what is bought, by the id of that part."""
    found: dict[str, tuple[Erratum, ...]] = {}
    marked = marks(snapshot, release)
    for one in release.statements:
        if one.form == Form.LINE and one.id in marked:
            line = snapshot.find(one.of)
            part = snapshot.find(line.part if isinstance(line, Line) else one.of, Part)
            others = [f for f in marked[one.id] if snapshot.find(f.part) is not part]
            if part is not None and others:
                found[part.id] = tuple(others)
    return found


def taken_in(snapshot: Snapshot, build: Build) -> frozenset[str]:
    """Give the ids of the faults somebody took in for a build."""
    return frozenset(
        ref.id
        for entry in snapshot.all(TakenIn)
        if snapshot.find(entry.build) is build
        for ref in entry.errata
    )


@once
def _met_before(snapshot: Snapshot, build: Build, fault: Erratum) -> bool:
    """Tell whether something in a build touched it since it is known: it was told."""
    acts: tuple[Act, ...] = (
        *snapshot.all(StepDone),
        *snapshot.all(Order),
        *snapshot.all(Piece),
    )
    return any(
        fault in faults_at(snapshot, build, part, revision)
        for act in acts
        if act.when >= fault.when and snapshot.find(act.build) is build
        for part, revision in _touched(snapshot, act, {})
    )


def _touched(
    snapshot: Snapshot, act: Act, drafted: Mapping[str, Piece]
) -> Iterator[tuple[Part, Revision | None]]:
    """Give the parts something is done with, and the revision of a named piece.

    What a step uses goes in with it.
    """
    ref = act.ref if isinstance(act, Piece) else getattr(act, "piece", None)
    piece = (drafted.get(ref.id) if ref else None) or snapshot.find(ref, Piece)
    if isinstance(act, Piece):
        piece = act
    if piece is not None and (part := snapshot.find(piece.part, Part)):
        yield part, snapshot.find(piece.revision, Revision)
    if isinstance(act, Piece):
        return
    step = snapshot.find(act.step, Step) if isinstance(act, StepDone) else None
    refs = [act.part, *act.about]
    refs += [*step.uses, step.makes] if step else []
    for one in refs:
        if (part := snapshot.find(one, Part)) is not None:
            yield part, None


def _at_hand(snapshot: Snapshot, build: Build, part: Part) -> Revision | None:
    """Give the revision of the newest piece of a part here, else of the next one."""
    for piece in reversed(pieces_of(snapshot, part)):
        if snapshot.find(piece.build) is build and not is_gone(snapshot, piece):
            return snapshot.find(piece.revision, Revision)
    return built_to(snapshot, part, build)
