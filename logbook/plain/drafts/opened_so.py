"""What is opened by what held it: the rivets drilled out are those of one step.

The part worked on once it is open is told in the same line, and is not what came apart.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.plain.drafts.order_of_work import joined_by
from logbook.plain.understanding import Understanding
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.ids import Ref
from logbook.records.making.drafts import Draft
from logbook.records.states.doing import is_done

_TIED = re.compile(r"^\W*(?:(?:and|then)\s+)*|[\s,;:]+(?:and|then)?\s*$")
_PLAIN = frozenset({"the", "out", "its", "all", "again"})
_ENDS = re.compile(r"[,;:]|\s(?:and|then)\s")


@dataclass(frozen=True, slots=True)
class Opened:
    """What came apart, the step or part it was, and the words told of other work."""

    then: str
    step: Ref | None
    part: Ref | None
    title: str
    closes: bool


def names_what_held(line: Understanding) -> bool:
    """Tell whether a line opens what is held by rivets, screws, glue, and no part."""
    words = _clause(line)
    named = line.facts.part.casefold() in words.casefold() if line.facts.part else False
    return line.facts.undone and bool(joined_by(words)) and not named


def opened_so(draft: Draft, line: Understanding) -> Opened | None:
    """Give the one thing done in this build that was closed by what is now opened.

    Of several the one that shares words with what is told, the lid of its rivets; None
    where none was, or two may be meant.
    """
    words = _clause(line)
    held_by, build = joined_by(words), draft.build()
    then = _TIED.sub("", line.line.replace(words, "", 1)).strip()
    found = [
        Opened(then, step.ref, _of(step), step.title, step.closes)
        for step in draft.snapshot.all(Step)
        if joined_by(step.title) == held_by and is_done(draft.snapshot, step, build)
    ]
    found = (
        found
        or [
            Opened(then, None, done.part, done.title, closes=True)
            for done in draft.snapshot.all(StepDone)
            if _held(draft, done, held_by)
        ][-1:]
    )
    told = _stems(words)
    near = [one for one in found if told & _stems(one.title)] if found[1:] else found
    return near[0] if len(near) == 1 else None


def _of(step: Step) -> Ref | None:
    return step.makes or next(iter(step.uses), None)


def _held(draft: Draft, done: StepDone, held_by: str) -> bool:
    here = draft.snapshot.find(done.build) is draft.build()
    closed = done.closes and not done.undone and done.step is None and done.part
    return bool(here and closed) and joined_by(done.title) == held_by


def _clause(line: Understanding) -> str:
    """Give the words up to the comma in which something is said to come apart."""
    spans = line.words.get("undone", ())
    at = spans[0].start if spans else 0
    start = max((one.end() for one in _ENDS.finditer(line.line[:at])), default=0)
    end = _ENDS.search(line.line, at)
    return line.line[start : end.start() if end else None].strip()


def _stems(words: str) -> set[str]:
    """Give the words that say what something is of, without how it is held."""
    said = re.findall(r"\w{3,}", words.casefold())
    return {one for one in said if one not in _PLAIN and not joined_by(one)}
