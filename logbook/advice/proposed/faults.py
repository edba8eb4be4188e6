"""Known faults worth proposing, from entries that go against what was published.

“The list says 8”, “the file is in inches”, “two nuts were not called for” are told
as plain notes, though everybody who holds the release reads the wrong statement.
What can hurt somebody is proposed as a fault of safety.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from logbook.advice.faults.fault_words import Against, against
from logbook.advice.ground.in_words import by_file, lines_of, part_told
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.counting import SPELLED
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Count, Decision, Entry, Note, Run, StepDone
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import ErratumStatus, Severity, WayRound
from logbook.records.making.drafts import Draft
from logbook.records.states.statements import Form, statement_id
from logbook.records.together.snapshot import Snapshot

_TOLD: tuple[type[Entry], ...] = (Note, Count, StepDone, Decision, Run)
"""Entries that do not say themselves whether another builder would meet it."""

_ACCEPTS = "what a builder of that release should do, as “take 6”"
_ASKS = {
    Against.HAZARD: "leave out how to guard against this",
    Against.WRONG: "tell this wrongly",
    Against.LEFT_OUT: "leave this out",
    Against.NOT_HAD: "ask for what cannot be had",
    Against.MEANT: "leave open how it is meant",
}


def faults(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose a known fault for each entry that contradicts what was published."""
    releases = tuple(snapshot.all(Release))
    if not releases:
        return
    told = {ref.id for one in snapshot.all(Erratum) for ref in one.from_entries}
    for entry in snapshot.entries:
        if not isinstance(entry, _TOLD) or entry.id in told:
            continue
        if entry.when < releases[0].when:
            continue
        found = against(entry.title, measured=isinstance(entry, Run))
        if found is Against.MEANT and not _names_a_size(snapshot, entry):
            continue
        if found is not None:
            yield _proposal(snapshot, entry, releases, found)


def _names_a_size(snapshot: Snapshot, entry: Entry) -> bool:
    part = part_told(snapshot, entry)
    words = entry.title.casefold()
    return part is not None and any(
        word in words
        for one in snapshot.all(Characteristic)
        if snapshot.find(one.part, Part) is part
        for word in (one.title.casefold(), one.title.casefold().split()[0])
    )


@dataclass(frozen=True, slots=True)
class _Case:
    """An entry against what was published: where that stands and what it is about.

    `line` is the line that lists another number; what only a file or a text tells
    lasts as long as that, whatever the revision.
    """

    entry: Entry
    part: Part | None
    revision: Revision | None
    labels: tuple[str, ...]
    line: Line | None
    of_file: bool
    hazard: bool


def _proposal(
    snapshot: Snapshot, entry: Entry, releases: tuple[Release, ...], found: Against
) -> Proposal:
    part = part_told(snapshot, entry)
    told = [one for one in releases if one.when <= entry.when]
    revision = _released(snapshot, told[-1], part) if part else None
    labels = tuple(
        one.label for one in told if revision is None or _has(one, revision.ref)
    )
    line = _miscounted(snapshot, entry)
    of_file = by_file(snapshot, entry.title) is not None
    hazard = found is Against.HAZARD
    case = _Case(entry, part, revision, labels, line, of_file, hazard)
    held = f"release {told[-1].label}"
    listed = f" (its list says {line.quantity})" if line else ""
    asks = f"does {held} {_ASKS[found]}{listed}? what should a builder do?"
    return Proposal(
        key=f"fault {entry.id}",
        topic="known fault",
        about=entry.ref,
        question=f"“{entry.title}”: {asks}",
        buys="everybody who holds that release is told at the place where it is read",
        accepts=_ACCEPTS,
        inputs=tuple(ref for ref in (entry.ref, part.ref if part else None) if ref),
        take=partial(_take, case),
    )


def _take(case: _Case, draft: Draft, answer: str) -> None:
    """Draft the known fault that an answer makes of it."""
    if is_yes(answer) or not answer.strip():
        raise not_accepted("what to do", answer, _ACCEPTS)
    corrected = _corrected(draft, case.entry, case.line, answer)
    told_by_text = case.of_file or corrected  # it lasts as long as that text or file
    draft.add(
        Erratum(
            id=new_id(),
            title=case.entry.title,
            when=draft.when,
            part=case.part.ref if case.part else None,
            revisions=(case.revision.ref,)
            if case.revision and not told_by_text
            else (),
            statements=corrected,
            releases=case.labels,
            from_entries=(case.entry.ref,),
            severity=Severity.SAFETY if case.hazard else Severity.DOCUMENT,
            way_round=WayRound.AVAILABLE,
            do_this=" ".join(answer.split()),
            status=ErratumStatus.FIXED if corrected else ErratumStatus.REPORTED,
        )
    )


def _miscounted(snapshot: Snapshot, entry: Entry) -> Line | None:
    """Give the one line that lists another number than a count says."""
    part = snapshot.find(entry.part, Part) if isinstance(entry, Count) else None
    lines = lines_of(snapshot, part) if part else []
    if len(lines) != 1 or not isinstance(entry, Count) or entry.used < 1:
        return None
    return lines[0] if lines[0].quantity != entry.used else None


def _corrected(
    draft: Draft, entry: Entry, line: Line | None, answer: str
) -> tuple[str, ...]:
    """Put the number into the list where the answer has it; give that statement.

    The next release lists the right number, so the fault is no longer in it.
    """
    if line is None or not isinstance(entry, Count):
        return ()
    numbers = re.findall(r"\d+", answer)
    words = answer.casefold().split()
    spelled = entry.used < len(SPELLED) and SPELLED[entry.used] in words
    if numbers != [str(entry.used)] and not spelled:
        return ()
    draft.amend(replace(line, quantity=entry.used))
    return (statement_id(Form.LINE, line.ref),)


def _released(snapshot: Snapshot, release: Release, part: Part) -> Revision | None:
    """Give the revision of a part that a release holds."""
    for ref in release.revisions:
        found = snapshot.find(ref, Revision)
        if found is not None and snapshot.find(found.part, Part) is part:
            return found
    return None


def _has(release: Release, revision: Ref) -> bool:
    return any(ref.id == revision.id for ref in release.revisions)
