"""Known faults that a release may have or not, as nobody has said; how to say it."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.applies import applies, back_in, undecided
from logbook.advice.faults.came_back import again_as, came_back
from logbook.advice.faults.failing import DROPPED, reopened, returned
from logbook.advice.faults.fixing import releases_named
from logbook.advice.faults.headline import headline, titled
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.looks_cured import looking_cured, looks_cured
from logbook.advice.faults.making_again import unanswered
from logbook.advice.faults.remake_disputed import disputed
from logbook.advice.faults.same_fault import Same, sameness
from logbook.advice.faults.trying import entries_of
from logbook.advice.faults.unplaced import is_unplaced
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


def unsaid(snapshot: Snapshot) -> Iterator[str]:
    """Ask of each such fault about each revision, or else release, it is open for.

    One that names nothing is asked for its part instead (`unplaced`); what looks cured
    is said with what makes it look so (`looks_cured`). Then of each whether who has
    made the part makes it again, and where two answers disagree.
    """
    yield from looks_cured(snapshot)
    by = {one.fault.id: one.by for one in looking_cured(snapshot)}
    for fault in known_faults(snapshot):
        if is_unplaced(fault):
            continue
        open_for: dict[str, tuple[Revision | None, list[str]]] = {}
        for release in snapshot.all(Release):
            if _is_open(snapshot, fault, release):
                held = _held(snapshot, fault, release)
                if held is not None and _is_told(held, by.get(fault.id)):
                    continue
                key = held.id if held else ""
                open_for.setdefault(key, (held, []))[1].append(release.label)
        for held, labels in open_for.values():
            yield _asked(snapshot, fault, held, labels)
        yield from _back(snapshot, fault)
    yield from unanswered(snapshot)
    yield from disputed(snapshot)


def undecided_for(snapshot: Snapshot, release: Release) -> Iterator[str]:
    """Ask it of each fault that is open for one release, which may be unsaved yet."""
    cured = {one.fault.id for one in looking_cured(snapshot)}
    for fault in known_faults(snapshot):
        if not _is_open(snapshot, fault, release) or is_unplaced(fault):
            continue
        if fault.id not in cured:
            held = _held(snapshot, fault, release)
            asked = _asked(snapshot, fault, held, [release.label])
            later = "" if held or release.id in snapshot else " (once it is out)"
            yield f"{asked}{later}"


def _is_open(snapshot: Snapshot, fault: Erratum, release: Release) -> bool:
    """Tell whether nobody said of a release, or of what it has since one came back."""
    held = _held(snapshot, fault, release)
    back = held is not None and reopened(snapshot, fault, held) is not None
    return undecided(snapshot, fault, release) or (
        back and fault.status not in DROPPED and applies(snapshot, fault, release)
    )


def _back(snapshot: Snapshot, fault: Erratum) -> Iterator[str]:
    """Ask of each fault that is this one come back only by its words."""
    told = [
        entry
        for entry in returned(snapshot, fault)
        if sameness(snapshot, fault, entry) is Same.BY_WORDS
    ]
    for first in entries_of(snapshot, fault):
        later = came_back(snapshot, first)
        if later and again_as(snapshot, first, later) is Same.BY_WORDS:
            told.append(later)
    for entry in told:
        yield (
            f"{headline(snapshot, entry)}: by its words it is “"
            f"{titled(snapshot, fault)}” come back, nobody has said so; if it is: "
            f"logbook erratum {fault.id} --entry {entry.id}; if it is another fault: "
            f"logbook erratum {entry.id}"
        )


def _is_told(held: Revision, cure: Revision | None) -> bool:
    """Tell whether the revision that looks like the cure answers for this one too."""
    return cure is not None and cure.part.id == held.part.id and cure.when <= held.when


def _held(snapshot: Snapshot, fault: Erratum, release: Release) -> Revision | None:
    """Give the revision a release has of the part of a fault of some revision."""
    part = fault.part.id if fault.part and fault.revisions else ""
    found = (one for one in revisions_in(snapshot, release) if one.part.id == part)
    return next(found, None)


def _asked(
    snapshot: Snapshot, fault: Erratum, held: Revision | None, labels: list[str]
) -> str:
    what = releases_named(labels)
    option, named = "release", labels
    if held is not None:
        what = f"{held.title} ({what})"
        option, named = "revision", [f'"{held.title}"']
    has = " ".join(f"--{option} {name}" for name in named)
    not_has = " ".join(f"--not-{option} {name}" for name in named)
    again = reopened(snapshot, fault, held) if held else None
    back = f"{back_in(snapshot, fault, again)}: " if again else ""
    told = titled(snapshot, fault)
    told += f": {back}{headline(snapshot, again)}; " if again else ": "
    said = (
        f"{told}nobody has said whether {what} has it; if it has: "
        f"logbook erratum {fault.id} {has}; if it has not: "
        f"logbook erratum {fault.id} {not_has}"
    )
    affected = [snapshot.find(ref, Revision) for ref in fault.revisions]
    if again and held:
        return f'{said}; if it cures it: --fixed-by "{held.title}"'
    if held is None or fault.fixed_by is not None:
        return said
    later = all(one and one.when < held.when for one in affected)
    return f'{said}; if it is cured there: --fixed-by "{held.title}"' if later else said
