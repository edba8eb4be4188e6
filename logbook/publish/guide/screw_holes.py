"""Which holes the screws of a release ask for: on record, as drawn, by the tables.

What is on record comes first, then what the file draws; what nobody has said is said to
be unsaid, and the tables say what is usual.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from logbook.publish.guide.joint_checks import as_released
from logbook.publish.guide.parts_list import Listed
from logbook.publish.guide.screws_taken import Screw, screw_named, screws_taken
from logbook.publish.release.readback import read_joint
from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.states.statements import Form
from logbook.shop.fastening.hole_widths import (
    TAPPING,
    diameter,
    inch_drills,
    made_for,
    tap_words,
    through_words,
)
from logbook.store.designs.round_holes import holes_words, round_holes, widths_mm
from logbook.store.designs.shapes import Shape

UNSAID = "nobody has said"
NO_HOLE = "no round hole"


@dataclass(frozen=True, slots=True)
class HolesView:
    """A part with the screws through it, its holes on record, and those of its file."""

    part: str
    screws: str
    recorded: str
    drawn: str


@dataclass(frozen=True, slots=True)
class DrillView:
    """A thread, the holes its screw goes through, and the drill before its tap.

    `inch` names the inch drills nearest to the metric ones.
    """

    thread: str
    through: str
    tap: str
    inch: str


@dataclass(frozen=True, slots=True)
class Passing:
    """A joint through a part: how many screws, which, and the layer of it."""

    joint: Joint
    thread: str
    layer: Layer


def screw_holes(released: Released, shapes: Mapping[str, Shape]) -> Iterator[HolesView]:
    """Give each part that is made and has screws through it."""
    for part, passing in passing_through(released):
        yield HolesView(
            part=part.title,
            screws="; ".join(
                f"{one.joint.quantity} × {one.joint.fastener} ({one.joint.title})"
                for one in passing
            ),
            recorded=_recorded(passing),
            drawn=_drawn(released, part, passing, shapes),
        )


def passing_through(
    released: Released,
) -> Iterator[tuple[Part, tuple[Passing, ...]]]:
    """Give each part that is made or had made, with the joints through it."""
    joints = tuple((one, screw_named(one.fastener)) for one in _joints(released))
    for part in released.needed:
        found = tuple(_passing(joints, part))
        if found and part.source is not Source.BOUGHT:
            yield part, found


def _passing(
    joints: Iterable[tuple[Joint, Screw | None]], part: Part
) -> Iterator[Passing]:
    for joint, screw in joints:
        layer = next((one for one in joint.layers if _is_of(one, part)), None)
        if layer is not None:
            yield Passing(joint, screw.thread if screw else "", layer)


def _is_of(layer: Layer, part: Part) -> bool:
    """Tell whether a layer is of a part; one read from a text has only its name."""
    if layer.part.id:
        return layer.part.id == part.id
    return layer.part.name == part.title


def _joints(released: Released) -> Iterator[Joint]:
    """Give the joints as they were released; one changed since as its text tells it."""
    for statement in released.of(Form.JOINT):
        live = released.live(statement)
        if isinstance(live, Joint):
            yield live
        elif known := released.snapshot.find(statement.of, Joint):
            yield as_released(known.id, read_joint(statement.says))


def _recorded(passing: Sequence[Passing]) -> str:
    """Say the holes on record, each with its joint where they are not all alike."""
    said: dict[str, list[str]] = {}
    for one in passing:
        said.setdefault(_hole(one.layer), []).append(one.joint.title)
    if len(said) == 1:
        return next(iter(said))
    return "; ".join(f"{hole} ({', '.join(of)})" for hole, of in said.items())


def _hole(layer: Layer) -> str:
    if layer.hole is None:
        return UNSAID
    slot = f", slot {layer.slot} long" if layer.slot else ""
    return f"{layer.hole}{slot}"


# -- as drawn ------------------------------------------------------------------------


def _drawn(
    released: Released,
    part: Part,
    passing: Sequence[Passing],
    shapes: Mapping[str, Shape],
) -> str:
    """Say which round holes the file has, what their widths are for, what it lacks."""
    shape = flat_file(released, part, shapes)
    if shape is None:
        return ""
    unit = released.snapshot.project.unit
    words = holes_words(shape, unit) or NO_HOLE
    widths = widths_mm(shape, unit)
    threads = threads_of(passing)
    made = {mm: made_for(mm, threads) for mm in widths}
    by_width = filter(None, (_for(mm, *made[mm], threads) for mm in widths))
    lacks = _lacking(passing, shape, widths)
    return "; ".join(filter(None, (words, *by_width, lacks)))


def lacking_holes(
    released: Released, shapes: Mapping[str, Shape]
) -> Iterator[tuple[Part, str]]:
    """Give each part whose file draws too few round holes for its screws."""
    for part, passing in passing_through(released):
        shape = flat_file(released, part, shapes)
        if shape is not None:
            unit = released.snapshot.project.unit
            words = holes_words(shape, unit) or NO_HOLE
            if said := _lacking(passing, shape, widths_mm(shape, unit)):
                yield part, f"whose file draws {words}, {said}"


def threads_of(passing: Iterable[Passing]) -> tuple[str, ...]:
    """Give the threads of the screws through a part, each once."""
    return tuple(dict.fromkeys(one.thread for one in passing if one.thread))


def _for(mm: float, fits: str, thread: str, threads: Sequence[str]) -> str:
    """Say what a width is for; where all screws are alike, how much room they have."""
    if fits:
        which = "the tapping drill of" if fits == TAPPING else f"a {fits} hole for"
        return f"{mm:g} mm is {which} {thread}"
    thick = diameter(threads[0]) if len(threads) == 1 else None
    if thick is not None and thick < mm <= 2 * thick:
        room = f"{mm - thick:.2g} mm of room, more than a wide hole"
        return f"{mm:g} mm leaves {threads[0]} {room}"
    return ""


def _lacking(
    passing: Sequence[Passing], shape: Shape, widths: Mapping[float, int]
) -> str:
    """Say where more screws go through than there are holes, and of which threads.

    A slot is not round, so its screws are not looked for. Empty where all have one.
    """
    wanted = [one for one in passing if not one.layer.slot and one.thread]
    number = sum(one.joint.quantity for one in wanted)
    if number <= len(round_holes(shape)):
        return ""
    known = {made_for(mm, threads_of(passing))[1] for mm in widths}
    none = [thread for thread in threads_of(wanted) if thread not in known]
    which = f", none of it for {', '.join(none)}" if none else ""
    return f"too few for {number} screws{which}: where the others go {UNSAID}"


def flat_file(
    released: Released, part: Part, shapes: Mapping[str, Shape]
) -> Shape | None:
    """Give the first file of a part that draws it flat."""
    revision = released.revision(part)
    paths = {file.path for file in revision.files} if revision else set()
    found = (
        shapes.get(file.sha256) for file in released.release.files if file.path in paths
    )
    return next((one for one in found if one and not one.triangles and one.size), None)


# -- by the tables -------------------------------------------------------------------


def drills(released: Released, lines: Iterable[Listed]) -> Iterator[DrillView]:
    """Give the holes each thread of the release asks for by the tables."""
    for thread in screws_taken(released, lines):
        goes, tap = through_words(thread), tap_words(thread)
        if goes or tap:
            yield DrillView(thread, goes, tap, inch_drills(thread))


def in_no_joint(released: Released, lines: Iterable[Listed]) -> tuple[str, ...]:
    """Name the screws of the list that no joint takes; none where no joint is told."""
    taken = [
        screw_named(read_joint(one.says).fastener) for one in released.of(Form.JOINT)
    ]
    held = {(one.thread, one.length) for one in taken if one}
    found = []
    for line in lines if taken else ():
        screw = screw_named(line.said.bought_as) or screw_named(line.name)
        if screw and not line.dropped and (screw.thread, screw.length) not in held:
            found.append(line.name)
    return tuple(dict.fromkeys(found))
