"""Where a known fault is fixed: the revision to take now, and what came before it.

Every page and screen that says where a fault is fixed says it from here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.faults.drafted import Fault
from logbook.advice.faults.failing import (
    against,
    better,
    changed_up_to,
    comes_again,
    cure_of,
    in_service,
    left_open,
    own_faults,
    since,
    told_of,
)
from logbook.advice.faults.headline import headline
from logbook.advice.faults.same_fault import sameness
from logbook.advice.faults.trying import cure_words, entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn, revisions_in, revisions_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Fixed:
    """The revision that fixes a fault, said in words that hold of it.

    `changed` is what was changed to fix it, up to this revision; `but` what stands
    against it, `before` those it takes the place of, because they have a fault of
    their own, `back` that the fault came back in it, and how; each may be empty.
    """

    revision: Revision
    releases: tuple[str, ...]
    changed: str
    tried: str
    but: str
    before: str
    back: str = ""

    @property
    def where(self) -> str:
        """Say which releases hold it."""
        held = releases_named(self.releases)
        return f"in {held}" if held else "not released yet"


def releases_named(labels: Sequence[str]) -> str:
    """Name releases in a sentence: release 1.0; releases 1.0 and 1.1; empty of none."""
    return f"release{'s' * (len(labels) > 1)} {listed(labels)}" if labels else ""


def listed(names: Sequence[str]) -> str:
    """Give names as a list in a sentence: 1.0, 1.1 and 1.2."""
    *before, last = names or ("",)
    return f"{', '.join(before)} and {last}" if before else last


def fixed(snapshot: Snapshot, erratum: Erratum) -> Fixed | None:
    """Say what fixes a fault as things stand; None where nothing does."""
    now = better(snapshot, erratum)
    if now is None:
        return None
    line = since(snapshot, snapshot.find(erratum.fixed_by, Revision) or now)
    told_against = against(snapshot, now)
    stands = _against(snapshot, erratum, told_against) if told_against else ""
    if not stands and (left := left_open(snapshot, erratum)):
        told = headline(snapshot, left[-1])
        stands = f"but: nobody has said whether {now.title} still has this: {told}"
    return Fixed(
        revision=now,
        releases=_holding(snapshot, now),
        changed=changed_up_to(snapshot, erratum, now),
        tried=cure_words(snapshot, now, entries_of(snapshot, erratum)),
        but=stands,
        before="; ".join(_not_these(snapshot, line, now)),
        back=_back(snapshot, erratum, now),
    )


def _against(snapshot: Snapshot, erratum: Erratum, entry: Fault) -> str:
    """Say what stands against a cure: another fault than the one it cures, or that."""
    same = sameness(snapshot, erratum, entry)
    if same.holds:
        what = same.said
    elif entry.met_by_others is Blame.UNKNOWN:
        what = "something else was seen on it"
    else:
        what = "it has another fault"
    return f"but {what}: {told_of(snapshot, entry)}"


def _back(snapshot: Snapshot, erratum: Erratum, now: Revision) -> str:
    """Say that the fault came back in the revision that was to fix it, and where."""
    again = comes_again(snapshot, erratum, now)
    known = again is not None and again.met_by_others is Blame.DRAWING
    if again is None or not known:
        return ""
    said = sameness(snapshot, erratum, again).said
    return f"{said}: {headline(snapshot, again)}"


def serving(snapshot: Snapshot, revision: Revision) -> str:
    """Say of which earlier revision a piece is in service; empty where of none."""
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    for one in reversed(line[: line.index(revision)] if revision in line else ()):
        if not is_withdrawn(snapshot, one) and (piece := in_service(snapshot, one)):
            held = releases_named(_holding(snapshot, one))
            where = f" ({held})" if held else ""
            return f"a piece of {one.title}{where} is in service: {piece.title}"
    return ""


def _not_these(
    snapshot: Snapshot, line: tuple[Revision, ...], now: Revision
) -> Iterator[str]:
    """Say of each revision that was to fix it why it is not the one to take."""
    for one in line:
        own = own_faults(snapshot, one)
        if one is not now and own:
            held = releases_named(_holding(snapshot, one))
            where = f" ({held})" if held else ""
            why = "; ".join(_why_not(snapshot, entry, now) for entry in own)
            yield f"not by {one.title}{where}, which has a fault of its own: {why}"


def _why_not(snapshot: Snapshot, entry: Fault, now: Revision) -> str:
    """Tell a fault; not that the revision which is named anyhow puts it right."""
    if cure_of(snapshot, entry) is now:
        return headline(snapshot, entry)
    return told_of(snapshot, entry)


def fixed_here(snapshot: Snapshot, erratum: Erratum, held: Revision) -> str:
    """Say how a revision that is without a fault stands, and what to take instead."""
    said = [held.title, cure_words(snapshot, held, entries_of(snapshot, erratum))]
    own = own_faults(snapshot, held)
    if own:
        why = "; ".join(told_of(snapshot, entry) for entry in own)
        said.append(f"it has a fault of its own: {why}")
    now = fixed(snapshot, erratum)
    if own and now and now.revision is not held:
        said.append(f"take {now.revision.title}, {now.where}")
    return "; ".join(said)


def _holding(snapshot: Snapshot, revision: Revision) -> tuple[str, ...]:
    return tuple(
        release.label
        for release in snapshot.all(Release)
        if revision in revisions_in(snapshot, release)
    )
