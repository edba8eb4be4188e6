"""The screws a release takes, thread by thread: what its joints and its list name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.publish.guide.parts_list import Listed
from logbook.publish.release.readback import SaidJoint, read_joint
from logbook.publish.release.released import Released
from logbook.quantity import parse_quantity
from logbook.records.states.statements import Form
from logbook.shop.fastening.drills import tapping
from logbook.shop.fastening.screws import size_name

_SCREW = re.compile(
    r"(?P<thread>\bM\d+(?:[.,]\d+)?(?:\s*[x×]\s*[01]?[.,]\d+)?|(?:#|\b\d+/)\d+-\d+)"
    r"(?:\s*[x×]\s*(?P<length>\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?(?:/\d+)?)"
    r"\s*(?P<unit>mm|in\b|\")?)?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw as it is named: its thread, and its length in mm."""

    thread: str
    named: str
    length: float


def screw_named(words: str) -> Screw | None:
    """Give the screw that words name: “ISO 7380 M4x20”, “#8-32 x 3/4 in”.

    None where they name none, or one without its length, as a nut or a washer.
    """
    found = _SCREW.search(words)
    if found is None:
        return None
    thread = re.sub(r"\s", "", found["thread"]).replace("m", "M")
    try:
        tapping(thread)
        thread = size_name(thread) if thread[0] == "M" else thread
        unit = found["unit"] or ("mm" if thread[0] == "M" else "in")
        typed = parse_quantity(found["length"] or "", unit.replace('"', "in"))
        return Screw(thread, found[0].strip(), float(typed.to("mm")))
    except BadInput:
        return None


def joints_said(released: Released) -> Iterator[SaidJoint]:
    """Give the joints of a release as its text says them."""
    for statement in released.of(Form.JOINT):
        yield read_joint(statement.says)


def screws_taken(
    released: Released, lines: Iterable[Listed]
) -> dict[str, tuple[Screw, ...]]:
    """Give the screws of the joints and of what is bought, by their thread.

    Each length once, the shortest first.
    """
    words = [said.fastener for said in joints_said(released)]
    for line in lines:
        if not line.dropped:
            words.append(line.said.bought_as or line.name)
            words.append(line.name)
    found: dict[str, dict[float, Screw]] = {}
    for screw in filter(None, map(screw_named, words)):
        found.setdefault(screw.thread, {}).setdefault(screw.length, screw)
    return {
        thread: tuple(some[length] for length in sorted(some))
        for thread, some in sorted(found.items(), key=_by_width)
    }


def _by_width(of: tuple[str, object]) -> float:
    return tapping(of[0]).diameter
