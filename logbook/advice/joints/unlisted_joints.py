"""Screws and nuts of joints that no line of the parts list has.

Who builds it buys by the list, or by the parts that are bought, where there are some.
Where there is neither nothing is said: then all that is bought is in the joints.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator

from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.together.likeness import single
from logbook.records.together.snapshot import Snapshot

_TIMES = re.compile(r"(?<=\d)\s*[x×]\s*(?=\d)")
_THREAD = re.compile(r"\bm\d+(?:[.,]\d+)?(?=x|\b)")
_NUT = re.compile(r"\b(?:lock)?nuts?\b")


def unlisted_joints(snapshot: Snapshot) -> Iterator[str]:
    """Say of each joint what holds it that is on no list, and how it is put there."""
    lines = snapshot.all(Line)
    wanted = (line for line in lines if line.quantity + line.spare > 0)
    listed = [spelt(_of_line(snapshot, line)) for line in wanted]
    told = lines or any(one.source is Source.BOUGHT for one in snapshot.all(Part))
    for joint in snapshot.all(Joint) if told else ():
        missing = [*_missing(joint, listed)]
        if not missing:
            continue
        named, none = " and ".join(missing), ("none", "neither")[len(missing) > 1]
        yield (
            f"joint {joint.title} takes {joint.quantity} × {named}, and the list has "
            f"{none}: who builds it buys none; put it in with: logbook line "
            f"{shlex.quote(missing[0])} {joint.quantity}{_how_many(joint)}"
        )


def _how_many(joint: Joint) -> str:
    """Ask for the count of what is one where nobody said how many."""
    more = f"logbook joint {shlex.quote(joint.title)} --number"
    return f" (more than one: {more} 4)" if joint.quantity == 1 else ""


def _missing(joint: Joint, listed: list[str]) -> Iterator[str]:
    """Give what of a joint no line has: its screw, its nut."""
    thread = _THREAD.search(spelt(joint.fastener))
    size = thread[0] if thread else ""
    if joint.fastener and not any(has(line, joint.fastener) for line in listed):
        yield joint.fastener
    if joint.nut and not any(_has_nut(line, joint.nut, size) for line in listed):
        named = joint.nut if _NUT.search(single(joint.nut)) else f"{joint.nut} nut"
        yield f"{named} {size.upper()}".strip()


def has(line: str, fastener: str) -> bool:
    """Tell whether a line has a fastener: as it is spelt, or all of its words."""
    words = spelt(fastener)
    return words in line or set(words.split()) <= set(line.split())


def _has_nut(line: str, nut: str, thread: str) -> bool:
    """Tell whether a line has a nut, of this thread where it names one."""
    if not _NUT.search(line) and spelt(nut) not in line:
        return False
    named = _THREAD.findall(line)
    return not named or not thread or thread in named


def _of_line(snapshot: Snapshot, line: Line) -> str:
    part = snapshot.find(line.part, Part)
    return f"{part.title if part else line.part.name} {line.bought_as}"


def spelt(words: str) -> str:
    """Give words in small letters and in the singular, “M4 × 25” as m4x25."""
    return _TIMES.sub("x", single(words.casefold()))
