"""The answer to “I have one already: do I make it again?”, for every known fault.

Who holds an affected piece asks it of each fault. The record answers by its author's
own word, by the revision that cures it, or by what was done with the piece it was found
on; where none of these says anything, that nobody has said is an answer too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.advice.faults.applies import applies
from logbook.advice.faults.drafted import Fault
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.headline import titled
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.remaking import NOT_YET, remake_words
from logbook.advice.faults.reworked_so import work_on
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Disposition, Severity
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import DONE, disposition_of
from logbook.records.together.references import is_bought
from logbook.records.together.snapshot import Snapshot

NOBODY_SAID = "nobody has said"

_MENDED = {Disposition.REWORK, Disposition.REPAIR}


def again_words(
    snapshot: Snapshot, erratum: Erratum, held: Revision | None = None
) -> str:
    """Say whether a piece that is made is made again, to who holds `held`.

    Empty of a fault of no part: there is nothing to make again. Where the cure came
    back the author's older word does not hold.
    """
    if snapshot.find(erratum.part, Part) is None:
        return ""
    said = remake_words(snapshot, erratum, held)
    if erratum.remake and said != NOT_YET:
        return erratum.remake.strip(" .")
    return said or _by_what_was_done(snapshot, erratum)


def agreed(answers: Sequence[tuple[str, str]]) -> list[str]:
    """Give the answers so that none says not yet where its part is made again anyhow.

    Each is with the name of the part that is made, and stands for the fault of its
    place in the order: that of the pages.
    """
    yes: dict[str, int] = {}
    for number, (part, said) in enumerate(answers, 1):
        if part and said.startswith("yes"):
            yes.setdefault(part, number)
    return [
        f"yes, against fault {yes[part]}; against this one nothing on record has held"
        if part in yes and said == NOT_YET
        else said
        for part, said in answers
    ]


def is_no(said: str) -> bool:
    """Tell whether such an answer is that nothing is made again."""
    return said == "no" or said.startswith(("no:", "no,", "not needed"))


def _by_what_was_done(snapshot: Snapshot, erratum: Erratum) -> str:
    """Answer from how bad it is, and from what became of the piece it was found on."""
    if erratum.severity is Severity.DOCUMENT:
        return "no: only what is written is wrong"
    done = tuple(_done(snapshot, erratum))
    if not done:
        return NOBODY_SAID
    told = "; ".join(f"{piece.title} was {DONE[what]}" for piece, what in done)
    kinds = {what for _, what in done}
    if fixed(snapshot, erratum) is None:
        if kinds == {Disposition.USE_AS_IS}:
            return f"not needed so far: {told}"
        if kinds <= {*_MENDED, Disposition.USE_AS_IS}:
            how = any(work_on(snapshot, one) for one in entries_of(snapshot, erratum))
            bought = is_bought(snapshot, erratum.part)
            if how or (erratum.do_this and not bought):
                return f"no, rework yours: {told}, not made again"
            if not bought:
                return f"{NOBODY_SAID}; {told}, and how is not on record"
    return f"{NOBODY_SAID}; {told}"


def _done(snapshot: Snapshot, erratum: Erratum) -> Iterator[tuple[Piece, Disposition]]:
    """Give what was done with each piece it was found on, that has held since."""
    for entry in entries_of(snapshot, erratum):
        piece, what = snapshot.find(entry.piece, Piece), disposition_of(snapshot, entry)
        if piece and what and not _failed_since(snapshot, entry, piece):
            yield piece, what


def _failed_since(snapshot: Snapshot, entry: Fault, piece: Piece) -> bool:
    return any(
        snapshot.find(one.piece) is piece and one.when > entry.when
        for one in snapshot.mentions(piece, Failure)
    )


def unanswered(snapshot: Snapshot) -> Iterator[str]:
    """Ask of each released fault nobody has answered it for, and how to say it."""
    for fault in known_faults(snapshot):
        held = any(applies(snapshot, fault, one) for one in snapshot.all(Release))
        if fault.status in DROPPED or not held:
            continue
        if again_words(snapshot, fault).startswith(NOBODY_SAID):
            yield (
                f"{titled(snapshot, fault)}: nobody has said whether one that is made "
                f"has to be made again; say it with: logbook erratum {fault.id} "
                '--remake no (or yes, or "only if …")'
            )
