"""Which screw of the other system is near one of the release, and what that asks for.

Arithmetic from published thread tables: whether it goes through the holes, what has to
change with it, which lengths are beside. Head, washer and strength are not judged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from logbook.publish.guide.parts_list import Listed
from logbook.publish.guide.screw_holes import flat_file, passing_through, threads_of
from logbook.publish.guide.screws_taken import Screw, screws_taken
from logbook.publish.release.released import Released
from logbook.shop.fastening.hole_widths import TAPPING, made_for, usual_hole
from logbook.shop.fastening.other_thread import (
    OtherThread,
    lengths_beside,
    other_thread,
)
from logbook.store.designs.round_holes import widths_mm
from logbook.store.designs.shapes import Shape

NOT_JUDGED = "of screws, head, washer and strength are not judged"


Hole = tuple[str, float, str]
"""A hole for a thread: how wide it is in mm, and where that is told."""


@dataclass(frozen=True, slots=True)
class OtherScrew:
    """The screws of a thread, their neighbour in the other system, what that asks."""

    thread: str
    of: str
    instead: str
    comes_to: str


def other_screws(
    released: Released, lines: Iterable[Listed], shapes: Mapping[str, Shape]
) -> Iterator[OtherScrew]:
    """Give the neighbour of each thread that has one."""
    holes = [*_holes(released, shapes)]
    for thread, screws in screws_taken(released, lines).items():
        other = other_thread(thread)
        if other is not None:
            into = (
                f"into no nut, insert or thread for {thread}: these become "
                f"{other.name} too (tapping drill {_drill(other)})"
            )
            asks = _through(holes, thread, other), into, _lengths(screws, other)
            yield OtherScrew(
                thread=other.name,
                of=f"{', '.join(one.named for one in screws)} screws",
                instead=f"{other.name} ({other.diameter:.2f} mm)",
                comes_to="; ".join(asks),
            )


def _through(holes: Iterable[Hole], thread: str, other: OtherThread) -> str:
    """Say whether it goes through the narrowest known hole, or the usual one."""
    known = [(mm, which) for of, mm, which in holes if of == thread]
    usual = usual_hole(thread)
    if not known and usual is None:
        return f"{other.diameter:.2f} mm thick"
    hole, which = min(known) if known else (usual or 0.0, f"usual for {thread}")
    room = round(hole - other.diameter, 2)
    if room <= 0:
        return f"does not go through the {hole:.3g} mm hole {which}"
    return f"through the {hole:.3g} mm hole {which} with {room:.2g} mm of room"


def _holes(released: Released, shapes: Mapping[str, Shape]) -> Iterator[Hole]:
    """Give the holes that screws go through, on record and as their files draw them."""
    unit = released.snapshot.project.unit
    for part, passing in passing_through(released):
        for one in passing:
            if one.layer.hole is not None:
                yield one.thread, float(one.layer.hole.to("mm")), "on record"
        shape = flat_file(released, part, shapes)
        for mm in widths_mm(shape, unit) if shape else ():
            fits, thread = made_for(mm, threads_of(passing))
            if fits and fits != TAPPING:
                yield thread, mm, f"in the file of the {part.title}"


def _drill(other: OtherThread) -> str:
    named, mm = other.tapping.name, f"{other.tapping.drill:.2f} mm"
    return named if named.endswith("mm") else f"{named}, {mm}"


def _lengths(screws: Iterable[Screw], other: OtherThread) -> str:
    said = (
        f"for {one.named} {' or '.join(lengths_beside(one.length, other))}"
        for one in screws
    )
    return f"lengths beside: {', '.join(said)}"
