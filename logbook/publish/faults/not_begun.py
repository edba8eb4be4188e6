"""What somebody needs who has begun nothing yet: which release, what is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from logbook.advice.faults.applies import faults_in
from logbook.advice.faults.doing import do_now
from logbook.advice.faults.drafted import AS_IT_IS
from logbook.advice.faults.fixing import fixed, serving
from logbook.advice.faults.held_so_far import did_not_hold, said_to_hold
from logbook.advice.faults.trying import entries_of
from logbook.advice.faults.unrecorded import built_in_unrecorded
from logbook.advice.faults.withdrawn_release import newest_standing, withdrawn_words
from logbook.publish.faults.newer import newer_than
from logbook.publish.faults.withdrawn import not_to_be_made
from logbook.publish.parts.hanging import fitted_to
from logbook.publish.release.trials import was_made
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Source
from logbook.records.states.needed import needed_in
from logbook.records.states.practice import is_practice
from logbook.records.states.tried import verdict_of
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class NotBegun:
    """The release to take, and what is known against parts of it.

    `gone` says why the release of the page was withdrawn; `other` is empty where it is
    the release of the page itself; `worse` where more is known against the newer one,
    and how many `faults` the one to take has. `withdrawn` are revisions of it that are
    not to be made, with why and which is left. `unmade`
    nobody has made, of `unrecorded` no piece is on record though its step was done, of
    `fallen` no piece held. Of the others some piece of `failed` did not hold, and of
    `unsaid` nobody said that one does; `said` tells whether of any somebody did.
    `uncured` are the parts with faults that nothing on record has cured, `carrying`
    those of them that others are joined to, with these.
    """

    gone: str
    other: str
    worse: bool
    faults: int
    withdrawn: tuple[tuple[str, str], ...]
    unmade: tuple[str, ...]
    unrecorded: tuple[tuple[str, str], ...]
    fallen: tuple[str, ...]
    failed: tuple[tuple[str, str], ...]
    unsaid: tuple[str, ...]
    said: bool
    uncured: tuple[tuple[str, str], ...]
    carrying: tuple[tuple[str, tuple[str, ...]], ...]


def not_begun(snapshot: Snapshot, release: Release) -> NotBegun:
    """Say it to who reads a page of this release."""
    newer = newer_than(snapshot, release)
    gone = withdrawn_words(snapshot, release)
    left = newest_standing(snapshot) if newer or gone else None
    take = left or release
    made = _made(snapshot, take)
    unmade, unrecorded, fallen = _untried(snapshot, made)
    tried = [one for one in made if verdict_of(snapshot, one) == "tried"]
    failed = [(one.title, did_not_hold(snapshot, one)) for one in tried]
    unsaid = [one.title for one in tried if not said_to_hold(snapshot, one)]
    uncured = _uncured(snapshot, take, used_too=True)
    return NotBegun(
        gone=gone,
        other=left.label if left else "",
        worse=newer.worse if newer else False,
        faults=len(faults_in(snapshot, take)),
        withdrawn=tuple(
            (one.title, said)
            for one in needed_in(snapshot, take)
            if (said := not_to_be_made(snapshot, one))
        ),
        unmade=tuple(unmade),
        unrecorded=tuple(unrecorded),
        fallen=tuple(fallen),
        failed=tuple((title, how) for title, how in failed if how),
        unsaid=tuple(unsaid),
        said=len(unsaid) < len(tried),
        uncured=tuple(
            (part.title if part else "", "; ".join(said)) for part, said in uncured
        ),
        carrying=tuple(
            (part.title, tuple(one.title for one in on))
            for part, _ in _uncured(snapshot, take, used_too=False)
            if part and (on := fitted_to(snapshot, part))
        ),
    )


def _made(snapshot: Snapshot, release: Release) -> list[Revision]:
    """Give the revisions of a release that are made; neither bought nor to practise."""
    found = ((part_of(snapshot, one), one) for one in needed_in(snapshot, release))
    return [
        one
        for part, one in found
        if part and part.source is not Source.BOUGHT and not is_practice(snapshot, part)
    ]


def _untried(
    snapshot: Snapshot, made: Sequence[Revision]
) -> tuple[list[str], list[tuple[str, str]], list[str]]:
    """Give the revisions nobody has made, those nobody recorded, those that fell."""
    unmade: list[str] = []
    unrecorded: list[tuple[str, str]] = []
    fallen: list[str] = []
    for one in made:
        if verdict_of(snapshot, one) == "untried":
            if was_made(snapshot, one):
                fallen.append(one.title)
            elif found := built_in_unrecorded(snapshot, one):
                _, step, build = found
                done = f"“{step.title}” was done in {build.title}"
                unrecorded.append((one.title, done))
            else:
                unmade.append(one.title)
    return unmade, unrecorded, fallen


def _uncured(
    snapshot: Snapshot, release: Release, *, used_too: bool
) -> tuple[tuple[Part | None, list[str]], ...]:
    """Give each part with a fault that nothing has cured, and the fault.

    With `used_too` also what failed and was used as it is: nothing cures that, but it
    need not be made again.
    """
    found: dict[str, tuple[Part | None, list[str]]] = {}
    for fault in faults_in(snapshot, release):
        now = fixed(snapshot, fault)
        used = used_too and now is None and _used(snapshot, fault)
        if do_now(snapshot, fault) and not used and not (now and now.back):
            continue
        part = snapshot.find(fault.part, Part)
        here = serving(snapshot, now.revision) if now else ""
        said = "; ".join(filter(None, (fault.title, here)))
        found.setdefault(part.id if part else "", (part, []))[1].append(said)
    return tuple(found.values())


def _used(snapshot: Snapshot, fault: Erratum) -> bool:
    """Tell whether a fault is something that failed, and was used as it is."""
    failed = any(isinstance(one, Failure) for one in entries_of(snapshot, fault))
    return failed and do_now(snapshot, fault).startswith(AS_IT_IS)
