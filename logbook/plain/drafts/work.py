"""Records of work: steps done, joints, orders, counts."""

from __future__ import annotations

import re
from dataclasses import replace

from logbook.plain.drafts.drafting import (
    draft_note,
    make_entry,
    next_of,
    part_ref,
    piece_of,
)
from logbook.plain.drafts.opened_so import names_what_held, opened_so
from logbook.plain.drafts.order_of_work import (
    brought_to_size,
    step_apart,
    step_meant,
)
from logbook.plain.drafts.sizes import UNNAMED, draft_run, is_dimension, sized
from logbook.plain.sure.coverage import recorded_as
from logbook.plain.told.counted import LEFT_OVER
from logbook.plain.understanding import Kind, Understanding
from logbook.plain.understanding import Reading as Said
from logbook.records.kinds import assembling
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Count, Order, StepDone
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.made_on import machine_told
from logbook.records.making.one_more import makes_one_more


def draft_step(draft: Draft, line: Understanding) -> Draft:
    """Log work done, as a step of the order of work where one is meant."""
    if names_what_held(line):
        line = _opened(draft, line)
    facts = line.facts
    steps = draft.snapshot.named(facts.step, assembling.Step) if facts.step else ()
    step = steps[0] if len(steps) == 1 else None
    part = part_ref(draft, facts)
    apart = step_apart(draft, line.line, part, told=facts.undone) if not step else None
    if step is None:
        step = apart or (None if facts.undone else step_meant(draft, line.line, part))
    undone = facts.undone or apart is not None
    if apart is not None:
        draft.remarks.append(f"“{apart.title}” is taken apart again")
    made = facts.part and not facts.inside
    told = made and (facts.readings or facts.piece)
    piece = None
    if made and not undone and (to := _made_to(draft, line)) is not None:
        piece = to
    elif made and not facts.piece and makes_one_more(line.line, facts.part):
        piece = draft.next_piece(draft.part(facts.part))
    elif told:
        piece = piece_of(draft, facts)
    if made and piece is None and not undone and _made_whole(line.line, facts.part):
        piece = draft.piece(draft.part(facts.part))
    if made and not undone:
        piece = _on_machine(draft, line, piece)
    named = tuple(one for one in facts.readings if _is_read(draft, line, one))
    if piece is not None and named:
        measured = replace(line, facts=replace(facts, readings=named))
        draft_run(draft, measured, piece)
    make_entry(
        draft,
        StepDone,
        line,
        step=step.ref if step else None,
        part=part_ref(draft, facts) or (step.makes if step else None),
        piece=piece.ref if piece else None,
        time=facts.minutes or facts.hours,
        set_to=tuple(reading.value for reading in facts.readings),
        closes=facts.closes or bool(step and step.closes),
        inside=(facts.part,) if facts.inside and facts.part else (),
        undone=undone,
    )
    return draft


def _opened(draft: Draft, line: Understanding) -> Understanding:
    """Log what came apart by its fastening; give the line, of the part worked on then.

    That was not taken apart, and is asked for nothing that should have been inside.
    """
    found = opened_so(draft, line)
    if found is None:
        return line
    draft.remarks.append(f"“{found.title}” is taken apart again")
    if not line.facts.part:
        step, part = found.step, found.part
        told = replace(
            line.facts,
            step=step.name if step else "",
            part=part.name if part and not step else "",
        )
        return replace(line, facts=told)
    make_entry(
        draft, StepDone, line, step=found.step, part=found.part,
        closes=found.closes, undone=True,
    )  # fmt: skip
    return replace(line, line=found.then, facts=replace(line.facts, undone=False))


def _on_machine(draft: Draft, line: Understanding, piece: Piece | None) -> Piece | None:
    """Give the piece with the machine a line says it was made on, made if missing.

    A piece that has its machine on record keeps it.
    """
    part = draft.part(line.facts.part)
    machine = machine_told(draft.snapshot, line.line, part)
    if machine is None:
        return piece
    piece = piece or piece_of(draft, line.facts)
    if piece is None or piece.machine is not None:
        return piece
    draft.remarks.append(f"{piece.title} made on {machine.title}")
    return draft.amend(replace(piece, machine=machine.ref))


def _made_to(draft: Draft, line: Understanding) -> Piece | None:
    """Give the piece of the revision that a line says it is made to, made if missing.

    None where it says none. What was only worked on stays what it is.
    """
    facts = line.facts
    part = draft.part(facts.part)
    said = {one.label: one for one in draft.revisions(part)}.get(facts.revision)
    if said is None or facts.piece:
        return None
    if makes_one_more(line.line, facts.part) or _ANEW.search(line.line):
        return next_of(draft, part, said)
    here = list(draft.pieces_here(part))
    own = [one for one in here if one.revision and one.revision.id == said.id]
    if own or not here or _MAKES.match(line.line):
        return own[0] if own else next_of(draft, part, said)
    return piece_of(draft, replace(facts, piece=here[0].title))


_ANEW = re.compile(r"(?i)\b(?:anew|afresh|from scratch)\b")
_MAKES = re.compile(
    r"(?i)\W*(?:(?:i|we)\s+)?(?:(?:re)?(?:made|printed|built|cut|cast|folded|sawn?|"
    r"turned|milled|lasered)|sawed|laser[- ]cut)\b"
)
"""Verbs a whole thing is made with, where it is made to a revision."""


def _made_whole(words: str, part: str) -> bool:
    """Tell “made the lid, 40 min” from “made the lid fit”, “made the lid slots”."""
    made = r"^(?:\W*(?:i|we)\s+)?(?:made|printed|built)\s+(?:the|a|an|one|my|our)\s+"
    ends = r"\s*(?:$|[,;.]|(?:from|in|out of|today|yesterday|now)\b)"
    name = r"\s+".join(map(re.escape, part.split()))
    return re.search(made + name + ends, words, re.IGNORECASE) is not None


def _is_read(draft: Draft, line: Understanding, said: Said) -> bool:
    """Tell whether a size of work done is a reading of what came out of it.

    It is where it is named, but a torque never: it was set. And “filed to 178.3” is
    where the part's one dimension is near. The newest reading counts, so a later
    finish puts it right.
    """
    if said.value.dimension == "torque":
        return False
    if said.what or not line.facts.part:
        return bool(said.what) and is_dimension(said.what)
    part = draft.part(line.facts.part)
    known = sized(draft, part, UNNAMED, said.value) != UNNAMED
    return known and brought_to_size(line.line)


def draft_joint(draft: Draft, line: Understanding) -> Draft:
    """Put a joint on record; without a screw that can be one it is work done."""
    facts = line.facts
    layers = tuple(Layer(part=draft.part(name).ref) for name in facts.layers)
    if recorded_as(line) is Kind.STEP:
        return draft_step(draft, line)
    draft.add(
        Joint(
            id=new_id(),
            title=line.line,
            fastener=facts.fastener,
            layers=layers,
            quantity=facts.quantity or 1,
            when=draft.when,
        )
    )
    return draft


def draft_order(draft: Draft, line: Understanding) -> Draft:
    """Log what was ordered, bought or sent out, each thing by itself.

    The first keeps the whole line; what all of it cost is told there only.
    """
    facts = line.facts
    make_entry(
        draft,
        Order,
        line,
        part=part_ref(draft, facts),
        item=facts.item,
        quantity=facts.quantity or 1,
        price=None if facts.besides else facts.price,  # what both cost says of neither
        due=facts.due,
    )
    for one in facts.besides:
        make_entry(
            draft,
            Order,
            line,
            title=f"{one.quantity or ''} {one.item or one.part}".strip(),
            part=draft.part(one.part).ref if one.part else None,
            item=one.item,
            quantity=one.quantity or 1,
            due=facts.due,
        )
    return draft


def draft_count(draft: Draft, line: Understanding) -> Draft:
    """Log how many of a part were really used, or are left over.

    The last count of a build is what counts, so it says again what was counted before.
    """
    facts = line.facts
    if recorded_as(line) is not Kind.COUNT:
        return draft_note(draft, line)
    part = draft.part(facts.counted or facts.part)
    before = counted_before(draft, part)
    used, spare = (before.used, before.spare) if before else (0, 0)
    scrapped = before.scrapped if before else 0
    if facts.counted_as == LEFT_OVER:
        spare = facts.quantity or 0
    else:
        used = facts.quantity or 0
    spare = spare if facts.left is None else facts.left
    make_entry(
        draft, Count, line, part=part.ref, used=used, scrapped=scrapped, spare=spare
    )
    if before is not None:
        draft.remarks.append(
            f"counted in all by now: {used} used, {scrapped} scrapped, {spare} left "
            f"over (before it {before.used}, {before.scrapped}, {before.spare})"
        )
    return draft


def counted_before(draft: Draft, part: Part) -> Count | None:
    """Give the last count of a part in this build."""
    build = draft.build()
    mine = [
        count
        for count in draft.snapshot.mentions(part, Count)
        if draft.snapshot.find(count.part) is part
        and draft.snapshot.find(count.build) in (None, build)
    ]
    return mine[-1] if mine else None
