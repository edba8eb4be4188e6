"""Which screw of the other system is near one of the release, and what that asks for.

Arithmetic from published thread tables: whether it goes through the holes, what has to
change with it, which lengths are beside. Head, washer and strength are not judged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.publish.guide.parts_list import Listed
from logbook.publish.guide.screws_taken import Screw, screw_named, screws_taken
from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Joint
from logbook.records.states.statements import Form
from logbook.shop.fastening.hole_widths import usual_hole
from logbook.shop.fastening.other_thread import (
    OtherThread,
    lengths_beside,
    other_thread,
)

NOT_JUDGED = "of screws, head, washer and strength are not judged"


@dataclass(frozen=True, slots=True)
class OtherScrew:
    """The screws of a thread, their neighbour in the other system, what that asks."""

    thread: str
    of: str
    instead: str
    comes_to: str


def other_screws(released: Released, lines: Iterable[Listed]) -> Iterator[OtherScrew]:
    """Give the neighbour of each thread that has one."""
    for thread, screws in screws_taken(released, lines).items():
        other = other_thread(thread)
        if other is not None:
            into = (
                f"into no nut, insert or thread for {thread}: these become "
                f"{other.name} too (tapping drill {_drill(other)})"
            )
            asks = _through(released, thread, other), into, _lengths(screws, other)
            yield OtherScrew(
                thread=other.name,
                of=f"{', '.join(one.named for one in screws)} screws",
                instead=f"{other.name} ({other.diameter:.2f} mm)",
                comes_to="; ".join(asks),
            )


def _through(released: Released, thread: str, other: OtherThread) -> str:
    """Say whether it goes through the narrowest hole on record, or the usual one."""
    known = min(_holes(released, thread), default=None)
    hole = usual_hole(thread) if known is None else known
    if hole is None:
        return f"{other.diameter:.2f} mm thick"
    which = "on record" if known is not None else f"usual for {thread}"
    room = round(hole - other.diameter, 2)
    if room <= 0:
        return f"does not go through the {hole:.3g} mm hole {which}"
    return f"through the {hole:.3g} mm hole {which} with {room:.2g} mm of room"


def _holes(released: Released, thread: str) -> Iterator[float]:
    """Give the widths of the holes on record that screws of a thread go through."""
    for statement in released.of(Form.JOINT):
        joint = released.live(statement)
        if isinstance(joint, Joint):
            screw = screw_named(joint.fastener)
            for layer in joint.layers if screw and screw.thread == thread else ():
                if layer.hole is not None:
                    yield float(layer.hole.to("mm"))


def _drill(other: OtherThread) -> str:
    named, mm = other.tapping.name, f"{other.tapping.drill:.2f} mm"
    return named if named.endswith("mm") else f"{named}, {mm}"


def _lengths(screws: Iterable[Screw], other: OtherThread) -> str:
    said = (
        f"for {one.named} {' or '.join(lengths_beside(one.length, other))}"
        for one in screws
    )
    return f"lengths beside: {', '.join(said)}"
