"""The drill before a tap against the table, and how much thread another leaves."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.advice import Advice
from logbook.advice.joints.of_joint import of_joint
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds import assembling, happenings
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result
from logbook.shop.fastening.drills import Tapping, tapping, thread_percent
from logbook.shop.fastening.screws import read_screw
from logbook.shop.tables import table

_TAPPED = re.compile(r"(?i)\btap(?:s|ped|ping)?\b")
_THREAD = re.compile(r"\bM\d+(?:\.\d+)?(?:\s*[x×]\s*0\.\d+)?\b")
_NEAR_MM = 0.05
"""Drills closer than this are taken for the same: they come in tenths."""


def tap_words(thread: str, drill: Quantity) -> str:
    """Say what the table has for a thread, where the drill used is another one.

    Empty where it is the same, or where the thread is not in the table.
    """
    found = _tapping(thread)
    if found is None or _same(found, drill):
        return ""
    percent = thread_percent(found.diameter, found.pitch, float(drill.to("mm")))
    left = f"leaves {percent:.0f} % of the thread" if percent > 0 else "leaves none"
    source = table("holes", "tap_metric").source
    return f"{source} has {found.drill:g} mm for {thread}: {drill} {left}"


def tapped_words(entry: happenings.StepDone) -> str:
    """Say the same of a step done, “tapped the collar M4, drilled 3.3”."""
    thread = _THREAD.search(entry.title)
    found = _tapping(thread[0]) if thread and _TAPPED.search(entry.title) else None
    if thread is None or found is None:
        return ""
    drills = [
        value
        for value in entry.set_to
        if value.dimension == "length"
        and found.diameter / 2 < float(value.to("mm")) < found.diameter
    ]
    return tap_words(thread[0], drills[0]) if len(drills) == 1 else ""


_DRILL = re.compile(
    r"(?i)(?<![\d.,x×M])(?P<value>\d+(?:[.,]\d+)?)(?:\s*mm)?\b(?!\s*[x×%°])"
)


def drilled_for(title: str) -> tuple[str, Quantity] | None:
    """Give the thread and the drill before its tap that words tell.

    “tap drill for the M3 holes is 2.5”, “tapped the collar M4, drilled 3.3”; a
    number is the drill where it lies between the core and the outside.
    """
    thread = _THREAD.search(title)
    found = _tapping(thread[0]) if thread and _TAPPED.search(title) else None
    if thread is None or found is None:
        return None
    rest = title[: thread.start()] + " " * len(thread[0]) + title[thread.end() :]
    drills = [
        one["value"].replace(",", ".")
        for one in _DRILL.finditer(rest)
        if found.diameter / 2 < float(one["value"].replace(",", ".")) < found.diameter
    ]
    if len(drills) != 1:
        return None
    return re.sub(r"\s", "", thread[0]), parse_quantity(f"{drills[0]} mm")


def tap_advice(joint: assembling.Joint) -> Iterator[Advice]:
    """Say where the tap drill of a joint is not the one of the table."""
    if joint.tap_drill is None:
        return
    thread = read_screw(joint.fastener).size
    found, said = _tapping(thread), tap_words(thread, joint.tap_drill)
    if found is None or not said:
        return
    have = float(joint.tap_drill.to("mm"))
    percent = thread_percent(found.diameter, found.pitch, have)
    yield replace(
        of_joint(joint, said, Grade.CHECK, "tap"),
        numbers=(
            Result("drill", found.drill, "mm", 2, "tapping drill of the table"),
            Result("used", have, "mm", 2, "tapping drill of the joint"),
            Result("thread", percent, "%", 0, "depth of thread it leaves"),
        ),
        inputs=(joint.ref,),
        formula="depth of thread = 76.98 (D − drill) / P, in percent",
        sources=(table("holes", "tap_metric").source,),
        changes=("another drill, an insert",),
    )


def _tapping(thread: str) -> Tapping | None:
    try:
        return tapping(re.sub(r"\s", "", thread))
    except BadInput:
        return None


def _same(found: Tapping, drill: Quantity) -> bool:
    if drill.dimension != "length":
        return True
    return abs(float(drill.to("mm")) - found.drill) < _NEAR_MM
