"""What a change touches: gaps, joints, steps, files, list lines, released statements.

The change is a revision against the one before it, or a size or material that is
only asked about; where nothing to compare with is on record, everything that
depends on the part is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.ground.material import material_of
from logbook.advice.ground.naming import formula_of, meant
from logbook.advice.ground.same_content import same_content
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit, Joint, Line, Step
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.made_public import Release, Statement
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension, characteristics_of, definition
from logbook.records.sizes.limits_held import as_held
from logbook.records.together.revisions import revisions_in, revisions_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Moved:
    """A dimension before and after; None where a revision does not have it."""

    what: Characteristic
    before: Dimension | None
    after: Dimension | None


@dataclass(frozen=True, slots=True)
class Change:
    """A part's change from one revision to another; without `after`, any change."""

    part: Part
    before: Revision | None
    after: Revision | None
    moved: tuple[Moved, ...]
    material: tuple[str, str] | None
    files: tuple[str, ...]
    unchanged: tuple[str, ...]

    @property
    def known(self) -> bool:
        """Whether it is on record what changes."""
        return bool(self.moved or self.material or self.files)


@dataclass(frozen=True, slots=True)
class Touched:
    """What a change touches; `released` are statements of releases before it."""

    gaps: tuple[Fit, ...]
    joints: tuple[Joint, ...]
    steps: tuple[Step, ...]
    lines: tuple[Line, ...]
    files: tuple[str, ...]
    released: tuple[tuple[Release, tuple[Statement, ...]], ...]

    @property
    def records(self) -> tuple[Record, ...]:
        """All records that it touches."""
        return (*self.gaps, *self.joints, *self.steps, *self.lines)


# -- the change ------------------------------------------------------------------


def change_to(snapshot: Snapshot, part: Part, after: Revision | None) -> Change:
    """Give what changes from the revision before this one; with none, any change."""
    line = list(revisions_of(snapshot, part))
    if after is None:
        before = line[-1] if line else None
        return Change(part, before, None, (), None, (), ())
    at = line.index(after)
    before = _before(line, after, at)
    if before is None:
        return Change(part, None, after, (), None, (), ())
    old, new = _sized(snapshot, before), _sized(snapshot, after)
    moved = tuple(
        Moved((new.get(key) or old[key]).characteristic, old.get(key), new.get(key))
        for key in dict.fromkeys((*old, *new))
        if old.get(key) != new.get(key)
    )
    was, becomes = (_material(snapshot, part, one) for one in (before, after))
    changed, same = _files(before, after)
    return Change(
        part,
        before,
        after,
        moved,
        (was, becomes) if was != becomes else None,
        changed,
        same,
    )


def _sized(snapshot: Snapshot, revision: Revision) -> dict[str, Dimension]:
    """Give the dimensions of a revision that say anything of a size, by id.

    They come with the limits that hold of them, drawn or general.
    """
    return {
        one.characteristic.id: as_held(snapshot, one)
        for one in definition(snapshot, revision)
        if one.nominal or one.lower or one.upper or one.to_suit
    }


def _before(line: Sequence[Revision], after: Revision, at: int) -> Revision | None:
    for one in line[:at]:
        if after.follows and one.id == after.follows.id:
            return one
    return line[at - 1] if at else None


def _material(snapshot: Snapshot, part: Part, revision: Revision) -> str:
    piece = Piece(id="", title="", part=part.ref, revision=revision.ref)
    return material_of(snapshot, part, piece)


def _files(
    before: Revision, after: Revision
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Give the files that are new, gone or of another content, and those that stay."""
    old, new = ({f.path: f for f in one.files} for one in (before, after))
    same = tuple(p for p in new if p in old and same_content(old[p], new[p]))
    return tuple(p for p in dict.fromkeys((*old, *new)) if p not in same), same


# -- what it touches -------------------------------------------------------------


def touched(snapshot: Snapshot, change: Change) -> Touched:
    """Give everything on record that a change touches."""
    part = change.part
    whats = {moved.what.id for moved in change.moved}
    if not whats:
        whats = {one.id for one in characteristics_of(snapshot, part)}
    gaps = tuple(
        fit for fit in snapshot.all(Fit) if whats & set(_dimensions(snapshot, fit))
    )
    joints = tuple(
        joint
        for joint in snapshot.all(Joint)
        if any(snapshot.find(layer.part) is part for layer in joint.layers)
    )
    steps = tuple(step for step in snapshot.all(Step) if _has(snapshot, step, part))
    lines = tuple(
        line for line in snapshot.all(Line) if snapshot.find(line.part) is part
    )
    found = Touched(gaps, joints, steps, lines, _named_files(change), ())
    released = tuple(_released(snapshot, change, found, whats))
    return Touched(gaps, joints, steps, lines, found.files, released)


def _dimensions(snapshot: Snapshot, fit: Fit) -> Iterator[str]:
    """Give the ids of the dimensions of a gap; one that cannot be read has none."""
    try:
        for name in formula_of(fit.formula).names:
            yield meant(snapshot, name).what.id
    except BadInput:
        return


def _has(snapshot: Snapshot, step: Step, part: Part) -> bool:
    return any(snapshot.find(ref) is part for ref in (step.makes, *step.uses))


def _named_files(change: Change) -> tuple[str, ...]:
    if change.files:
        return change.files
    held = change.after or change.before
    return tuple(file.path for file in held.files) if held else ()


def _released(
    snapshot: Snapshot, change: Change, found: Touched, whats: set[str]
) -> Iterator[tuple[Release, tuple[Statement, ...]]]:
    """Give, of releases that hold an earlier revision, what they say of it."""
    of = whats | {record.id for record in found.records} | {change.part.id}
    for release in snapshot.all(Release):
        held = [r for r in revisions_in(snapshot, release) if r is not change.after]
        mine = {r.id for r in held if snapshot.find(r.part) is change.part}
        said = tuple(s for s in release.statements if s.of.id in of | mine)
        if mine and said:
            yield release, said
