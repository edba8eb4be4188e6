"""The newer release that who holds an older one should know of, with what it has."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.faults.applies import faults_in, undecided_in
from logbook.advice.faults.failing import NOBODY_SAID
from logbook.advice.faults.withdrawn_release import newest_standing
from logbook.counting import so_many
from logbook.publish.faults.open_faults import open_faults
from logbook.publish.html import anchor
from logbook.publish.release.trials import tried_words
from logbook.records.kinds.made_public import Release
from logbook.records.states.needed import needed_in
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Newer:
    """The newest release after one: its own faults, and whether it is worse."""

    label: str
    day: str
    has: str
    tried: str
    worse: bool
    coming: str


def newer_than(snapshot: Snapshot, release: Release) -> Newer | None:
    """Give the newest release not withdrawn, where that is a later one than this.

    It is worse where more of its faults forbid using it, or it has more of them.
    """
    last = newest_standing(snapshot)
    if last is None or last.when <= release.when:
        return None
    stops, count = _weight(snapshot, last)
    has = _counted(snapshot, release, last)
    has = f"{has}, {stops} with STOP" if stops else has
    if unsure := len(undecided_in(snapshot, last)):
        them = "it" if unsure == 1 else "them"
        more = "more " if count else ""
        has += f" and {unsure} {more}of which nobody has said whether it has {them}"
    if seen := len(open_faults(snapshot, last)):
        has += f"; of {so_many(seen, 'thing')} seen on the bench {NOBODY_SAID}"
    drawn = [r for r in needed_in(snapshot, last) if is_withdrawn(snapshot, r)]
    if drawn:
        has += f"; withdrawn since: {', '.join(one.title for one in drawn)}"
    return Newer(
        label=last.label,
        day=f"{last.when:%Y-%m-%d}",
        has=has,
        tried=tried_words(snapshot, last),
        worse=_weight(snapshot, last) > _weight(snapshot, release),
        coming=anchor(f"If you come from release {release.label}"),
    )


def _counted(snapshot: Snapshot, release: Release, last: Release) -> str:
    """Say how many faults the newer one has, and how many of them this one has too."""
    found = faults_in(snapshot, last)
    if not found:
        return "no known fault so far"
    own = {fault.id for fault in faults_in(snapshot, release)}
    shared = sum(fault.id in own for fault in found)
    said = so_many(found, "known fault")
    if not shared:
        return f"{said} of its own"
    if shared == len(found):
        return f"{said}, which this one has too"
    return f"{said}, {shared} of them as this one"


def _weight(snapshot: Snapshot, release: Release) -> tuple[int, int]:
    found = faults_in(snapshot, release)
    return sum(bool(fault.stop_using_until) for fault in found), len(found)
