"""Steps worth drafting from what was done: what closes first, then the order of work.

Gluing, riveting, soldering and welding cannot be undone; what came apart again
with force shows it. Such a step asks once what should have been inside, and is
held from the next build on.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.advice.proposal import Proposal, decline, is_yes, not_accepted
from logbook.records.ids import Ref, new_id
from logbook.records.making import Draft
from logbook.records.model import Build, Part, Step, StepDone
from logbook.records.snapshot import Snapshot, folded

ENOUGH = 3
"""Operations of one build from which on an order of work is worth proposing."""

_CLOSING = re.compile(
    r"(?i)\b(?:(glu)(?:e|ed|ing)|(rivet)(?:ed|ted|ing|ting)?|(solder)(?:ed|ing)?|"
    r"(weld)(?:ed|ing)?|(braz)(?:e|ed|ing))\b(?!\s*(?:nut|joint|line|gun|iron|tool))"
)
_PROCESS = {
    "glu": "gluing", "rivet": "riveting", "solder": "soldering", "weld": "welding",
    "braz": "brazing",
}  # fmt: skip
_BY_PAST = {
    "glued": "glue", "riveted": "rivet", "rivetted": "rivet", "soldered": "solder",
    "welded": "weld", "brazed": "braze", "drilled": "drill", "sawed": "saw",
    "sawn": "saw", "filed": "file", "folded": "fold", "bent": "bend",
    "screwed": "screw", "bolted": "bolt", "fitted": "fit", "printed": "print",
    "sanded": "sand", "painted": "paint", "pressed": "press", "tapped": "tap",
    "mounted": "mount", "put": "put", "cut": "cut", "milled": "mill",
    "turned": "turn", "crimped": "crimp", "wired": "wire", "deburred": "deburr",
    "oiled": "oil", "cleaned": "clean", "marked": "mark", "clamped": "clamp",
    "reamed": "ream", "countersunk": "countersink", "tightened": "tighten",
    "installed": "install", "assembled": "assemble", "planed": "plane",
    "routed": "route", "sealed": "seal", "taped": "tape", "ran": "run",
}  # fmt: skip
_TAIL = re.compile(
    r"\s+(?:(?:down\s+)?(?:to|at)\s+[\d.,].*|and\s+(?:it|they|now)\b.*|again\b.*|"
    r"(?:today|yesterday|tonight)\b.*|(?:took|in)\s+\d.*)$|\s*[,;:(].*$|\.\s.*$"
)
_AGAIN = re.compile(r"(?i)\b(?:again|apart|open(?:ed)?|rivets?|glue|unglued)\b")
"""Words that tell opening something again from drilling a hole out."""
_SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_NOTHING = frozenset({"nothing", "none", "nothing at all"})
_TESTED = re.compile(r"(?i)\b(?:tested|works?|lights?|runs?|checked)\b")
_CLEAN = re.compile(r"(?i)\b(?:clean(?:ed)?|dry|degreased)\b")
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
        process = _process(done.title)
        closes = done.closes or bool(process) or bool(step and step.closes)
        if done.undone or not closes:
            continue
        name = step.title if step else imperative(done.title)
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
        if not _AGAIN.search(later.title):
            continue
        if not any(
            not one.undone and one.part == later.part and one.when <= later.when
            for one in everything
        ):
            step = _closing_step(snapshot, part)
            name = step.title if step else f"close the {part.title}"
            yield _Closing(name, step, None, later, "")


def _closing_step(snapshot: Snapshot, part: Part) -> Step | None:
    """Give the one step that closes with a part, None where none or several do."""
    found = [
        step
        for step in snapshot.all(Step)
        if step.closes
        and any(ref.id == part.id for ref in (*step.uses, step.makes) if ref)
    ]
    return found[0] if len(found) == 1 else None


def _process(title: str) -> str:
    found = _CLOSING.search(title)
    return _PROCESS[next(filter(None, found.groups())).casefold()] if found else ""


def _asking(found: _Closing) -> Proposal:
    first = found.step or found.done or found.opened
    assert first is not None
    key = f"inside {(found.done or found.opened or first).id}"
    question = f"“{found.name}” cannot be undone: what must be inside before it?"
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
    step = found.step or _drafted(draft, found.name, found.done or found.opened)
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
        BadInput: it names nothing.
    """
    found: dict[str, list[str]] = {"inside": [], "tested": [], "clean": []}
    pieces = [one.strip(" .") for one in _SPLIT.split(answer) if one.strip(" .")]
    if not pieces or is_yes(answer):
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


# -- the order of work ---------------------------------------------------------------


def order_of_work(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the operations of a build, in the order they were done, as steps."""
    loose: dict[str, list[StepDone]] = defaultdict(list)
    for done in snapshot.all(StepDone):
        if done.step is None and not done.undone and _names_work(done):
            loose[done.build.id if done.build else ""].append(done)
    for build, entries in loose.items():
        if len({folded(imperative(one.title)) for one in entries}) >= ENOUGH:
            yield _ordering(snapshot, build, entries)


def _names_work(done: StepDone) -> bool:
    """Tell whether an entry begins with what was done, so that a step can say it."""
    return done.title.split(maxsplit=1)[0].casefold() in _BY_PAST


def _ordering(snapshot: Snapshot, build: str, entries: Sequence[StepDone]) -> Proposal:
    stored = snapshot.stored.get(build)
    held = stored.record if stored else None
    of = f" of {held.title}" if isinstance(held, Build) else ""
    names = list(dict.fromkeys(imperative(one.title) for one in entries))
    shown = ", ".join(names[:3]) + (" …" if len(names) > 3 else "")
    accepts = "“yes”"

    def take(draft: Draft, answer: str) -> None:
        if not is_yes(answer):
            raise not_accepted("the order of work", answer, accepts)
        _put_in_order(draft, entries)

    return Proposal(
        key=f"order {entries[0].id}",
        topic="step",
        about=entries[0].ref,
        question=f"make the work{of} the order of work, as it was done: {shown}?",
        buys="the guide gets these steps, to be put right instead of written",
        accepts=accepts,
        inputs=tuple(one.ref for one in entries),
        take=take,
    )


def _put_in_order(draft: Draft, entries: Sequence[StepDone]) -> None:
    before: Ref | None = None
    made: dict[str, Step] = {}
    for done in entries:
        name = imperative(done.title)
        step = made.get(folded(name))
        if step is None:
            known = draft.snapshot.named(name, Step)
            step = known[0] if known else draft.add(_drafted(draft, name, done, before))
            made[folded(name)] = step
        draft.amend(replace(done, step=step.ref))
        before = step.ref


def _drafted(
    draft: Draft, name: str, done: StepDone | None, before: Ref | None = None
) -> Step:
    """Give a step for something done, at the end of the order of work."""
    numbers = [step.number for step in draft.snapshot.all(Step)]
    numbers += [one.number for one in draft.new if isinstance(one, Step)]
    takes = tuple(ref for ref in (done.part, *done.about) if ref) if done else ()
    process = _process(done.title) if done else ""
    before = before or _done_before(draft.snapshot, done)
    return Step(
        id=new_id(),
        title=name,
        when=draft.when,
        number=max(numbers, default=0) + 1,
        uses=tuple(dict.fromkeys(takes)),
        after=(before,) if before else (),
        closes=bool(done and (done.closes or process) and not done.undone),
        process=(process,) if process else (),
        time=done.time if done else None,
    )


def _done_before(snapshot: Snapshot, done: StepDone | None) -> Ref | None:
    """Give the step carried out last before this, on the same build."""
    if done is None:
        return None
    found = None
    for one in snapshot.all(StepDone):
        earlier = (one.when, one.id) < (done.when, done.id)
        if one.step and earlier and one.build == done.build and not one.undone:
            found = one.step
    return found


def imperative(title: str) -> str:
    """Turn “glued the channel shut, took an hour” into “glue the channel shut”."""
    short = _TAIL.sub("", title.strip())
    first, _, rest = short.partition(" ")
    word = _BY_PAST.get(first.casefold())
    return f"{word} {rest}".strip() if word else short
