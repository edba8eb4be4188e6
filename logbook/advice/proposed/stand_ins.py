"""What was tried instead of a thing on the parts list, for the line of that thing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Line, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Decision
from logbook.records.making.drafts import Draft
from logbook.records.together.likeness import stems
from logbook.records.together.names import folded
from logbook.records.together.references import is_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot

_INSTEAD = re.compile(
    r"(?i)^(?:(?:we\s+)?decided to\s+|let's\s+|from now on\s*,?\s+)?"
    r"(?:(?:used?|using|took|take|fitted|fit|going with|went with|go with)\s+)?"
    r"(?P<what>.+?)(?:\s+(?:was|were|is|are))?(?:\s+(?:used|taken|fitted))?\s+"
    r"(?:for the (?P<of>[\w -]+?)\s+)?instead of\b"
)
_THREAD = re.compile(r"(?i)\bM\d+(?:[.,]\d+)?(?:\s*[x×]\s*\d+)?")
"""A fastener given up, as M3 or M3x6."""
_SENTENCE = re.compile(
    r"(?i)\b(?:is|are|was|were|will|has|have|gets?|make|made|cut|from now on|not|"
    r"decided|we|i|it|so|because)\b"
)
"""Words of a sentence: what stands in is a thing, named by a few words alone."""
_LONGEST = 7
"""Words by which a thing that stands in is named at most."""
_CAME = "what came of it, as “works” or “works with M4x20”"


def substitutes(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what was taken instead to the line it takes the place of.

    That is the fastener given up, where it is one; else the part told of.
    """
    for decision in snapshot.all(Decision):
        part = snapshot.find(decision.part, Part)
        found = _INSTEAD.match(decision.title)
        if found is None:
            continue
        what, rest = found["what"], decision.title[found.end() :]
        if thread := _THREAD.search(rest):
            lines = _fasteners(snapshot, thread.group(), decision.title, part)
        else:
            lines = lines_of(snapshot, part) if part else []
        if len(lines) != 1:
            continue
        if thread is None and part is not None:
            if _stands_by(decision.title, part):
                continue
            what = re.sub(rf"(?i)\s*\b{re.escape(part.title)}$", "", what).strip()
            if found["of"] and not _replaces(rest, part, lines[0]):
                continue
        known = [folded(words.rpartition(": ")[0] or words) for words in
                 lines[0].substitutes]  # fmt: skip
        if _is_thing(what) and folded(what) not in known:
            of = lines[0].title if thread or part is None else part.title
            yield _substitute(decision, of, lines[0], what)


def _fasteners(
    snapshot: Snapshot, thread: str, words: str, part: Part | None
) -> list[Line]:
    """Give the lines of a thread that words may mean: at the part, and called so.

    What the list says is not needed any more is not meant.
    """
    sized = re.compile(rf"(?i)\b{re.escape(thread)}(?![\d.,]\d|\d)")
    found = [
        one
        for one in snapshot.all(Line)
        if one.quantity and sized.search(f"{one.title} {one.bought_as}")
    ]
    steps = [
        step
        for step in snapshot.all(Step)
        if part and not is_withdrawn(snapshot, step)
        if any(is_of(ref, part) for ref in step.uses)
    ]
    used = [snapshot.find(ref) for step in steps for ref in step.uses]
    for few in (
        [one for one in found if _is_used(snapshot, one, used)],
        [one for one in found if stems(words) & stems(one.title)],
        [
            one
            for one in found
            if _is_used(snapshot, one, used) and stems(words) & stems(one.title)
        ],
        found,
    ):
        if len(few) == 1:
            return few
    return []


def _is_used(snapshot: Snapshot, line: Line, used: Sequence[object]) -> bool:
    return any(one is line or one is snapshot.find(line.part) for one in used if one)


def _is_thing(words: str) -> bool:
    """Tell whether words name a thing, and are no sentence of what was done."""
    few = 0 < len(words.split()) <= _LONGEST
    return few and words.casefold() != "it" and not _SENTENCE.search(words)


def _replaces(rest: str, part: Part, line: Line) -> bool:
    """Tell whether what was given up is the part, its material or a size of it.

    Black plate for the lid instead of paint takes no lid's place.
    """
    own = f"{part.title} {part.material} {line.bought_as}"
    return bool(re.search(r"\d", rest) or stems(rest) & stems(own))


def _stands_by(title: str, part: Part) -> bool:
    """Tell whether a part only says where: an 8 mm spacer under the lamp."""
    near = r"\b(?:under|below|behind|beside|between|next to|above|over)\s+(?:the\s+)?"
    return re.search(f"(?i){near}{re.escape(part.title)}", title) is not None


def _substitute(decision: Decision, of: str, line: Line, what: str) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        came = "works" if is_yes(answer) else answer.strip()
        if not came:
            raise not_accepted("what came of it", answer, _CAME)
        new = f"{what}: {came}"
        draft.amend(replace(line, substitutes=(*line.substitutes, new)))

    return Proposal(
        key=f"instead {decision.id}",
        topic="list",
        about=decision.ref,
        question=f"can {what} stand in for the {of}? what came of it?",
        buys="the parts list names it with what came of trying it",
        accepts=_CAME,
        inputs=(decision.ref, line.ref),
        take=take,
    )
