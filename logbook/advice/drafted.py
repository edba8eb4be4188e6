"""Known faults drafted from entries whose fault is the drawing's.

Such an entry is a known fault from the moment it is logged; an erratum record,
once saved, stands in its place.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.telling import how_to_tell
from logbook.advice.wrong import wrong_statements
from logbook.records import model
from logbook.records.model import (
    Deviation,
    Erratum,
    Failure,
    Release,
    Revision,
)
from logbook.records.snapshot import Snapshot
from logbook.records.state import (
    part_of,
    revisions_in,
    revisions_of,
    verdict_of,
)
from logbook.records.statements import one_line
from logbook.records.words import (
    Blame,
    CauseStatus,
    Disposition,
    ErratumStatus,
    Severity,
    WayRound,
)

Fault = Deviation | Failure

_GRAVITY = list(Severity)
_DISPOSED = {
    Disposition.SCRAP: "the piece was scrapped",
    Disposition.REWORK: "the piece had to be reworked",
    Disposition.REPAIR: "the piece had to be repaired",
    Disposition.RETURN: "the piece went back",
}
"""What it cost; a piece that was used as it is cost nothing."""


# -- all of them -----------------------------------------------------------------


def known_faults(snapshot: Snapshot) -> tuple[Erratum, ...]:
    """Give every known fault, saved or drafted, gravest first."""
    saved = snapshot.all(Erratum)
    covered = {ref.id for erratum in saved for ref in erratum.from_entries}
    drafts = (
        drafted(snapshot, entry)
        for entry in blamed_entries(snapshot)
        if entry.id not in covered
    )
    return tuple(sorted((*saved, *drafts), key=gravity))


def gravity(erratum: Erratum) -> tuple[bool, int, object, str]:
    """Order faults: what must not be used first, then by severity, then by age."""
    stop = not (erratum.stop_using_until or erratum.severity is Severity.SAFETY)
    return stop, _GRAVITY.index(erratum.severity), erratum.when, erratum.id


def blamed_entries(snapshot: Snapshot) -> Iterator[Fault]:
    """Give the deviations and failures whose fault is the drawing's, in order."""
    for entry in snapshot.entries:
        if isinstance(entry, Fault) and entry.met_by_others is Blame.DRAWING:
            yield entry


def is_draft(snapshot: Snapshot, erratum: Erratum) -> bool:
    """Tell whether a fault was drafted from an entry and is not saved as one."""
    return erratum.id not in snapshot or not isinstance(snapshot[erratum.id], Erratum)


# -- drafting --------------------------------------------------------------------


def drafted(snapshot: Snapshot, entry: Fault) -> Erratum:
    """Draft a known fault from an entry, with every field the entry answers.

    It carries the entry's own id until it is saved under one of its own.
    """
    revision = affected_revision(snapshot, entry)
    part = part_of(snapshot, entry)
    cured = cured_by(snapshot, entry)
    cure = entry.cure or (cured.changed if cured else "")
    wrong = wrong_statements(snapshot, entry, revision, cured)
    return Erratum(
        id=entry.id,
        title=entry.title,
        when=entry.when,
        prose=entry.prose,
        part=part.ref if part else None,
        revisions=(revision.ref,) if revision else (),
        releases=tuple(r.label for r in _holding(snapshot, revision)),
        statements=tuple(dict.fromkeys(wrong)),
        from_entries=(entry.ref,),
        severity=_severity(entry),
        how_to_tell=how_to_tell(snapshot, entry, revision),
        symptom=_symptom(entry),
        consequence=_consequence(entry),
        way_round=WayRound.AVAILABLE if cure else WayRound.NONE,
        do_this=cure,
        fixed_by=cured.ref if cured else None,
        status=_status(snapshot, cured),
    )


def affected_revision(snapshot: Snapshot, entry: Fault) -> Revision | None:
    """Give the revision an entry is about: its piece's, else the one of that day."""
    piece = snapshot.find(entry.piece, model.Piece)
    if piece and (found := snapshot.find(piece.revision, Revision)):
        return found
    part = part_of(snapshot, entry)
    if part is None:
        return None
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


def _holding(snapshot: Snapshot, revision: Revision | None) -> tuple[Release, ...]:
    if revision is None:
        return ()
    releases = snapshot.all(Release)
    return tuple(r for r in releases if revision in revisions_in(snapshot, r))


def _severity(entry: Fault) -> Severity:
    if isinstance(entry, Failure):
        spoiled = entry.disposition is Disposition.SCRAP
        return entry.severity or (Severity.DAMAGE if spoiled else Severity.FUNCTION)
    return Severity.FIT


def _symptom(entry: Fault) -> str:
    if isinstance(entry, Deviation):
        off = f"off by {entry.off}" if entry.off else ""
        return one_line("; ".join(filter(None, (off, entry.place))))
    said = [entry.symptom, f"at the {entry.where}" if entry.where else ""]
    said.append(conditions_text(entry.conditions))
    if entry.cause:
        sure = "proven" if entry.cause.status is CauseStatus.PROVEN else "guessed"
        said.append(f"cause ({sure}): {entry.cause.said}")
    return one_line("; ".join(filter(None, said)))


def conditions_text(at: model.Conditions | None) -> str:
    """Say under what something happened; a temperature with its room and time."""
    if at is None:
        return ""
    said = []
    if at.temperature:
        warm = (
            f"{at.temperature} at the {at.place}" if at.place else str(at.temperature)
        )
        warm += f" after {at.after}" if at.after else ""
        said.append(warm + (f" in a room of {at.room}" if at.room else ""))
    said += [f"under {at.load}"] if at.load else []
    said += [f"{at.humidity} humidity"] if at.humidity else []
    return ", ".join(said)


def _consequence(entry: Fault) -> str:
    stated = entry.consequence if isinstance(entry, Failure) else ""
    done = _DISPOSED.get(entry.disposition, "") if entry.disposition else ""
    return stated or done


def _status(snapshot: Snapshot, cured: Revision | None) -> ErratumStatus:
    if cured is None:
        return ErratumStatus.REPORTED
    tried = verdict_of(snapshot, cured) == "tried"
    return ErratumStatus.VERIFIED if tried else ErratumStatus.FIXED


def saved_from(snapshot: Snapshot, entry: Fault, identity: str) -> Erratum:
    """Give the draft of an entry under an id of its own, ready to be saved."""
    return replace(drafted(snapshot, entry), id=identity)
