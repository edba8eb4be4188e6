"""Known faults drafted from entries whose fault is the drawing's.

Such an entry is a known fault from the moment it is logged; an erratum record,
once saved, stands in its place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.faults.faulty_part import faulty_part
from logbook.advice.faults.headline import headline, seen_with
from logbook.advice.faults.named import with_name
from logbook.advice.faults.reworked_so import as_reworked
from logbook.advice.faults.telling import how_to_tell
from logbook.advice.faults.trying import cure_words
from logbook.advice.faults.wrong import wrong_statements
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import (
    Blame,
    CauseStatus,
    Disposition,
    ErratumStatus,
    Severity,
    State,
    WayRound,
)
from logbook.records.making.settling import without_other_side
from logbook.records.sizes.definition import definition
from logbook.records.states.dispositions import disposition_of
from logbook.records.states.pieces import piece_state
from logbook.records.states.statements import one_line
from logbook.records.together.once import once
from logbook.records.together.revisions import revisions_in, revisions_of
from logbook.records.together.same_faults import kept_fault
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.at_place import at_place
from logbook.records.written.text import without_typed

Fault = Deviation | Failure

_DISPOSED = {
    Disposition.SCRAP: "the piece was scrapped",
    Disposition.REWORK: "the piece had to be reworked",
    Disposition.REPAIR: "the piece had to be repaired",
    Disposition.RETURN: "the piece went back",
}
"""What it cost; a piece that was used as it is cost nothing."""


def blamed_entries(snapshot: Snapshot) -> Iterator[Fault]:
    """Give the deviations and failures whose fault is the drawing's, in order."""
    for entry in snapshot.entries:
        if isinstance(entry, Fault) and entry.met_by_others is Blame.DRAWING:
            yield entry


def is_draft(snapshot: Snapshot, erratum: Erratum) -> bool:
    """Tell whether a fault was drafted from an entry and is not saved as one."""
    return erratum.id not in snapshot or not isinstance(snapshot[erratum.id], Erratum)


# -- drafting --------------------------------------------------------------------


@once
def drafted(snapshot: Snapshot, entry: Fault) -> Erratum:
    """Draft a known fault from an entry, with every field the entry answers.

    It carries the entry's own id until it is saved under one of its own.
    """
    revision = affected_revision(snapshot, entry)
    part = faulty_part(snapshot, entry)
    cured = cured_by(snapshot, entry)
    cure = entry.cure or (cured.changed if cured else "")
    used = disposition_of(snapshot, entry) is Disposition.USE_AS_IS
    done = _as_used(snapshot, entry) if used else as_reworked(snapshot, entry)
    affected = (*_drawn_the_same(snapshot, entry, revision), *filter(None, [revision]))
    wrong = wrong_statements(snapshot, entry, revision, cured)
    return Erratum(
        id=entry.id,
        title=headline(snapshot, entry),
        when=entry.when,
        prose=without_other_side(without_typed(entry.prose)),
        part=part.ref if part else None,
        revisions=tuple(one.ref for one in affected),
        releases=tuple(r.label for r in _holding(snapshot, affected)),
        statements=tuple(dict.fromkeys(wrong)),
        from_entries=(entry.ref,),
        severity=_severity(snapshot, entry),
        how_to_tell=how_to_tell(snapshot, entry, revision, affected),
        symptom=_symptom(snapshot, entry),
        consequence=_consequence(snapshot, entry),
        way_round=WayRound.AVAILABLE if cure or done else WayRound.UNKNOWN,
        do_this=cure or done,
        fixed_by=cured.ref if cured else None,
        status=_status(snapshot, entry, cured),
    )


def _as_used(snapshot: Snapshot, entry: Fault) -> str:
    """Say that a piece was used as it is, and that this is all that says so.

    Nothing of one that was worked on or is no more: it was not left as it was.
    """
    piece = snapshot.find(entry.piece, workshop.Piece)
    if piece is not None and piece_state(snapshot, piece) in _NOT_AS_IT_WAS:
        return ""
    named = piece.title if piece else "this one"
    return f"{AS_IT_IS}, as was done with {named} ({NO_MORE_SAYS_SO})"


NO_MORE_SAYS_SO = "nothing more says that yours will do"
_NOT_AS_IT_WAS = {State.SCRAPPED, State.LOST, State.TAKEN_OUT, State.REWORKED}
AS_IT_IS = "use it as it is"
"""What an instruction begins with where the piece on record was used so."""


def _drawn_the_same(
    snapshot: Snapshot, entry: Fault, revision: Revision | None
) -> Iterator[Revision]:
    """Give the earlier revisions that draw the size an entry is about just as its own.

    What was found on one piece is then as true of them.
    """
    part = snapshot.find(revision.part, design.Part) if revision else None
    named = entry.characteristic if isinstance(entry, Deviation) else None
    item = snapshot.find(named, design.Characteristic)
    if part is None or revision is None or item is None:
        return
    for one in revisions_of(snapshot, part):
        if one is revision:
            return
        if same_size(snapshot, item, one, revision):
            yield one


def same_size(
    snapshot: Snapshot, item: design.Characteristic, one: Revision, other: Revision
) -> bool | None:
    """Tell whether two revisions draw a dimension alike; None where one does not."""
    drawn = [
        next((d for d in definition(snapshot, of) if d.characteristic is item), None)
        for of in (one, other)
    ]
    return None if None in drawn else drawn[0] == drawn[1]


@once
def affected_revision(snapshot: Snapshot, entry: Fault) -> Revision | None:
    """Give the revision an entry is about: its piece's, else the one of that day."""
    piece = snapshot.find(entry.piece, workshop.Piece)
    if piece and (found := snapshot.find(piece.revision, Revision)):
        return found
    part = faulty_part(snapshot, entry)
    return revision_then(snapshot, part, entry) if part else None


def revision_then(
    snapshot: Snapshot, part: design.Part, entry: happenings.Entry
) -> Revision | None:
    """Give the revision of a part on the day of an entry: not one that cures it."""
    line = revisions_of(snapshot, part)
    cures = {r.id for r in line if any(ref.id == entry.id for ref in r.because)}
    then = [r for r in line if r.when <= entry.when and r.id not in cures]
    return then[-1] if then else (line[0] if line else None)


def cured_by(snapshot: Snapshot, entry: Fault) -> Revision | None:
    """Give the revision that says it cures an entry."""
    named = getattr(entry, "cured_by", None)
    if found := snapshot.find(named, Revision):
        return found
    for record in snapshot.mentions(entry):
        if isinstance(record, Revision) and any(
            snapshot.find(ref) is entry for ref in record.because
        ):
            return record
    return None


def _holding(snapshot: Snapshot, affected: Sequence[Revision]) -> tuple[Release, ...]:
    return tuple(
        release
        for release in snapshot.all(Release)
        if any(one in affected for one in revisions_in(snapshot, release))
    )


def _severity(snapshot: Snapshot, entry: Fault) -> Severity:
    """Give how bad a fault was said to be, or cost; not known where nothing says so."""
    if isinstance(entry, Failure) and entry.severity:
        return entry.severity
    if disposition_of(snapshot, entry) is Disposition.SCRAP:
        return Severity.DAMAGE
    return Severity.FUNCTION if isinstance(entry, Failure) else Severity.UNKNOWN


_ONLY_COUNTED = re.compile(r"place \d+")
"""A place nobody named: it says nothing to who was not there."""


def _symptom(snapshot: Snapshot, entry: Fault) -> str:
    rest = seen_with(snapshot, entry)
    if isinstance(entry, Deviation):
        off = f"off by {entry.off}" if entry.off else ""
        place = "" if _ONLY_COUNTED.fullmatch(entry.place) else entry.place
        return one_line("; ".join(filter(None, (off, place, rest))))
    said = [entry.symptom, at_place(entry.where), rest]
    said.append(conditions_text(entry.conditions))
    if entry.cause:
        said.append(cause_words(entry.cause))
    return one_line("; ".join(filter(None, dict.fromkeys(said))))


def cause_words(cause: happenings.Cause) -> str:
    """Say a cause, and how sure it is where it is more or less than said."""
    sure = "" if cause.status is CauseStatus.SAID else f" ({cause.status.value})"
    return f"cause{sure}: {cause.said}"


def conditions_text(at: happenings.Conditions | None) -> str:
    """Say under what something happened; a temperature with its room and time."""
    if at is None:
        return ""
    said = []
    if at.temperature:
        warm = " ".join(filter(None, (str(at.temperature), at_place(at.place))))
        warm += f" after {at.after}" if at.after else ""
        said.append(warm + (f" in a room of {at.room}" if at.room else ""))
    else:
        said += [f"after {at.after}"] if at.after else []
        said += [f"in a room of {at.room}"] if at.room else []
    said += [f"under {at.load}"] if at.load else []
    said += [f"{at.humidity} humidity"] if at.humidity else []
    return ", ".join(said)


def _consequence(snapshot: Snapshot, entry: Fault) -> str:
    stated = entry.consequence if isinstance(entry, Failure) else ""
    done = disposition_of(snapshot, entry)
    return stated or (_DISPOSED.get(done, "") if done else "")


def _status(snapshot: Snapshot, entry: Fault, cured: Revision | None) -> ErratumStatus:
    if cured is None:
        return ErratumStatus.REPORTED
    tried = cure_words(snapshot, cured, (entry,)) == "tried"
    return ErratumStatus.VERIFIED if tried else ErratumStatus.FIXED


def fault_from(snapshot: Snapshot, entry: Fault) -> Erratum:
    """Give the known fault that was saved from an entry, else one drafted from it."""
    for one in snapshot.mentions(entry, Erratum):
        if any(snapshot.find(ref) is entry for ref in one.from_entries):
            return kept_fault(snapshot, one)
    return drafted(snapshot, entry)


def saved_from(snapshot: Snapshot, entry: Fault, identity: str) -> Erratum:
    """Give the draft of an entry under an id of its own, ready to be saved.

    How to tell it, and of known revisions which releases have it, is worked out from
    the records whenever it is asked: it is not saved as it is on that day. What it
    says is wrong has its name before its id, for who reads the file.
    """
    draft = drafted(snapshot, entry)
    releases = () if draft.revisions else draft.releases
    return replace(
        draft,
        id=identity,
        releases=releases,
        how_to_tell="",
        statements=tuple(with_name(snapshot, one) for one in draft.statements),
    )
