"""How each revision and each release stands to a known fault, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.faults.applies import (
    NOT_AFFECTED,
    NOT_FIXED,
    NOT_KNOWN,
    WORDS,
    applies,
    cured_in,
    may_have,
    standing,
    undecided,
)
from logbook.advice.faults.fixing import Fixed
from logbook.advice.faults.not_held import way_round
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.states.needed import needed_in, not_needed_in
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_in, revisions_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Stands:
    """How one revision stands to a fault, in words."""

    revision: str
    releases: tuple[str, ...]
    words: str

    @property
    def came_back(self) -> bool:
        """Whether it was to fix the fault, and has it again."""
        return self.words.startswith(NOT_FIXED)


def by_revision(snapshot: Snapshot, erratum: Erratum) -> Iterator[Stands]:
    """Give how every revision of the affected parts stands to a fault, in order."""
    affected = (snapshot.find(ref, Revision) for ref in erratum.revisions)
    found = (part_of(snapshot, revision) for revision in affected if revision)
    for part in dict.fromkeys(part.id for part in found if part):
        for revision in revisions_of(snapshot, snapshot.lookup(part, Part)):
            labels = tuple(
                release.label
                for release in snapshot.all(Release)
                if revision in needed_in(snapshot, release)
            )
            words = standing(snapshot, erratum, revision)
            yield Stands(revision.title, labels, words)


def stands_in(snapshot: Snapshot, erratum: Erratum, release: Release) -> str:
    """Say in words how a release stands to a fault."""
    if erratum.part and erratum.part.id in not_needed_in(snapshot, release):
        return f"{NOT_AFFECTED}: not needed in it"
    held = {revision.part.id: revision for revision in revisions_in(snapshot, release)}
    revision = held.get(erratum.part.id) if erratum.part else None
    words = standing(snapshot, erratum, revision) if revision else NOT_AFFECTED
    if cured := cured_in(snapshot, erratum, release):
        return cured
    if applies(snapshot, erratum, release):
        return words if may_have(words) else WORDS[way_round(snapshot, erratum)]
    return NOT_KNOWN if undecided(snapshot, erratum, release) else words


def again(table: tuple[Stands, ...]) -> str:
    """Say in which revision that was to fix it it came back; empty where in none."""
    said = []
    for one in (one for one in table if one.came_back):
        came, _, told = one.words.removeprefix(f"{NOT_FIXED} ").partition(": ")
        said.append(f"{came} in {one.revision}: {told}")
    return "; ".join(said)


def instead(now: Fixed | None, table: tuple[Stands, ...]) -> str:
    """Say where what was to fix it has not held, and what to take; else nothing."""
    back = {one.revision for one in table if one.came_back}
    if not back or now is None or now.revision.title in back:
        return ""
    return f"that has not held: take {now.revision.title}, {now.where}"
