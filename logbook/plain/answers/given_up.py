"""A build that is given up: a note of that build, and no failure of a part unasked.

“Gave up build 2, the lamp is no good” tells why. What is put on record as failed stands
as a fault in what is published, so that it is asked whether the lamp failed.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from logbook.plain.understanding import Doubt, Facts, Kind, Understanding, as_note
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot

_UP = r"(?:g[ai]ve(?:n|s)?\s+up|giving\s+up|abandon(?:ed|ing)?|called\s+off)"
_BUILD = r"(?P<build>build\s+[\w.-]*\w)"
_GAVE_UP = re.compile(
    rf"(?i)^(?:(?:i|we)\s+)?(?:have\s+|had\s+to\s+)?{_UP}\s+(?:(?:on|with)\s+)?{_BUILD}"
    r"(?![\w-])"
)
_IS_UP = re.compile(rf"(?i)^{_BUILD}\s+(?:(?:is|was|has\s+been)\s+)?{_UP}\b")
_TELLS = frozenset({Kind.FAILURE, Kind.STEP, Kind.NOTE})
"""What such a line may look like and is not; that it was decided, it tells rightly."""
_FAILED = " failed"


def held_to_given_up(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str] = (),
    at_hand: Build | None = None,
) -> Understanding:
    """Give the line as a note of the build it gives up, a failure in it asked about.

    What was `answered` is not asked again.
    """
    words = " ".join((line.rest or line.line).split())
    said = _GAVE_UP.match(words) or _IS_UP.match(words)
    if said is None or line.kind not in _TELLS:
        return line
    builds = snapshot.named(said["build"], Build)
    if len(builds) != 1:
        note = as_note(replace(line, facts=replace(line.facts, build="")))
        return replace(note, remark=f"there is no {said['build']} on record")
    build, part = builds[0].title, line.facts.part
    asked = f"what is put on record? A failure of the {part} is published as one."
    if asked in answered:
        return _of_this_build(line, builds[0], at_hand or current_build(snapshot))
    ask = line.kind is not Kind.NOTE and part and not line.facts.part_is_new
    choices = (f"a note of {build}", f"the {part}{_FAILED}")
    facts = Facts(
        part=part if ask or not line.facts.part_is_new else "",
        build=build,
        when=line.facts.when,
        when_text=line.facts.when_text,
        hour_said=line.facts.hour_said,
    )
    doubts = (Doubt("given up", asked, choices),) if ask else ()
    told = replace(line, kind=Kind.NOTE, facts=facts, doubts=doubts, confidence=1.0)
    return replace(told, words={}, content=(), told_by=None)


def of_given_up(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as a note of its build, or as the failure it was said to be."""
    left = tuple(one for one in line.doubts if one is not doubt)
    if not answer.endswith(_FAILED):
        return replace(line, doubts=left)
    return replace(line, kind=Kind.FAILURE, doubts=left)


def _of_this_build(
    line: Understanding, build: Build, at_hand: Build | None
) -> Understanding:
    """Give a failure told of the build at hand as if its build were not named.

    Of which build the piece that failed is, is then asked as of any failure.
    """
    if line.kind is not Kind.FAILURE or at_hand is None or build.id != at_hand.id:
        return line
    return replace(line, facts=replace(line.facts, build=""))
