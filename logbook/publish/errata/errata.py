"""The page of known faults of a release, or of all releases, and its facts as data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Any

from logbook.advice.faults.applies import faults_in, undecided_in
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.withdrawn_release import withdrawn_words
from logbook.publish.builders import defers
from logbook.publish.errata.doing_order import in_order
from logbook.publish.errata.to_do import agreed_faults, to_do
from logbook.publish.faults.newer import newer_than
from logbook.publish.faults.not_begun import not_begun
from logbook.publish.faults.open_faults import OpenFault, open_faults
from logbook.publish.faults.stands import stands_in
from logbook.publish.faults.told import told
from logbook.publish.faults.withdrawn import withdrawn_among
from logbook.publish.guide.half_way import half_way
from logbook.publish.html import anchor
from logbook.publish.pages import capital, render
from logbook.publish.release.released_order import closes_too_soon
from logbook.publish.release.statements import stuff
from logbook.publish.release.trials import tried_words
from logbook.publish.signals import Box, Spoken, as_one, of_instruction
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.together.revisions import current_revision, revisions_in
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Covered:
    """A release the page is about, and what it came to.

    `too_soon` says which of its steps cannot be done as they are numbered.
    """

    label: str
    day: str
    tried: str
    count: int
    stops: int
    not_known: int
    too_soon: tuple[str, ...]


Days = Callable[[Sequence[Erratum]], Mapping[str, date]]
"""Gives the days on which the words of faults last changed, by id, where known."""


def nothing_known(_: Sequence[Erratum]) -> Mapping[str, date]:
    """Know of no fault when its words last changed."""
    return {}


def errata_facts(
    snapshot: Snapshot,
    releases: Sequence[Release],
    *,
    every: bool = False,
    days: Days = nothing_known,
) -> dict[str, Any]:
    """Give what the page of known faults says, as data.

    The table has the faults of the page first; on the page of one release also those
    that only later ones have, for who thinks of going over to one.
    """
    chosen, unsure = _chosen(snapshot, releases, every=every)
    dropped = [f for f in known_faults(snapshot) if f.status in DROPPED]
    one = releases[0] if len(releases) == 1 else None
    worded = days(chosen)
    faults = [told(snapshot, fault, one, worded.get(fault.id)) for fault in chosen]
    doing = to_do(faults)
    half = half_way(snapshot, one) if one else None
    order = in_order(snapshot, one, doing, faults) if one else None
    return {
        "project": snapshot.project.title,
        "releases": [asdict(_covered(snapshot, release)) for release in releases],
        "newer": _newer(snapshot, releases),
        "faults": [asdict(fault) for fault in agreed_faults(faults)],
        "begun": asdict(not_begun(snapshot, one)) if one else None,
        "half": asdict(half) if half else None,
        "to_do": [asdict(part) for part in doing],
        "order": asdict(order) if order else None,
        "matrix": _matrix(snapshot, chosen, _of_later(snapshot, releases, chosen)),
        "withdrawn": [
            asdict(one) | {"day": f"{one.day:%Y-%m-%d}"}
            for one in withdrawn_among(snapshot, _held(snapshot, releases))
        ],
        "open_faults": [asdict(one) for one in _open(snapshot, releases)],
        "not_known": [asdict(told(snapshot, fault)) for fault in unsure],
        "dropped": [asdict(told(snapshot, fault)) for fault in dropped],
    }


def _open(snapshot: Snapshot, releases: Sequence[Release]) -> Iterable[OpenFault]:
    """Give what went wrong of which nobody knows whether others meet it, each once."""
    found = (one for release in releases for one in open_faults(snapshot, release))
    return dict.fromkeys(found)


def _newer(snapshot: Snapshot, releases: Sequence[Release]) -> dict[str, Any] | None:
    """Give the newer release, for who holds the one the page is about."""
    found = newer_than(snapshot, releases[0]) if len(releases) == 1 else None
    return asdict(found) if found else None


def _held(snapshot: Snapshot, releases: Sequence[Release]) -> Sequence[Revision]:
    """Give the revisions in these releases, each once; without any, all there are."""
    if not releases:
        return snapshot.all(Revision)
    found = (one for release in releases for one in revisions_in(snapshot, release))
    return tuple({one.id: one for one in found}.values())


def _chosen(
    snapshot: Snapshot, releases: Sequence[Release], *, every: bool
) -> tuple[list[Erratum], list[Erratum]]:
    """Give the faults that apply, and those of which that is not known."""
    if every:
        return [f for f in known_faults(snapshot) if f.status not in DROPPED], []
    return (
        [f for release in releases for f in faults_in(snapshot, release)],
        [f for release in releases for f in undecided_in(snapshot, release)],
    )


def write_errata(
    snapshot: Snapshot,
    releases: Sequence[Release],
    own_templates: Path | None = None,
    *,
    every: bool = False,
    days: Days = nothing_known,
    names: Mapping[str, str] | None = None,
) -> str:
    """Write the known faults of these releases as Markdown.

    `names` are those of the builders by their builds, where they are several.
    """
    facts = errata_facts(snapshot, releases, every=every, days=days)
    anchors = [
        anchor(f"{number}. {capital(fault['title'])}")
        for number, fault in enumerate(facts["faults"], 1)
    ]
    facts |= {
        "every": every,
        "defers": defers(names or {}),
        "record": snapshot.project,
        "up": "../.." if every else "../../..",
        "anchors": anchors,
        "boxes": tuple(_cautions(snapshot, facts["faults"], anchors)),
    }
    return render("errata.md.j2", facts, own_templates)


def _cautions(
    snapshot: Snapshot, faults: Sequence[dict[str, Any]], anchors: Sequence[str]
) -> Iterator[tuple[Box, ...]]:
    """Give for each fault what to mind at the work that is told of it."""
    spoken = Spoken()
    for number, (fault, place) in enumerate(zip(faults, anchors, strict=True), 1):
        named = snapshot.named(fault["part"], Part) if fault["part"] else ()
        revision = current_revision(snapshot, named[0]) if named else None
        material = stuff(snapshot, named[0], revision) if named else ""
        lines = of_instruction(fault["works"], material)
        yield as_one(spoken.before(lines, place, f"fault {number}"))


def _covered(snapshot: Snapshot, release: Release) -> Covered:
    found = faults_in(snapshot, release)
    return Covered(
        label=release.label,
        day=f"{release.when:%Y-%m-%d}",
        tried=tried_words(snapshot, release),
        count=len(found),
        stops=sum(bool(fault.stop_using_until) for fault in found),
        not_known=len(undecided_in(snapshot, release)),
        too_soon=tuple(one.says for one in closes_too_soon(snapshot, release)),
    )


def _of_later(
    snapshot: Snapshot, releases: Sequence[Release], chosen: Sequence[Erratum]
) -> list[Erratum]:
    """Give the faults that only releases after the one of the page have."""
    if len(releases) != 1:
        return []
    later = [one for one in snapshot.all(Release) if one.when > releases[0].when]
    found = {f.id: f for one in later for f in faults_in(snapshot, one)}
    own = {fault.id for fault in chosen}
    return [fault for fault in found.values() if fault.id not in own]


def _matrix(
    snapshot: Snapshot, faults: Sequence[Erratum], later: Sequence[Erratum]
) -> dict[str, Any]:
    """Give each fault with how every release stands to it, in words.

    Those of the page have its number, those of later releases only have 0.
    """
    releases = snapshot.all(Release)
    return {
        "releases": [release.label for release in releases],
        "rows": [
            {
                "number": number if fault in faults else 0,
                "title": fault.title,
                "stands": [stands_in(snapshot, fault, one) for one in releases],
            }
            for number, fault in enumerate((*faults, *later), 1)
        ],
    }


def readme_line(snapshot: Snapshot, release: Release, path: str) -> str:
    """Give the line for the README that leads holders of a release to its faults."""
    if gone := withdrawn_words(snapshot, release):
        return f"**Release {release.label} was {gone}**: [what to do]({path})."
    covered = _covered(snapshot, release)
    numbered = "; its steps cannot all be done as numbered" if covered.too_soon else ""
    them = "it" if covered.not_known == 1 else "them"
    unsure = (
        f"{covered.not_known} of which nobody has said whether it has {them}"
        if covered.not_known
        else ""
    )
    if not covered.count:
        none = f"none known for certain, {unsure}" if unsure else "none known yet"
        return f"[Known faults of release {release.label}]({path}): {none}{numbered}."
    one = covered.stops == 1
    why = f", {covered.stops} of them {'a reason' if one else 'reasons'} to stop using"
    stops = f"{why} a part" if covered.stops else ""
    if covered.stops == covered.count == 1:
        stops = ", a reason to stop using a part"
    word = "known fault" if covered.count == 1 else "known faults"
    return (
        f"**Release {release.label} has {covered.count} {word}**{stops}"
        f"{f', and {unsure}' if unsure else ''}: [what to do]({path}){numbered}."
    )
