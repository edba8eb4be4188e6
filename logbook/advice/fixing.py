"""Where a known fault is fixed: the revision to take now, and what came before it."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.failing import better, but, own_faults
from logbook.advice.trying import cure_words, entries_of
from logbook.records.design import Revision
from logbook.records.made_public import Erratum, Release
from logbook.records.revisions import revisions_in
from logbook.records.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Fixed:
    """The revision that fixes a fault, said in words that hold of it.

    `but` is what stands against it, `before` the cure it takes the place of, because
    that had a fault of its own; both may be empty.
    """

    revision: Revision
    releases: tuple[str, ...]
    tried: str
    but: str
    before: str

    @property
    def where(self) -> str:
        """Say which releases hold it."""
        held = " and ".join(self.releases)
        return f"in release {held}" if held else "not released yet"


def fixed(snapshot: Snapshot, erratum: Erratum) -> Fixed | None:
    """Say what fixes a fault as things stand; None where nothing does."""
    cure = better(snapshot, erratum)
    if cure is None:
        return None
    first = snapshot.find(erratum.fixed_by, Revision)
    before = ""
    if first is not None and first is not cure:
        held = _holding(snapshot, first)
        where = f" (release {' and '.join(held)})" if held else ""
        own = "; ".join(own_faults(snapshot, first))
        why = f": {own}" if own else ""
        before = f"not by {first.title}{where}, which has a fault of its own{why}"
    return Fixed(
        revision=cure,
        releases=_holding(snapshot, cure),
        tried=cure_words(snapshot, cure, entries_of(snapshot, erratum)),
        but=but(snapshot, cure),
        before=before,
    )


def _holding(snapshot: Snapshot, revision: Revision) -> tuple[str, ...]:
    return tuple(
        release.label
        for release in snapshot.all(Release)
        if revision in revisions_in(snapshot, release)
    )
