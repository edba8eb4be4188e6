"""Gaps worth proposing: likely mates that no gap on record speaks of."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.pieces.mates import Pair, Side, mates, words_of
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import Ref, formula_name
from logbook.records.making.drafts import Draft
from logbook.records.making.gaps import stated_gap
from logbook.records.sizes.limits import Drawn, parse_drawn
from logbook.records.together.snapshot import Snapshot

_LAST = re.compile(r"(?i)[,;]?\s*(?:\bthe\s+)?(\S+)?\s*\b(?:is\s+)?(?:made|cut)\s+last")
_ACCEPTS = "the room, as 0.1 to 0.5; and what is made last, as “0.1 to 0.5, made last”"


def gaps(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose a gap for each likely mate that no gap speaks of yet."""
    taken = _taken(snapshot)
    for pair in mates(snapshot):
        parts = frozenset((pair.outer.part.id, pair.inner.part.id))
        if not any(parts <= both for both in taken):
            yield _proposal(pair, *_room_told(snapshot, pair))


def _taken(snapshot: Snapshot) -> list[frozenset[str]]:
    """Give the parts each gap on record speaks of."""
    by_name = {_name(part): part.id for part in snapshot.all(Part)}
    return [
        frozenset(
            by_name.get(name, "")
            for name in re.findall(r"([a-z][a-z0-9_]*)(?:@\w+)?\.", fit.formula)
        )
        for fit in snapshot.all(Fit)
    ]


def _name(record: Part | Characteristic) -> str:
    return record.name or formula_name(record.title)


_RANGE = re.compile(
    r"(?<![\d.,])\d*[.,]?\d+\s*(?:mm|in)?\s*(?:to|-|–|…|\.\.)\s*"
    r"\d*[.,]?\d+(?:\s*(?:mm|in)\b)?"
)


def _room_told(snapshot: Snapshot, pair: Pair) -> tuple[str, tuple[Ref, ...]]:
    """Give the room that a note of both parts tells, goes in, 0.2 to 0.6, and where."""
    both = {pair.outer.part.id, pair.inner.part.id}
    for note in reversed(snapshot.mentions(pair.inner.part, Note)):
        named = {ref.id for ref in (note.part, *note.about) if ref is not None}
        told = _RANGE.search(note.title)
        if told is None or not both <= named:
            continue
        try:
            size = parse_drawn(told[0], snapshot.project.unit)
        except BadInput:
            continue
        if size.lower is not None and size.upper is not None:
            return told[0], (note.ref,)
    return "", ()


# -- asking and taking ---------------------------------------------------------------


def _proposal(pair: Pair, told: str, told_in: tuple[Ref, ...]) -> Proposal:
    outer, inner = pair.outer, pair.inner
    room = f"with the room told, {told}" if told else "with how much room"

    def take(draft: Draft, answer: str) -> None:
        _take(draft, pair, told if told and is_yes(answer) else answer)

    return Proposal(
        key=f"gap {pair.key}",
        topic="gap",
        about=inner.part.ref,
        question=(
            f"does the {inner.part.title} go into the {outer.part.title}'s "
            f"{outer.what.title}? {room}?"
        ),
        buys=f"the {inner.part.title} gets a size to make it to, and its chance",
        accepts=f"“yes”, or {_ACCEPTS}" if told else _ACCEPTS,
        inputs=(outer.what.ref, inner.what.ref, *told_in),
        take=take,
    )


def _take(draft: Draft, pair: Pair, answer: str) -> None:
    wanted, last = _answer(draft, pair, answer)
    inner, outer = (
        f"{_name(s.part)}.{_name(s.what)}" for s in (pair.inner, pair.outer)
    )
    title = f"{pair.inner.part.title} in the {pair.outer.part.title}'s "
    title += pair.outer.what.title
    suited = ""
    if last is not None:
        suited = inner if last is pair.inner else outer
    draft.add(stated_gap(draft, title, f"{outer} - {inner}", wanted, suited))


def _answer(draft: Draft, pair: Pair, answer: str) -> tuple[Drawn | None, Side | None]:
    """Read “0.1 to 0.5, made last”: the limits, and which side is made last."""
    last = None
    text = answer.strip()
    if match := _LAST.search(text):
        other = (match[1] or "").casefold().strip(",;")
        rest = match[1] or ""
        last = pair.inner
        if other in words_of(pair.outer.part.title):
            last, rest = pair.outer, ""
        elif other in words_of(pair.inner.part.title) or other in {"it", "bar"}:
            rest = ""
        text = f"{text[: match.start()]} {rest}{text[match.end() :]}".strip(" ,;")
    if not text or is_yes(text):
        return None, last
    try:
        wanted = parse_drawn(text, draft.snapshot.project.unit)
    except BadInput as wrong:
        raise not_accepted("the room", answer, _ACCEPTS) from wrong
    if wanted.lower is None or wanted.upper is None:
        raise not_accepted("the room", answer, _ACCEPTS)
    return wanted, last
