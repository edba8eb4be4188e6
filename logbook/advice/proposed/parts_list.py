"""What belongs into the parts list: what was tried instead, what stock really is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of, parts_in
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.assembling import Line, Step
from logbook.records.design import Part
from logbook.records.happenings import Count, Decision, Entry, Note
from logbook.records.likeness import stems
from logbook.records.making import Draft
from logbook.records.references import is_of
from logbook.records.revisions import is_withdrawn
from logbook.records.snapshot import Snapshot, folded
from logbook.records.words import Source
from logbook.records.workshop import Stock

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
_NUMBER = "“yes”, or the number one build takes"
_MATTERS = "what follows from it, as “cut the slots to the board”; or “nothing”"


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


def counted(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the number that was counted to the line that lists another."""
    newest = {one.part.id: one for one in snapshot.all(Count) if one.used > 0}
    for count in newest.values():
        part = snapshot.find(count.part, Part)
        lines = lines_of(snapshot, part) if part else []
        if part is not None and len(lines) == 1 and lines[0].quantity != count.used:
            yield _count(count, part, lines[0])


def _count(count: Count, part: Part, line: Line) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        number = str(count.used) if is_yes(answer) else answer.strip()
        if not number.isdecimal():
            raise not_accepted("the number", answer, _NUMBER)
        draft.amend(replace(line, quantity=int(number)))

    return Proposal(
        key=f"count {count.id}",
        topic="list",
        about=count.ref,
        question=(
            f"{count.used} × {part.title} went in, the list says {line.quantity}: "
            f"is {count.used} right for everybody?"
        ),
        buys="the parts list says what one build takes",
        accepts=_NUMBER,
        inputs=(count.ref, line.ref),
        take=take,
    )


_NOT_NEEDED = re.compile(
    r"(?i)\bno\s+(?P<what>.+?)\s+(?:is |are |was |were )?(?:needed|required)\b|"
    r"^(?P<other>.+?)\s+(?:is|are|was|were)\s+(?:not|no longer)\s+(?:needed|required)\b"
)


def not_needed(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose that nobody needs what was said not to be needed, where it is listed."""
    told: tuple[Entry, ...] = (*snapshot.all(Note), *snapshot.all(Decision))
    for entry in told:
        found = _NOT_NEEDED.search(entry.title)
        named = parts_in(snapshot, found["what"] or found["other"]) if found else []
        lines = lines_of(snapshot, named[0]) if len(named) == 1 else []
        if len(lines) == 1 and lines[0].quantity > 0:
            yield _none(entry, named[0], lines[0])


def _none(entry: Entry, part: Part, line: Line) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        why = entry.title if is_yes(answer) else answer.strip()
        draft.amend(replace(line, quantity=0, spare=0, bought_as=why))

    return Proposal(
        key=f"not needed {entry.id}",
        topic="list",
        about=entry.ref,
        question=f"does nobody need the {part.title} any more? why, or “yes”",
        buys="the parts list has it among what is not needed, so that nobody buys it",
        accepts="“yes”, or why, as “replaced by rivet nuts”",
        inputs=(entry.ref, line.ref),
        take=take,
    )


def stock_as_it_is(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose to say what follows where stock measures another size than sold."""
    for stock in snapshot.all(Stock):
        if stock.measured is None or stock.bought_as is None:
            continue
        if stock.measured.dimension != stock.bought_as.dimension:
            continue
        if stock.measured.to("mm") == stock.bought_as.to("mm"):
            continue
        parts = [one for one in snapshot.all(Part) if _made_of(one, stock)]
        lines = lines_of(snapshot, parts[0]) if len(parts) == 1 else []
        if len(lines) == 1 and not lines[0].critical and parts[0].stock is None:
            yield _stock(stock, parts[0], lines[0])


def _made_of(part: Part, stock: Stock) -> bool:
    """Tell whether a part's drawn thickness and material are those of a stock."""
    if part.source is Source.BOUGHT or part.thickness is None:
        return False
    bought = stock.bought_as
    if bought is None or part.thickness.dimension != bought.dimension:
        return False
    if part.thickness.to("mm") != bought.to("mm"):
        return False
    words = set(
        re.findall(r"[^\W\d_]{3,}", f"{stock.title} {stock.material}".casefold())
    )
    mine = set(re.findall(r"[^\W\d_]{3,}", f"{part.title} {part.material}".casefold()))
    return bool(words & mine)


def _stock(stock: Stock, part: Part, line: Line) -> Proposal:
    said = f"sold as {stock.bought_as}, measured {stock.measured}"

    def take(draft: Draft, answer: str) -> None:
        if is_yes(answer) or not answer.strip():
            raise not_accepted("what follows", answer, _MATTERS)
        free = answer.strip().casefold() == "nothing"
        words = f"{said}; either will do" if free else f"{said}: {answer.strip()}"
        draft.amend(replace(part, stock=stock.ref))
        draft.amend(replace(line, critical=words))

    return Proposal(
        key=f"stock {stock.id} {part.id}",
        topic="list",
        about=stock.ref,
        question=f"the {stock.title} was {said}: what follows for the {part.title}?",
        buys="the parts list says which thickness the design can take",
        accepts=_MATTERS,
        inputs=(stock.ref, part.ref, line.ref),
        take=take,
    )
