"""Which step of the order of work an act is: the open one of its part and its verb.

The families of verbs stand in the word file under `[acts]`: who folds, bends. Where
several open steps could be meant, or none, the act stands by itself.
"""

from __future__ import annotations

import re
import shlex
from dataclasses import replace

from logbook.plain.drafts.put_on import put_on
from logbook.plain.words.lexicon import lexicon
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry, StepDone
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.doing import is_done
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot

_CLOSES, _APART = "close", "apart"
_NO_FAMILY = frozenset({"shape", "on", _APART})
_TO_SIZE = re.compile(r"(?i)\bto\s+(?:exactly\s+|about\s+)?[\d.,]")


def step_meant(draft: Draft, words: str, part: Ref | None) -> Step | None:
    """Give the one open step that these words, told of this part, carry out.

    What closes a part is the step that closes with it, and so is what says that it is
    put on; but not where both tell by what it is held, and not the same: riveted on is
    not screwed on.
    """
    act = _act(words)
    found = draft.snapshot.find(part, Part)
    on = found is not None and put_on(words, (found.title, *found.aliases))
    if found is None or not (act or on):
        return None
    build = draft.build()
    mine = [
        step
        for step in draft.snapshot.all(Step)
        if _concerns(step, found)
        and not is_done(draft.snapshot, step, build)
        and not is_withdrawn(draft.snapshot, step)
        and not _joined_otherwise(words, step)
    ]
    same = [step for step in mine if act and _act(step.title) == act]
    if not same and (on or act == _CLOSES):
        same = [step for step in mine if step.closes]
        # What goes in beside the lid is fitted, and the lid may still be off.
        same = same if act == _CLOSES else [s for s in same if _puts_on(s, found)]
    return same[0] if len(same) == 1 else None


def step_apart(
    draft: Draft, words: str, part: Ref | None, *, told: bool
) -> Step | None:
    """Give the one step done that these words, told of this part, take apart again.

    Where it is not `told` that it was, only what opens a part that a step has closed
    does so: the lid removed, or drilled off, and not burrs removed from it.
    """
    found = draft.snapshot.find(part, Part)
    if found is None or not (told or _opens(words, found)):
        return None
    build = draft.build()
    mine = [
        step
        for step in draft.snapshot.all(Step)
        if _concerns(step, found)
        and is_done(draft.snapshot, step, build)
        and not _joined_otherwise(words, step)
    ]
    closed = [step for step in mine if step.closes]
    meant = closed or (mine if told else [])
    return meant[0] if len(meant) == 1 else None


def _opens(words: str, part: Part) -> bool:
    """Tell whether a part itself is said to be removed, or taken off."""
    low = " ".join(re.findall(r"[a-z0-9]+", words.casefold()))
    for name in (part.title, *part.aliases):
        called = " ".join(re.findall(r"[a-z0-9]+", name.casefold()))
        found = re.search(rf"\b(\w+)(?: (?:the|its|my|this|that))? {called}\b", low)
        opened = found and found[1] in lexicon().acts[_APART]
        if found and (opened or low[found.end() :][:4] == " off"):
            return True
    return False


def tied_in(snapshot: Snapshot, entry: Entry, build: Build | None) -> Entry:
    """Give an entry that came to another build, with the step it carries out there.

    Work that was none of its old build's open steps may be one of those of this.
    """
    if not isinstance(entry, StepDone) or entry.step or entry.undone or build is None:
        return entry
    step = step_meant(Draft(snapshot, entry.when, build), entry.title, entry.part)
    if step is None:
        return entry
    return replace(entry, step=step.ref, closes=entry.closes or step.closes)


def logged_before(
    snapshot: Snapshot, step: Step, build: Build | None
) -> StepDone | None:
    """Give the newest entry of a build that may have been a step written after it.

    It is of no step yet, and tells it as work is told.
    """
    for entry in reversed(snapshot.all(StepDone)):
        here = build is not None and snapshot.find(entry.build, Build) is build
        tied = tied_in(snapshot, entry, build) if here else entry
        if not isinstance(tied, StepDone) or tied is entry:
            continue
        if snapshot.find(tied.step) is snapshot.find(step.ref):
            return entry
    return None


def done_before(snapshot: Snapshot, step: Step, build: Build | None) -> str:
    """Ask of the entry logged before a step whether it was that; empty where none is.

    The line that logs the step as done then is named: the entry stays as it was typed.
    """
    entry = logged_before(snapshot, step, build)
    if entry is None:
        return ""
    return (
        f"“{entry.title}” was logged before this step was written, and is of "
        f"none; if it was this one: logbook step "
        f"{shlex.quote(step.title)} --done --when {entry.when:%Y-%m-%dT%H:%M}"
    )


def tied_words(entry: Entry, before: Entry) -> str:
    """Say which step an entry is now that was none before; empty where it is none."""
    step, was = getattr(entry, "step", None), getattr(before, "step", None)
    return f"; step: {step.name}" if isinstance(step, Ref) and was is None else ""


def brought_to_size(words: str) -> bool:
    """Tell whether a size is told as what came out: filed to 178.3, not sawed at."""
    low = re.findall(r"[a-z]+", words.casefold())
    shapes = any(word in lexicon().acts["shape"] for word in low)
    return shapes and bool(_TO_SIZE.search(words))


def _act(words: str) -> str:
    """Give the family of the first verb that has one."""
    acts = lexicon().acts.items()
    families = {name: held for name, held in acts if name not in _NO_FAMILY}
    for word in re.findall(r"[a-z]+", words.casefold()):
        for name, held in families.items():
            if word in held:
                return name
    return ""


_JOINS = re.compile(
    r"(?i)\b(?:(?P<rivet>rivet)|(?P<screw>screw|bolt)|(?P<weld>weld)|(?P<solder>solder)"
    r"|(?P<glue>glu(?:e|ing)|bond|epox|cement|silicone)|(?P<tape>tap(?:e|ed|ing)\b)"
    r"|(?P<nail>nail|staple)|(?P<clip>clip|snap))"
)
"""The first words that tell by what a thing is held to another."""


def _joined_otherwise(words: str, step: Step) -> bool:
    """Tell whether words say that it is held by something else than a step says."""
    told, titled = joined_by(words), joined_by(step.title)
    return bool(told and titled and told != titled)


def joined_by(words: str) -> str:
    """Give by what words say that a thing is held: rivet, screw, glue; or nothing."""
    found = _JOINS.search(words)
    return (found.lastgroup or "") if found else ""


def _puts_on(step: Step, part: Part) -> bool:
    """Tell whether a step is about a part: by its title, or as what it takes first."""
    first = next(iter(step.uses), None)
    if first is not None and first.id == part.id:
        return True
    return any(
        re.search(rf"\b{re.escape(name.casefold())}\b", step.title.casefold())
        for name in (part.title, *part.aliases)
    )


def _concerns(step: Step, part: Part) -> bool:
    """Tell whether a step makes a part, takes it, or names it."""
    refs = [ref for ref in (step.makes, *step.uses) if ref]
    names = {name.casefold() for name in (part.title, *part.aliases)}
    if any(ref.id == part.id or ref.name.casefold() in names for ref in refs):
        return True
    title = f" {step.title.casefold()} "
    return any(re.search(rf"\b{re.escape(name)}\b", title) for name in names if name)
