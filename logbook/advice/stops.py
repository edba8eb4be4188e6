"""What stops a release: the one home of that question.

A wait that nobody went past, a rejection nobody decided on, a design file that
changed since its revision was recorded, a withdrawn revision, a written order that
closes over what is still to go in. Each may be gone past with a reason, like any
other hold.

A declared wait always stops. A gap that waits stops once the build in hand has a
piece of it: until somebody makes one, the guide says what to measure first. What
the order of work asks before a step closes is named, and stops nothing: it is
published with the release.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.advice.advisor import Advisor
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.advice.ground.same_content import same_content
from logbook.advice.steps.holds import gone_past
from logbook.advice.steps.order import unbuildable
from logbook.errors import Problem
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.design import DesignFile, Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.dispositions import undisposed
from logbook.records.together.references import part_of
from logbook.records.together.revisions import (
    current_revision,
    is_withdrawn,
    parts_now,
    revisions_in,
)
from logbook.records.together.snapshot import Snapshot

_REJECTED = "stop off its drawing: "
"""Begins the key of what stops because a piece is off its drawing."""


@dataclass(frozen=True, slots=True)
class Stopped:
    """What stops a release, gone past or not, and what is wrong in the records.

    `waits` wait on the bench and stop no release.
    """

    stops: tuple[Advice, ...]
    waits: tuple[Advice, ...]
    problems: tuple[Problem, ...]

    @property
    def rejected(self) -> tuple[Advice, ...]:
        """Give what is off its drawing: with `undisposed`, all that is undecided."""
        return tuple(one for one in self.stops if one.key.startswith(_REJECTED))

    @property
    def open(self) -> tuple[Advice, ...]:
        """Give what nobody has gone past."""
        return tuple(one for one in self.stops if not one.passed)


def current_revisions(snapshot: Snapshot) -> tuple[Revision, ...]:
    """Give the current revision of each part, by the part's name."""
    parts = sorted(snapshot.all(Part), key=lambda part: part.title.casefold())
    found = (current_revision(snapshot, part) for part in parts)
    return tuple(revision for revision in found if revision is not None)


def stops(
    snapshot: Snapshot,
    revisions: Sequence[Revision] | None = None,
    on_disk: Mapping[str, DesignFile] | None = None,
    build: Build | None = None,
) -> Stopped:
    """Say what stops these revisions, else the current ones, from being released.

    `on_disk` gives the design files as they are now; without it no file is
    looked at. `build` is the one in hand, else the one that was logged in last.
    """
    chosen = current_revisions(snapshot) if revisions is None else tuple(revisions)
    told = Advisor().update(snapshot, build)
    register = Register()
    register.update(snapshot, build)
    view = View(register)
    waits = [one for one in told.advice if one.grade is Grade.WAIT]
    stopping = [one for one in waits if _stops(view, one)]
    stopping += unbuildable(view)
    keys = {one.key for one in stopping}
    found = [
        *(replace(one, topic="stops", key=f"stop {one.key}") for one in stopping),
        *_rejections(view, told.advice),
        *_withdrawn(view, chosen),
        *_left_out(view, chosen),
        *(_changed(view, chosen, on_disk) if on_disk is not None else ()),
    ]
    return Stopped(
        tuple(_passed(view, one) for one in found),
        tuple(one for one in waits if one.open and one.key not in keys),
        told.problems,
    )


def _stop(about: Ref, why: str, *more: Ref, changes: str) -> Advice:
    return Advice(
        key=f"stop {about.id or about.name}: {why}",
        topic="stops",
        grade=Grade.WAIT,
        about=about,
        statement=f"{about.name}: {why}",
        inputs=(about, *more),
        formula="a release waits for what is not settled",
        changes=(changes, "an override with its reason"),
    )


def _passed(view: View, one: Advice) -> Advice:
    if one.passed:
        return one
    about = one.about
    names = (one.key, one.statement, about.name, about.id, str(about))
    return replace(one, passed=gone_past(view, None, *names))


def rejected(advice: Iterable[Advice]) -> Iterator[Advice]:
    """Give what is off its drawing: with `undisposed`, all that is undecided."""
    return (one for one in advice if one.topic == "conformity")


# -- each reason -----------------------------------------------------------------


def _stops(view: View, wait: Advice) -> bool:
    if view.find(wait.about, Hold) is not None:
        return True
    return view.find(wait.about, Step) is None and _begun(view, wait)


def _begun(view: View, wait: Advice) -> bool:
    """Tell whether the build in hand has a piece of what the wait is about."""
    found = [view.find(ref) for ref in wait.inputs]
    parts = {part.id for one in found if one and (part := part_of(view, one))}
    build = view.build
    return any(
        build is not None
        and view.find(piece.build) is build
        and getattr(view.find(piece.part), "id", "") in parts
        for piece in view.all(Piece)
    )


def _rejections(view: View, advice: Iterable[Advice]) -> Iterator[Advice]:
    for fault in undisposed(view):
        why = "nobody has decided what to do with it"
        yield _stop(fault.ref, why, changes="what to do with the piece")
    for one in rejected(advice):
        key = f"{_REJECTED}{one.key}"
        yield replace(one, topic="stops", key=key, grade=Grade.WAIT)


def _withdrawn(view: View, chosen: Iterable[Revision]) -> Iterator[Advice]:
    for one in chosen:
        if is_withdrawn(view, one):
            why = "this revision was withdrawn"
            yield _stop(one.ref, why, changes="a revision that stands")


def _left_out(view: View, chosen: Sequence[Revision]) -> Iterator[Advice]:
    if not chosen:
        why = "there is no part with a revision; accepted: at least one"
        yield _stop(view.project.ref, why, changes="a part with a revision")
    held = {revision.part.id for revision in chosen}
    for part in parts_now(view):
        if part.id not in held:
            why = "it has no revision that is not withdrawn"
            yield _stop(part.ref, why, changes="a revision that stands")


def _changed(
    view: View, chosen: Iterable[Revision], on_disk: Mapping[str, DesignFile]
) -> Iterator[Advice]:
    for revision in chosen:
        labels = [
            release.label
            for release in view.all(Release)
            if revision in revisions_in(view, release)
        ]
        out = f", which release {' and '.join(labels)} holds" if labels else ""
        for file in revision.files:
            now = on_disk.get(file.path)
            about = Ref(file.path)
            if now is None:
                why = f"not there, but {revision.title} was drawn in it"
            elif not same_content(now, file):
                why = (
                    f"changed since {revision.title} was recorded (SHA-256 "
                    f"{file.sha256[:12]}…, now {now.sha256[:12]}…){out}; that is "
                    "a new revision"
                )
            else:
                continue
            yield _stop(about, why, revision.ref, changes="a new revision")
