"""A failure or deviation told so that the next builder can avoid it."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from logbook.advice.faults.apart_told import apart_words
from logbook.advice.faults.drafted import affected_revision, conditions_text, fault_from
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.faulty_part import faulty_part
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.headline import headline, said_with
from logbook.advice.faults.helped import helped
from logbook.advice.faults.reworked_so import work_on
from logbook.advice.faults.same_fault import kept_as
from logbook.publish.html import anchor
from logbook.publish.pages import capital
from logbook.publish.release.statements import stuff
from logbook.publish.signals import Box, Spoken, as_one, of_instruction
from logbook.quantity import Quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.words import Blame, CauseStatus, Disposition, State
from logbook.records.making.settling import without_other_side
from logbook.records.states.dispositions import DONE, disposition_of
from logbook.records.states.pieces import piece_state
from logbook.records.states.read_now import found_words
from logbook.records.states.undated import of_no_day
from logbook.records.states.wanted import wanted
from logbook.records.together.names import folded
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import prose_beside, whole_title, without_typed


@dataclass(frozen=True, slots=True)
class Fault:
    """A failure or deviation, told so that the next builder can avoid it."""

    title: str
    part: str
    day: date
    happened: str
    where: str
    drawn: str
    cause: str
    sure: str
    cure: str
    label: str
    piece: str
    used: bool
    blame: Blame
    taken_back: bool
    fixed: str
    in_words: str
    said_with: str
    differs: str
    prose: str
    folder: str
    boxes: tuple[Box, ...]
    photos: tuple[happenings.Photo, ...]

    @property
    def wants_cure(self) -> bool:
        """Tell whether the next builder has to know what helps: he may meet it too.

        A slip of one piece, or a size that came out otherwise on this machine, is told
        without.
        """
        own = {Blame.PIECE, Blame.MACHINE}
        return self.blame not in own and self.happened == "failed"

    @property
    def names_part(self) -> bool:
        """Tell whether the title speaks of its part already.

        By the last word of its name, or by two words of it that follow each other.
        """
        said, name = folded(self.title).split(), folded(self.part).split()
        last = name[-1:]
        pairs = {*pairwise(said)} & {*pairwise(name)}
        return not last or bool(pairs) or any(w.startswith(last[0]) for w in said)


def faulty(snapshot: Snapshot) -> Iterator[Failure | Deviation]:
    """Give the failures and deviations, in order."""
    for entry in snapshot.entries:
        if isinstance(entry, Failure | Deviation):
            yield entry


def faults_of(snapshot: Snapshot) -> tuple[Fault, ...]:
    """Give every failure and deviation with what cured it, in order."""
    return tuple(fault_of(snapshot, entry, Spoken()) for entry in faulty(snapshot))


def fault_of(snapshot: Snapshot, entry: Failure | Deviation, spoken: Spoken) -> Fault:
    """Tell a failure or deviation; cautions are for what its cure does."""
    part = faulty_part(snapshot, entry)
    cure = _cure(snapshot, entry)
    material = stuff(snapshot, part, current_revision(snapshot, part)) if part else ""
    title = capital(headline(snapshot, entry))
    called = of_instruction([cure], material)
    boxes = as_one(spoken.before(called, anchor(title), title))
    failed = entry if isinstance(entry, Failure) else None
    cause = entry.cause
    where = (failed.where, conditions_text(failed.conditions)) if failed else ()
    return Fault(
        title=title,
        part=part.title if part else "",
        day=entry.when.date(),
        happened="failed" if failed else "differs",
        where="; ".join(filter(None, where)),
        drawn=_drawn(snapshot, entry),
        cause=cause.said.rstrip(". ") if cause else "",
        sure=_sure(cause) if cause else "",
        cure=cure,
        label=helped(snapshot, entry),
        piece=_became_of(snapshot, entry),
        used=disposition_of(snapshot, entry) is Disposition.USE_AS_IS,
        blame=entry.met_by_others,
        taken_back=any(one.status in DROPPED for one in kept_as(snapshot, entry)),
        fixed=_fixed(snapshot, entry),
        in_words=_in_words(entry, cure),
        said_with=said_with(snapshot, entry),
        differs=apart_words(snapshot, failed) if failed else "",
        prose=without_other_side(without_typed(prose_beside(entry))),
        folder=posixpath.dirname(snapshot.path(entry)),
        boxes=boxes,
        photos=entry.photos,
    )


def _sure(cause: happenings.Cause) -> str:
    """Say how sure a cause is, where it is more or less than said."""
    return "" if cause.status is CauseStatus.SAID else cause.status.value


def _fixed(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Say what puts it right as things stand, as the page of known faults does."""
    now = fixed(snapshot, fault_from(snapshot, entry))
    if now is None:
        return ""
    if now.back:
        return f"{now.revision.title} was to correct it, and {now.back}"
    said = f"corrected in {now.revision.title}, {now.tried}"
    return "; ".join(filter(None, (said, now.but, now.before)))


_CLAUSE_END = re.compile(r"[,;] ")


def _in_words(entry: Failure | Deviation, cure: str) -> str:
    """Give what its line says beyond its first clause and beyond what has a field.

    A size that was found says what there is to say.
    """
    if isinstance(entry, Deviation) and entry.found:
        return ""
    cause = entry.cause.said if entry.cause else ""
    at = conditions_text(getattr(entry, "conditions", None))
    known = f"{cause} | {cure} | {getattr(entry, 'where', '')} | {at}".casefold()
    said = [one.strip() for one in _CLAUSE_END.split(of_no_day(whole_title(entry)))][1:]
    return ", ".join(one for one in said if one and one.casefold() not in known)


def _drawn(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Say what was drawn and what it became, where the title does not say it."""
    if not isinstance(entry, Deviation):
        return ""
    if entry.wanted and str(entry.wanted) in entry.title:
        return ""
    if entry.wanted and (found := found_words(snapshot, entry)):
        return f"{_wanted(snapshot, entry, entry.wanted)}, became {found}"
    return f"off by {entry.off}" if entry.off else ""


def _wanted(snapshot: Snapshot, entry: Deviation, said: Quantity) -> str:
    """Say what was wanted: as drawn, or only as said where the drawing has another."""
    told = wanted(snapshot, entry, affected_revision(snapshot, entry))
    if told is None or told.as_drawn:
        return f"drawn {said}"
    if told.drawn is None or told.revision is None:
        return f"wanted {said}"
    return f"said to be {said}, drawn {told.drawn} ({told.revision.title})"


def _became_of(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Say what was done with the piece, by the last word on it.

    A piece reworked for another reason has nothing decided on this.
    """
    done = disposition_of(snapshot, entry)
    piece = snapshot.find(entry.piece, workshop.Piece)
    if piece is None:
        return DONE[done] if done else ""
    state = piece_state(snapshot, piece).value
    otherwise = state == State.REWORKED.value and done not in _REWORKING
    if state != State.MADE.value and not otherwise:
        return f"{piece.title}, {state}"
    named = f"{piece.title} ({state} for another reason)" if otherwise else piece.title
    return f"{named}, {DONE[done] if done else 'nobody has decided on it yet'}"


_REWORKING = {Disposition.REWORK, Disposition.REPAIR}


def _cure(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    if entry.cure:
        return entry.cure
    for record in snapshot.mentions(entry):
        if isinstance(record, design.Revision):
            return record.changed or record.title
        if isinstance(record, happenings.Decision):
            return whole_title(record)
    return work_on(snapshot, entry)
