"""Whether old and new pieces can take each other's place, and so share a number.

A part keeps its number while any piece of it fits wherever another did: form,
fit and function (common practice; the wording of ASME Y14.100 is from memory).
What decides here is what is on record: the gaps that use what changes, worked
out with a new piece, joints it lies in, and what the maker said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.advisor import Advisor
from logbook.advice.changes.impact import Change, Touched
from logbook.advice.gaps.supposing import LATEST
from logbook.advice.ground.advice import Advice
from logbook.records.kinds import design
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot, Stored

WHAT_IF = "what if"
"""In place of a file, for a record that is only asked about."""
SOURCE = "form, fit and function, common practice (ASME Y14.100 from memory)"


@dataclass(frozen=True, slots=True)
class GapThen:
    """A gap as it is told now, and with a new piece that nobody has read yet.

    `chances` are those of landing, in per cent, with a piece of the revision
    before and with one of the new; `suited` tells that the part itself is made
    last, to suit it.
    """

    fit: Fit
    now: str
    then: str
    chances: tuple[float, float] | None
    suited: bool


@dataclass(frozen=True, slots=True)
class Interchange:
    """Whether the part keeps its number; `keeps` is None where nobody can tell."""

    keeps: bool | None
    because: str


def with_new_piece(snapshot: Snapshot, revision: Revision) -> Snapshot:
    """Give the records as if one more piece of a revision were on hand."""
    build = current_build(snapshot)
    piece = Piece(
        id=f"what{revision.part.id[:4]}",
        title=f"the {revision.title} to come",
        when=LATEST,
        part=revision.part,
        revision=revision.ref,
        build=build.ref if build else None,
    )
    known = f"what if {revision.id}"
    held = {**snapshot.stored, piece.id: Stored(piece, WHAT_IF, known)}
    return Snapshot(held, snapshot.problems, snapshot.read_only)


def recorded(snapshot: Snapshot) -> Snapshot:
    """Give the records without what is only asked about."""
    held = {k: one for k, one in snapshot.stored.items() if one.path != WHAT_IF}
    return Snapshot(held, snapshot.problems, snapshot.read_only)


def gaps_then(
    snapshot: Snapshot, change: Change, found: Touched
) -> tuple[GapThen, ...]:
    """Say of each gap that is touched what it is now and with a new piece."""
    if change.after is None or change.before is None or not found.gaps:
        return ()
    advisor = Advisor()
    each = [
        {one.key: one for one in advisor.update(case).of("gaps")}
        for case in (
            recorded(snapshot),
            with_new_piece(snapshot, change.before),
            with_new_piece(snapshot, change.after),
        )
    ]
    return tuple(_gap(snapshot, change, fit, each) for fit in found.gaps)


def _gap(
    snapshot: Snapshot, change: Change, fit: Fit, each: list[dict[str, Advice]]
) -> GapThen:
    last = snapshot.find(fit.made_last, Characteristic)
    mine = last is not None and snapshot.find(last.part) is change.part
    now, before, after = (told.get(f"gap {fit.id}") for told in each)
    chances = [_chance(one) for one in (before, after)]
    both = None if None in chances else (chances[0] or 0.0, chances[1] or 0.0)
    return GapThen(fit, _said(fit, now), _said(fit, after), both, mine)


def _chance(advice: Advice | None) -> float | None:
    for number in advice.numbers if advice else ():
        if number.name == "chance" and isinstance(number.value, int | float):
            return float(number.value)
    return None


def _said(fit: Fit, advice: Advice | None) -> str:
    said = advice.statement if advice else "cannot be worked out"
    return said.removeprefix(fit.title).lstrip(",: ")


def interchange(
    change: Change, found: Touched, gaps: tuple[GapThen, ...]
) -> Interchange:
    """Propose whether the part keeps its number."""
    revision = change.after
    if revision is None:
        return Interchange(None, "it depends on what changes")
    if revision.interchanges is not None:
        word = "does" if revision.interchanges else "does not"
        return Interchange(
            revision.interchanges, f"{revision.title} says that it {word} interchange"
        )
    against = list(_against(change, gaps))
    if against:
        return Interchange(False, "; ".join(against))
    if not change.known:
        return Interchange(None, "nothing on record says what changes")
    reasons = [f"{one.fit.title} stays as wanted" for one in gaps if not one.suited]
    reasons += [f"{one.fit.title} is made to suit anyway" for one in gaps if one.suited]
    if revision.mates_with:
        reasons.append(f"it fits {', '.join(revision.mates_with)}")
    if change.material and not reasons:
        return Interchange(None, "the material changes; does what it has to do change?")
    moves = "; ".join(reasons) or _no_gap(found)
    return Interchange(True, moves)


def _no_gap(found: Touched) -> str:
    joints = ", ".join(joint.title for joint in found.joints)
    look = f"; look at {joints}" if joints else ""
    return f"no gap on record uses what changes{look}"


WANTED = 95.0
"""Chance of landing, in per cent, from which a gap counts as kept."""
LESS = 1.0
"""Percentage points by which a chance may fall before the change is to blame."""


def _against(change: Change, gaps: tuple[GapThen, ...]) -> Iterator[str]:
    for one in gaps:
        if one.chances is None or one.suited or not change.moved:
            continue
        before, after = one.chances
        if after < WANTED and after < before - LESS:
            yield (
                f"with a new piece {one.fit.title} lands by a chance of {after:.0f} %, "
                f"with one of the revision before by {before:.0f} %"
            )


def as_asked(
    before: Revision,
    changes: tuple[design.Change, ...] = (),
    material: str = "",
    files: tuple[design.DesignFile, ...] | None = None,
) -> Revision:
    """Give a revision that is only asked about, after this one; by its own files."""
    return Revision(
        id=f"what{before.id[:4]}",
        title=f"{before.part.name} as asked",
        when=LATEST,
        part=before.part,
        label="as asked",
        follows=before.ref,
        material=material,
        changes=changes,
        files=before.files if files is None else files,
    )


def with_revision(snapshot: Snapshot, revision: Revision) -> Snapshot:
    """Give the records as if this revision were on record."""
    known = f"what if {revision}"
    held = {**snapshot.stored, revision.id: Stored(revision, WHAT_IF, known)}
    return Snapshot(held, snapshot.problems, snapshot.read_only)
