"""What fits what, across revisions and releases, where somebody tried it.

“Base of release 1.0 fits the lid of 1.1” is said of the later of the two: who holds
the earlier one reads there whether the new one goes on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import parts_in
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Decision, Entry, Note, StepDone
from logbook.records.kinds.made_public import Release
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.revisions import (
    current_revision,
    revisions_in,
    revisions_of,
)
from logbook.records.together.snapshot import Snapshot

_FITS = re.compile(
    r"(?i)^(?P<one>.+?)\s+(?:fits?|goes with|go with|works? with|mates? with|goes on|"
    r"go on)\s+(?:on\s+|into\s+|in\s+)?(?P<other>.+)$"
)
_DENIED = re.compile(r"(?i)\b(?:not|never|no longer|hardly|n't)\b|n[’']t\b")
_FIRST = re.compile(r"(?i)\bfirst issue\b")
_LABEL = re.compile(r"(?i)\b(?:rev(?:ision)?\.?\s*|v(?=\d))(?P<label>[\w.]+)")
_RELEASE = re.compile(r"(?i)\b(?:release|of|from|in|v)\s*(?P<label>\d+(?:\.\d+)+)\b")
Revisions = tuple[Revision, ...]

_ACCEPTS = "“yes”, or how it fits, as “base first issue, drilled out to 3.4”"


def mates(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what was tried on to the later revision of the two."""
    told: tuple[Entry, ...] = (
        *snapshot.all(Note), *snapshot.all(Decision), *snapshot.all(StepDone),
    )  # fmt: skip
    for entry in told:
        found = _FITS.match(entry.title)
        if found is None or _DENIED.search(entry.title):
            continue
        sides = [_meant(snapshot, found[name]) for name in ("one", "other")]
        (one, said_one), (other, said_other) = sides
        if not one or not other or not (said_one or said_other):
            continue
        if one[0].part.id == other[0].part.id or len(one) > 1 < len(other):
            continue
        new = _told_of(one, other)
        olds = [each for each in (*one, *other) if each.part.id != new.part.id]
        left = [each for each in olds if not _said(new, each)]
        if left:
            yield _proposal(entry, left, new)


def _told_of(one: Revisions, other: Revisions) -> Revision:
    """Give the revision it is said of: the only one of its side, else the later."""
    if len(one) != len(other):
        return min(one, other, key=len)[0]
    return max(one[0], other[0], key=lambda each: each.when)


def _said(new: Revision, old: Revision) -> bool:
    return any(folded(old.title) in folded(words) for words in new.mates_with)


def _meant(snapshot: Snapshot, words: str) -> tuple[Revisions, bool]:
    """Give the revisions that words mean, and whether they say which."""
    named = parts_in(snapshot, words)
    if not named:
        return (), False
    part = named[0]
    line = revisions_of(snapshot, part)
    labels = [found["label"] for found in _LABEL.finditer(words)]
    told = tuple(one for one in line if any(_same(one, label) for label in labels))
    if _FIRST.search(words) and line:
        told = (line[0], *(one for one in told if one is not line[0]))
    if labels or told:
        return told, True
    if label := _RELEASE.search(words):
        held = _released(snapshot, label["label"], part)
        return (held,) if held else (), True
    now = current_revision(snapshot, part)
    return (now,) if now else (), False


def _same(revision: Revision, label: str) -> bool:
    return revision.label.casefold() == label.casefold()


def _released(snapshot: Snapshot, label: str, part: Part) -> Revision | None:
    for release in snapshot.all(Release):
        if release.label == label:
            held = revisions_in(snapshot, release)
            return next((one for one in held if one.part.id == part.id), None)
    return None


def _proposal(entry: Entry, olds: list[Revision], new: Revision) -> Proposal:
    names = tuple(one.title for one in olds)

    def take(draft: Draft, answer: str) -> None:
        said = names if is_yes(answer) else (answer.strip(),)
        if not all(said):
            raise not_accepted("what it fits", answer, _ACCEPTS)
        draft.amend(replace(new, mates_with=(*new.mates_with, *said)))

    return Proposal(
        key=f"mates {entry.id}",
        topic="revision",
        about=entry.ref,
        question=f"does {new.title} fit {' and '.join(names)}, for everybody "
        "who holds one?",
        buys="the guide says of each revision what it fits with",
        accepts=_ACCEPTS,
        inputs=(entry.ref, *(one.ref for one in olds), new.ref),
        take=take,
    )
