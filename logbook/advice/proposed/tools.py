"""Tools that an entry says were needed, for the step they were needed in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import part_told, parts_in, step_for
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note, StepDone
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_NEEDED = re.compile(
    r"(?i)\b(?:needs?|needed|takes|took)\s+(?P<what>.+?)"
    r"(?:\s+(?:for|to|on)\s+.*|\s+in\s+.*|\s*[,;]\s.*|\s*[.,;])?$"
)
_MUST_BE = re.compile(
    r"(?i)^(?:the\s+)?(?P<tool>[^,;]+?)\s+(?:must|has to|have to|should)\s+be\s+"
    r"(?P<size>(?:at least\s+)?\d[^,;]*?)(?:\s+for\b.*)?$"
)
_TOOL = re.compile(
    r"(?i)\b(?:tool|tools|key|wrench|spanner|driver|screwdriver|drill|bit|saw|clamps?|"
    r"jig|pliers|iron|tap|reamer|vice|press|punch|gauge|caliper|torch|brake|folder|"
    r"shears?|lathe|mill|router|printer|laser|cutter|extractor|oven|table|bench|"
    r"grinder|sander)"
    r"(?:\s+(?:of\s+|at least\s+)?\d[\d.,]*\s*(?:mm|cm|m|in|\")?"
    r"(?:\s+(?:wide|long|deep|high|or more|at least))?)?$"
)
_FOR = re.compile(r"(?i)\bfor\s+(?:the\s+)?(?P<part>[^,.;]+?)\s*(?:[,.;].*)?$")
_SPLIT = re.compile(r"\s*,\s*(?:and\s+)?|\s+and\s+")
_ACCEPTS = "“yes”, or the tools by name"


def tools(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose tools to the one step that takes or makes the part they were for."""
    told: tuple[Note | StepDone, ...] = (*snapshot.all(Note), *snapshot.all(StepDone))
    for entry in told:
        part = _meant(snapshot, entry)
        named = _named(entry.title)
        if part is None or not named:
            continue
        step = step_for(snapshot, part, entry.title)
        if step is not None:
            known = {folded(tool) for tool in step.tools}
            missing = tuple(one for one in named if folded(one) not in known)
            if missing:
                yield _proposal(entry, step, missing)


def _meant(snapshot: Snapshot, entry: Note | StepDone) -> Part | None:
    """Give the part they were needed for; a rivet tool is not about the rivets."""
    for_what = _FOR.search(entry.title)
    parts = parts_in(snapshot, for_what["part"]) if for_what else []
    return parts[0] if len(parts) == 1 else part_told(snapshot, entry)


def _named(title: str) -> tuple[str, ...]:
    if must := _MUST_BE.match(title):
        tool = must["tool"].removesuffix(" bed").removesuffix(" table")
        return (f"{must['tool']} {must['size']}",) if _TOOL.search(tool) else ()
    found = _NEEDED.search(title)
    if found is None:
        return ()
    pieces = [re.sub(r"(?i)^(?:a|an|the)\s+", "", one.strip()) for one in
              _SPLIT.split(found["what"])]  # fmt: skip
    return tuple(one for one in pieces if _TOOL.search(one))


def _proposal(entry: Note | StepDone, step: Step, named: tuple[str, ...]) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        said = [one.strip() for one in _SPLIT.split(answer) if one.strip()]
        if not said:
            raise not_accepted("tools", answer, _ACCEPTS)
        more = named if is_yes(answer) else tuple(said)
        draft.amend(replace(step, tools=tuple(dict.fromkeys((*step.tools, *more)))))

    return Proposal(
        key=f"tools {entry.id}",
        topic="step",
        about=entry.ref,
        question=f"does “{step.title}” need {' and '.join(named)}?",
        buys="the guide lists the tools before anybody starts",
        accepts=_ACCEPTS,
        inputs=(entry.ref, step.ref),
        take=take,
    )
