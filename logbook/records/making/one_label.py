"""Two revisions of a part, or two releases, of one label: which of them keeps it.

Both were given it in clones that knew nothing of each other. What went out under a
label is not called otherwise without a word: the one that others have keeps it; where
both went out, it is asked.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.together.labels import label_words, next_label
from logbook.records.together.names import folded
from logbook.records.together.ordered import age
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

Labelled = Revision | Release
L = TypeVar("L", Revision, Release)


@dataclass(frozen=True, slots=True)
class Contest:
    """Two of one label, the older first.

    `kept` is the one that keeps it, None where that is to be asked; `why` says why.
    """

    older: Labelled
    later: Labelled
    kept: Labelled | None
    why: str = ""

    @property
    def gives_way(self) -> Labelled | None:
        """The one that gets another label."""
        if self.kept is None:
            return None
        return self.later if self.kept is self.older else self.older


def contests(
    snapshot: Snapshot, said: Collection[str], out: Collection[str]
) -> Iterator[Contest]:
    """Give the first two of each label that more than one has.

    `said` are ids of those that keep their label because somebody said so, `out` of the
    releases that others have for all this clone knows.
    """
    for release, other in _first_two(_by_release(snapshot)):
        both = (release, other)
        theirs = [one for one in both if one.id in out]
        why = "it is in no branch of others that this clone knows"
        half = [one for one in both if one.title == f"release {one.label}"]
        if len(half) == 1:
            theirs, why = half, "it was called so already, and its tag was not"
        yield _settled(release, other, said, theirs, why)
    for part in snapshot.all(Part):
        for one, two in _first_two(_by_label(revisions_of(snapshot, part))):
            held = [each for each in (one, two) if releases_of(snapshot, each)]
            if held:
                yield _settled(one, two, said, held, "it is in no release")
            else:
                older, later = sorted((one, two), key=age)
                first = [each for each in (older, later) if each.id in said]
                yield Contest(older, later, (first or [older])[0])


def _settled(
    one: Labelled,
    two: Labelled,
    said: Collection[str],
    theirs: Sequence[Labelled],
    why: str,
) -> Contest:
    older, later = sorted((one, two), key=age)
    named = [each for each in (older, later) if each.id in said]
    if len(named) == 1:
        return Contest(older, later, named[0])
    if len(theirs) == 1:
        return Contest(older, later, theirs[0], why)
    return Contest(older, later, None)


def _first_two(groups: Iterator[list[L]]) -> Iterator[tuple[L, L]]:
    for group in groups:
        if len(group) > 1:
            yield group[0], group[1]


def _by_release(snapshot: Snapshot) -> Iterator[list[Release]]:
    found: dict[str, list[Release]] = {}
    for release in snapshot.all(Release):
        found.setdefault(folded(release.label), []).append(release)
    yield from found.values()


def _by_label(line: Sequence[Revision]) -> Iterator[list[Revision]]:
    found: dict[str, list[Revision]] = {}
    for revision in line:
        found.setdefault(revision.label, []).append(revision)
    yield from found.values()


def releases_of(snapshot: Snapshot, revision: Revision) -> list[Release]:
    """Give the releases a revision went out in."""
    return [
        release
        for release in snapshot.all(Release)
        if any(ref.id == revision.id for ref in release.revisions)
    ]


# -- the other's label -------------------------------------------------------------


def called_anew(
    snapshot: Snapshot, one: Labelled, taken: Callable[[str], bool]
) -> Labelled:
    """Give what gives way with the next label that is free.

    `taken` tells of the label of a release whether something else is called so.
    """
    if isinstance(one, Revision):
        part = snapshot.find(one.part, Part)
        line = revisions_of(snapshot, part) if part else (one,)
        label = next_label([each.label for each in line])
        title = f"{part.title if part else one.part.name} {label_words(label)}"
        return replace(one, label=label, title=title, formerly=_former(one, title))
    labels = [*(each.label for each in snapshot.all(Release)), one.label]
    label = next_label(labels)
    while taken(label):
        labels.append(label)
        label = next_label(labels)
    return _release(one, label)


def exchanged(one: Release, other: Release) -> tuple[Release, Release]:
    """Give two releases that were called the wrong way round, each as the other was."""
    return _release(one, other.label), _release(other, one.label)


def _release(one: Release, label: str) -> Release:
    title, tag = f"release {label}", tag_anew(one, label)
    former = _former(one, title)
    return replace(one, label=label, tag=tag, title=title, formerly=former)


def tag_anew(one: Release, label: str) -> str:
    """Give the tag of a release that is called otherwise; empty where it has none."""
    return f"{one.tag.removesuffix(one.label)}{label}" if one.tag else ""


def _former(one: Labelled, title: str) -> tuple[str, ...]:
    former = dict.fromkeys((*one.formerly, one.title))
    return tuple(name for name in former if name != title)


def faults_led_on(
    snapshot: Snapshot, anew: Release, kept: Release, label: str
) -> Iterator[Erratum]:
    """Give the known faults said of a release that is called otherwise now.

    `label` is what both were called. What is of the one that kept it alone stays; what
    is of both, or does not tell, is said of both.
    """
    for fault in snapshot.all(Erratum):
        if label not in fault.releases or anew.label in fault.releases:
            continue
        mine, theirs = _concerns(fault, anew), _concerns(fault, kept)
        if theirs and not mine:
            continue
        rest = [one for one in fault.releases if one != label or theirs or not mine]
        yield replace(fault, releases=(*rest, anew.label))


def _concerns(fault: Erratum, release: Release) -> bool:
    """Tell whether a release has what a fault was found on; else what it names."""
    if fault.revisions:
        held = {ref.id for ref in release.revisions}
        return any(ref.id in held for ref in fault.revisions)
    named = {said.rpartition(" ")[2] for said in fault.statements}
    return any(one.id in named for one in release.statements)
