"""What belongs into the parts list: how many there are, what stock really is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of, parts_in
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Count, Decision, Entry, Note
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Stock
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_NUMBER = "“yes”, or the number one build takes"
_MATTERS = "what follows from it, as “cut the slots to the board”; or “nothing”"


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
