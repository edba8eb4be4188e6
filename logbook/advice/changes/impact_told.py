"""What is said of a change: what it touches, what to do with pieces, which number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.advisor import Advisor
from logbook.advice.changes.fates import Proposed, proposed
from logbook.advice.changes.impact import Change, Moved, Touched, change_to, touched
from logbook.advice.changes.interchange import (
    SOURCE,
    GapThen,
    Interchange,
    gaps_then,
    interchange,
    recorded,
)
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.advice.joints.joints import joint_advice
from logbook.counting import so_many
from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.words import Grade
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.limits_held import held_text
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot
from logbook.shop.answers import Result

MAKER = "proposed; the maker decides"


@dataclass(frozen=True, slots=True)
class Impact:
    """A change with everything that follows from it."""

    change: Change
    touched: Touched
    gaps: tuple[GapThen, ...]
    joints: tuple[str, ...]
    pieces: tuple[Proposed, ...]
    number: Interchange


def impact(snapshot: Snapshot, part: Part, revision: Revision | None) -> Impact:
    """Work out what a revision, or without one any change of a part, touches."""
    change = change_to(snapshot, part, revision)
    found = touched(snapshot, change)
    gaps = gaps_then(snapshot, change, found)
    return Impact(
        change,
        found,
        gaps,
        tuple(_joints(snapshot, change, found)),
        proposed(snapshot, change),
        interchange(change, found, gaps),
    )


def _joints(snapshot: Snapshot, change: Change, found: Touched) -> Iterator[str]:
    """Say each joint as it is told now, and as drawn with a thickness that changes.

    A joint of which nothing is told is said by its name.
    """
    told = Advisor().update(recorded(snapshot)).of("joints") if found.joints else ()
    thick = _thickness(change)
    for joint in found.joints:
        said = [one.statement for one in told if one.about.id == joint.id]
        yield "; ".join(said) or joint.title
        if thick is not None:
            yield from _joint_then(snapshot, change.part, joint, thick)


def _thickness(change: Change) -> Dimension | None:
    """Give the thickness a change gives its part; None where it leaves it."""
    for one in change.moved:
        if folded(one.what.title) == "thickness" and one.after and one.after.nominal:
            return one.after
    return None


def _joint_then(
    snapshot: Snapshot, part: Part, joint: Joint, thick: Dimension
) -> Iterator[str]:
    """Work a joint out again with the part as thick as it becomes."""
    layers = tuple(
        replace(
            layer,
            thickness=thick.nominal,
            lower_limit=None if thick.general else thick.lower,
            upper_limit=None if thick.general else thick.upper,
        )
        if snapshot.find(layer.part) is part
        else layer
        for layer in joint.layers
    )
    register = Register()
    register.update(snapshot)
    then = joint_advice(View(register), replace(joint, layers=layers), drawn=True)
    for one in then:
        if isinstance(one, Advice):
            said = one.statement.removeprefix(f"{joint.title}: ")
            yield f"{joint.title}, with {part.title} {thick.nominal}: {said}"


def impact_advice(found: Impact) -> Advice:
    """Say the impact of a change as one piece of advice."""
    change, parts = found.change, found.touched
    return Advice(
        key=f"impact {change.part.id}"
        + (f" {change.after.id}" if change.after else ""),
        topic="impact",
        grade=Grade.REMARK,
        about=(change.after or change.part).ref,
        statement="; ".join((change_words(change), *_counted(found))),
        numbers=(
            Result("gaps", len(parts.gaps), "", 0, "that use what changes"),
            Result("joints", len(parts.joints), "", 0, "that go through the part"),
            Result("steps", len(parts.steps), "", 0, "that make or use it"),
            Result("files", len(parts.files), "", 0, "that draw it"),
            Result("lines", len(parts.lines), "", 0, "of the parts list"),
            Result("statements", _released(parts), "", 0, "released, about it"),
            Result(
                "pieces", len(found.pieces), "", 0, "on hand, of an earlier revision"
            ),
        ),
        inputs=_inputs(found),
        formula="readings against the new limits; gaps with a new piece, unread",
        sources=(SOURCE,),
        assumed=(MAKER,),
        changes=("a reading of a piece, what the revision says of remaking",),
    )


def impact_lines(found: Impact) -> Iterator[tuple[str, str]]:
    """Give the lines of the answer, each with the word in its margin."""
    parts = found.touched
    yield from _gap_lines(found)
    yield from (("joint", said) for said in found.joints)
    yield from (("step", step.title) for step in parts.steps)
    yield from (("list", _line_words(line)) for line in parts.lines)
    warning = undrawn(found.change)
    yield from (("file", said) for said in ((warning,) if warning else parts.files))
    for release, said in parts.released:
        yield "released", f"{release.label} says it in {released_words(said)}"
    for piece in found.pieces:
        yield "piece", f"{piece.piece.title}: {piece.fate.value}; {piece.because}"


def _line_words(line: Line) -> str:
    """Say a line of the list; an assembly only where it is in one."""
    into = f" in {line.assembly.name}" if line.assembly else ""
    each = f", each {line.amount}" if line.amount else ""
    return f"{line.quantity} × {line.part.name}{each}{into}"


def _gap_lines(found: Impact) -> Iterator[tuple[str, str]]:
    told = {one.fit.id for one in found.gaps}
    for one in found.gaps:
        yield "gap", f"{one.fit.title}, now: {one.now}"
        if one.then != one.now:
            yield "", f"with a new piece: {one.then}"
    for fit in found.touched.gaps:
        if fit.id not in told:
            yield "gap", fit.title


def change_words(change: Change) -> str:
    """Say what changes, in one line."""
    if change.after is None:
        return f"any change of {change.part.title}"
    if change.before is None:
        return f"{change.after.title}: nothing came before it"
    said = [moved_words(one) for one in change.moved]
    if change.material:
        was, becomes = change.material
        said.append(f"material {was or 'not said'} → {becomes or 'not said'}")
    said += [f"{path} drawn anew" for path in change.files]
    none = "no size, material or file changes"
    return f"{change.after.title}: {', '.join(said) or none}"


def moved_words(moved: Moved) -> str:
    """Say how one dimension changes."""
    before, after = (_drawn(one) for one in (moved.before, moved.after))
    return f"{moved.what.title} {before} → {after}"


def _drawn(one: Dimension | None) -> str:
    if one is None:
        return "not drawn"
    return "made to suit" if one.to_suit else held_text(one)


def undrawn(change: Change) -> str:
    """Say that a size changes and every file stays as it was, where that is so."""
    if change.moved and change.unchanged and not change.files:
        return f"{', '.join(change.unchanged)} still as drawn before: draw it anew?"
    return ""


def released_words(said: Sequence[Statement]) -> str:
    """Count the statements of a release by what they are: 3 steps, 1 gap."""
    counts = Counter(one.form for one in said)
    return ", ".join(so_many(n, form) for form, n in counts.items())


def _counted(found: Impact) -> Iterator[str]:
    parts = found.touched
    for number, word in (
        (len(parts.gaps), "gap"),
        (len(parts.joints), "joint"),
        (len(parts.steps), "step"),
        (_released(parts), "released statement"),
    ):
        if number:
            yield so_many(number, word)
    fates = Counter(piece.fate for piece in found.pieces)
    for fate, number in fates.items():
        yield f"{so_many(number, 'piece')}: {fate.value}"
    yield number_words(found.number)


def number_words(number: Interchange) -> str:
    """Say whether the part keeps its number."""
    if number.keeps is None:
        return f"whether it keeps its number is open: {number.because}"
    word = "keeps its number" if number.keeps else "takes a number of its own"
    return f"{word}: {number.because}"


def _released(parts: Touched) -> int:
    return sum(len(said) for _, said in parts.released)


def _inputs(found: Impact) -> tuple[Ref, ...]:
    change = found.change
    refs = [change.part.ref]
    refs += [one.ref for one in (change.before, change.after) if one]
    refs += [moved.what.ref for moved in change.moved]
    refs += [record.ref for record in found.touched.records]
    refs += [release.ref for release, _ in found.touched.released]
    refs += [one.piece.ref for one in found.pieces]
    return tuple(dict.fromkeys(refs))
