"""Known faults worth proposing, from entries that say what files and list say wrong.

“The list says 8”, “the file is in inches”, “no file for the lid” are told as plain
notes, though everybody who holds the release reads the wrong statement. What can
hurt somebody is proposed as a fault of safety.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.proposal import Proposal, is_yes, not_accepted
from logbook.records.ids import Ref, new_id
from logbook.records.making import Draft
from logbook.records.model import (
    Count,
    Decision,
    Entry,
    Erratum,
    Note,
    Part,
    Release,
    Revision,
    StepDone,
)
from logbook.records.snapshot import Snapshot
from logbook.records.state import part_of
from logbook.records.text import clean_title
from logbook.records.words import ErratumStatus, Severity, WayRound

_TOLD = (Note, Count, StepDone, Decision)
"""Entries that do not say themselves whether another builder would meet it."""

_PAPER = re.compile(
    r"(?i)\b(?:files?|drawings?|lists?|listed|guide|steps?|pages?|pictures?|dxf|stl|"
    r"mesh|text)\b"
)
_AGAINST = re.compile(
    r"(?i)\b(?:says?|said|listed|called|named|missing|wrong|inch(?:es)?|scaled|shows?|"
    r"not in|no \w+|lacks?|forgot|too (?:small|large|few|many))\b"
)
_SCREW = re.compile(
    r"(?i)\bM\d+(?:[.,]\d+)?(?:\s*[x×]\s*\d+)?\b|\b(?:screw|bolt|insert)s?\b"
)
_NO_FIT = re.compile(
    r"(?i)\btoo (?:long|short|big|small)\b|\breach(?:es)?\b|\bbottoms\b"
)
_HAZARD = re.compile(
    r"(?i)\b(?:mains|live|shock|sparks?|smok(?:e|ed|es)|fire|fumes|burn(?:s|ed|t)?|"
    r"(?:can|could) be touched|cuts? (?:fingers?|hands?))\b"
)
_ACCEPTS = "what a builder of that release should do, as “take 6”"


def faults(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose a known fault for each entry that contradicts what was published."""
    releases = snapshot.all(Release)
    if not releases:
        return
    told = {ref.id for one in snapshot.all(Erratum) for ref in one.from_entries}
    for entry in snapshot.entries:
        if not isinstance(entry, _TOLD) or entry.id in told:
            continue
        hazard = bool(_HAZARD.search(entry.title))
        if (hazard or _contradicts(entry.title)) and entry.when >= releases[0].when:
            yield _proposal(snapshot, entry, releases, hazard=hazard)


def _contradicts(said: str) -> bool:
    """Tell whether words go against what is on paper, or against its screws."""
    return any(
        one.search(said) and other.search(said)
        for one, other in ((_PAPER, _AGAINST), (_SCREW, _NO_FIT))
    )


def _proposal(
    snapshot: Snapshot, entry: Entry, releases: tuple[Release, ...], *, hazard: bool
) -> Proposal:
    part = part_of(snapshot, entry)
    told = [one for one in releases if one.when <= entry.when]
    revision = _released(snapshot, told[-1], part) if part else None
    labels = tuple(
        one.label for one in told if revision is None or _has(one, revision.ref)
    )

    def take(draft: Draft, answer: str) -> None:
        if is_yes(answer) or not answer.strip():
            raise not_accepted("what to do", answer, _ACCEPTS)
        draft.add(
            Erratum(
                id=new_id(),
                title=entry.title,
                when=draft.when,
                part=part.ref if part else None,
                revisions=(revision.ref,) if revision else (),
                releases=labels,
                from_entries=(entry.ref,),
                severity=Severity.SAFETY if hazard else Severity.DOCUMENT,
                way_round=WayRound.AVAILABLE,
                do_this=clean_title(answer),
                status=ErratumStatus.REPORTED,
            )
        )

    held = f"release {told[-1].label}"
    asks = "leave out how to guard against this" if hazard else "tell this wrongly"
    return Proposal(
        key=f"fault {entry.id}",
        topic="known fault",
        about=entry.ref,
        question=f"“{entry.title}”: does {held} {asks}? what should a builder do?",
        buys="everybody who holds that release is told at the place where it is read",
        accepts=_ACCEPTS,
        inputs=tuple(ref for ref in (entry.ref, part.ref if part else None) if ref),
        take=take,
    )


def _released(snapshot: Snapshot, release: Release, part: Part) -> Revision | None:
    """Give the revision of a part that a release holds."""
    for ref in release.revisions:
        found = snapshot.find(ref, Revision)
        if found is not None and snapshot.find(found.part, Part) is part:
            return found
    return None


def _has(release: Release, revision: Ref) -> bool:
    return any(ref.id == revision.id for ref in release.revisions)
