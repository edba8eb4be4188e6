"""What fits what, across revisions and releases, where somebody tried it.

“Base of release 1.0 fits the lid of 1.1” is said of the later of the two: who holds
the earlier one reads there whether the new one goes on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.in_words import parts_in
from logbook.advice.proposal import Proposal, is_yes, not_accepted
from logbook.records.making import Draft
from logbook.records.model import (
    Decision,
    Entry,
    Note,
    Part,
    Release,
    Revision,
    StepDone,
)
from logbook.records.snapshot import Snapshot, folded
from logbook.records.state import current_revision, revisions_in, revisions_of

_FITS = re.compile(
    r"(?i)^(?P<one>.+?)\s+(?:fits?|goes with|go with|works? with|mates? with|goes on|"
    r"go on)\s+(?:on\s+|into\s+|in\s+)?(?P<other>.+)$"
)
_DENIED = re.compile(r"(?i)\b(?:not|never|no longer|hardly|n't)\b|n[’']t\b")
_FIRST = re.compile(r"(?i)\bfirst issue\b")
_LABEL = re.compile(r"(?i)\b(?:rev(?:ision)?\.?\s*|v(?=\d))(?P<label>[\w.]+)")
_RELEASE = re.compile(r"(?i)\b(?:release|of|from|in|v)\s*(?P<label>\d+(?:\.\d+)+)\b")
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
        if one is None or other is None or not (said_one or said_other):
            continue
        if one.part.id == other.part.id:
            continue
        old, new = sorted((one, other), key=lambda each: (each.when, each is one))
        if not any(folded(old.title) in folded(words) for words in new.mates_with):
            yield _proposal(entry, old, new)


def _meant(snapshot: Snapshot, words: str) -> tuple[Revision | None, bool]:
    """Give the revision that words mean, and whether they say which."""
    named = parts_in(snapshot, words)
    if not named:
        return None, False
    part = named[0]
    if label := _LABEL.search(words):
        held = [
            one for one in revisions_of(snapshot, part) if _same(one, label["label"])
        ]
        return (held[0] if held else None), True
    if _FIRST.search(words):
        return next(iter(revisions_of(snapshot, part)), None), True
    if label := _RELEASE.search(words):
        return _released(snapshot, label["label"], part), True
    return current_revision(snapshot, part), False


def _same(revision: Revision, label: str) -> bool:
    return revision.label.casefold() == label.casefold()


def _released(snapshot: Snapshot, label: str, part: Part) -> Revision | None:
    for release in snapshot.all(Release):
        if release.label == label:
            held = revisions_in(snapshot, release)
            return next((one for one in held if one.part.id == part.id), None)
    return None


def _proposal(entry: Entry, old: Revision, new: Revision) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        said = old.title if is_yes(answer) else answer.strip()
        if not said:
            raise not_accepted("what it fits", answer, _ACCEPTS)
        draft.amend(replace(new, mates_with=(*new.mates_with, said)))

    return Proposal(
        key=f"mates {entry.id}",
        topic="revision",
        about=entry.ref,
        question=f"does {new.title} fit {old.title}, for everybody who holds one?",
        buys="the guide says of each revision what it fits with",
        accepts=_ACCEPTS,
        inputs=(entry.ref, old.ref, new.ref),
        take=take,
    )
