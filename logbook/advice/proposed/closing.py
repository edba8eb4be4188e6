"""What closes, asked once what must be inside before it.

Gluing, riveting and welding cannot be undone; what came apart again with force shows
it. A joint that is soldered opens by heat: it closes only what is said to close. Such
a step is held from the next build on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.proposed.proposal import Proposal, decline, is_yes, not_accepted
from logbook.advice.steps.step_words import drafted_step, imperative, process_of
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import StepDone
from logbook.records.making.drafts import Draft
from logbook.records.states.undated import of_no_day
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_AGAIN = re.compile(r"(?i)\b(?:again|apart|open(?:ed)?|rivets?|glue|unglued)\b")
"""Words that tell opening something again from drilling a hole out."""
_BY_HEAT = "soldering"
_SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_NOTHING = frozenset({"nothing", "none", "nothing at all"})
_TESTED = re.compile(r"(?i)\b(?:tested|works?|lights?|runs?|checked)\b")
_CLEAN = re.compile(r"(?i)\b(?:clean(?:ed)?|dry|degreased)\b")
_LONGEST_THING = 6
"""Words one thing is named in at most; more of them tell something else."""
_TRIM = re.compile(r"(?i)^(?:the|a|an)\s+|\s+(?:inside|in|first)$")
_ACCEPTS = "what must be in, tested or clean, as “cable, lamp tested”; or “nothing”"


@dataclass(frozen=True, slots=True)
class _Closing:
    """Something done that closes: the step it was, and whether it came off again."""

    name: str
    step: Step | None
    done: StepDone | None
    opened: StepDone | None
    process: str


# -- what closes ---------------------------------------------------------------------


def closing(snapshot: Snapshot) -> Iterator[Proposal]:
    """Ask of each thing that closes what must be inside, unless its step says so."""
    for found in _closed(snapshot):
        if found.step is None or not (
            found.step.inside or found.step.tested or found.step.clean
        ):
            yield _asking(found)


def _closed(snapshot: Snapshot) -> Iterator[_Closing]:
    told: set[str] = set()
    everything = snapshot.all(StepDone)
    for done in everything:
        step = snapshot.find(done.step, Step)
        process = process_of(done.title)
        closes = process not in ("", _BY_HEAT) or done.closes
        closes = closes or bool(step and step.closes)
        if done.undone or not closes:
            continue
        name = step.title if step else imperative(of_no_day(done.title))
        if folded(name) in told:
            continue
        told.add(folded(name))
        step = step or next(iter(snapshot.named(name, Step)), None)
        yield _Closing(name, step, done, _opened(done, everything), process)
    yield from _opened_alone(snapshot, everything)


def _opened(done: StepDone, everything: Sequence[StepDone]) -> StepDone | None:
    """Give the entry that tells that it was opened again later."""
    for later in everything:
        after = later.when >= done.when
        same = later.step == done.step if later.step else later.part == done.part
        if later.undone and after and same and (later.step or later.part):
            return later
    return None


def _opened_alone(
    snapshot: Snapshot, everything: Sequence[StepDone]
) -> Iterator[_Closing]:
    """Give what was drilled out again though nobody logged that it was closed."""
    for later in everything:
        part = snapshot.find(later.part, Part)
        if not later.undone or part is None or later.step:
            continue
        if not (_AGAIN.search(later.title) and _came_apart(later.title, part)):
            continue
        if not any(
            not one.undone and one.part == later.part and one.when <= later.when
            for one in everything
        ):
            step = _closing_step(snapshot, part)
            name = step.title if step else f"close the {part.title}"
            yield _Closing(name, step, None, later, "")


_WORKED_ON = re.compile(r"(?i)(?:,|;|\band\b|\bthen\b)\s*(?:\w+ed|put|made)\b")


def _came_apart(title: str, part: Part) -> bool:
    """Tell whether it is the part that came apart, and not what was worked on then.

    The lamp of “drilled out the rivets, soldered the lamp anew” lay behind them.
    """
    then = _WORKED_ON.search(title)
    before = folded(title[: then.start()] if then else title)
    return any(folded(name) in before for name in (part.title, *part.aliases))


def _closing_step(snapshot: Snapshot, part: Part) -> Step | None:
    """Give the one step that closes with a part, None where none or several do."""
    found = [
        step
        for step in snapshot.all(Step)
        if step.closes
        and any(ref.id == part.id for ref in (*step.uses, step.makes) if ref)
    ]
    return found[0] if len(found) == 1 else None


def _asking(found: _Closing) -> Proposal:
    first = found.step or found.done or found.opened
    assert first is not None
    key = f"inside {(found.done or found.opened or first).id}"
    shuts = "cannot be undone" if found.process else "closes"
    question = f"“{found.name}” {shuts}: what must be inside before it?"
    if found.opened is not None:
        key += " opened"
        question = (
            f"it came apart again: what should have been inside before “{found.name}”?"
        )
    inputs = [one.ref for one in (found.step, found.done, found.opened) if one]

    def take(draft: Draft, answer: str) -> None:
        _close(draft, found, answer, key)

    return Proposal(
        key=key,
        topic="step",
        about=first.ref,
        question=question,
        buys="the next build is asked for it by name before that closes",
        accepts=_ACCEPTS,
        inputs=tuple(inputs),
        take=take,
    )


def _close(draft: Draft, found: _Closing, answer: str, key: str) -> None:
    asked = _asks(answer)
    step = found.step or drafted_step(draft, found.name, found.done or found.opened)
    step = replace(
        step,
        closes=True,
        inside=(*step.inside, *asked["inside"]),
        tested=(*step.tested, *asked["tested"]),
        clean=(*step.clean, *asked["clean"]),
    )
    if found.process and found.process not in step.process and found.step is None:
        step = replace(step, process=(*step.process, found.process))
    if found.step is None:
        draft.add(step)
    else:
        draft.amend(step)
    for entry in (found.done, found.opened):
        if entry is not None and entry.step is None:
            draft.amend(replace(entry, step=step.ref))
    if not any(asked.values()):
        decline(draft, replace(_asking(found), key=key), "nothing has to be inside")


def _asks(answer: str) -> dict[str, tuple[str, ...]]:
    """Sort an answer into what must be inside, tested and clean.

    Raises:
        BadInput: it names nothing, or is a whole sentence.
    """
    found: dict[str, list[str]] = {"inside": [], "tested": [], "clean": []}
    pieces = [one.strip(" .") for one in _SPLIT.split(answer) if one.strip(" .")]
    sentence = any(len(piece.split()) > _LONGEST_THING for piece in pieces)
    if not pieces or sentence or is_yes(answer):
        raise not_accepted("what must be inside", answer, _ACCEPTS)
    for piece in pieces:
        if folded(piece) in _NOTHING:
            continue
        if _TESTED.search(piece):
            found["tested"].append(re.sub(r"(?i)\s+tested$", "", piece))
        elif _CLEAN.search(piece):
            found["clean"].append(re.sub(r"(?i)\s+clean(ed)?$", "", piece))
        else:
            found["inside"].append(_TRIM.sub("", _TRIM.sub("", piece)))
    return {kind: tuple(names) for kind, names in found.items()}
