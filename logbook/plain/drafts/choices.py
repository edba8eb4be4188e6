"""Records of what was chosen: decisions, revisions, what is done with a piece."""

from __future__ import annotations

import re
from dataclasses import replace

from logbook.plain.answers.by_release import released_as
from logbook.plain.answers.known_faults import (
    Fault,
    answered_by,
    for_another_reason,
    named_singly,
    open_faults,
    reason_told,
    tells_of_failing,
    told,
)
from logbook.plain.drafts.drafting import (
    blame_of,
    draft_note,
    make_entry,
    part_ref,
    piece_of,
)
from logbook.plain.drafts.sizes import UNNAMED, draft_readings, draft_run
from logbook.plain.sure.sizes_told import sizes_told, tells_which
from logbook.plain.understanding import Facts, Understanding
from logbook.plain.understanding import Reading as Said
from logbook.records.kinds import design
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Decision, Disposal, Failure, Status
from logbook.records.kinds.words import Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.going_on import go_on_by
from logbook.records.together.likeness import same_trouble
from logbook.records.together.references import part_of

_UNLABELLED = "new"
"""What a revision is called in a line that gives it no label."""


def draft_decision(draft: Draft, line: Understanding) -> Draft:
    """Log a decision with its reason; one about a piece is what is done with it."""
    facts = line.facts
    if facts.disposition and facts.part:
        # What is done with a piece is one fact; its reason stands in it.
        return _dispose(draft, line)
    release = released_as(draft.snapshot, facts.release) if facts.release else None
    if release is not None:
        go_on_by(draft, draft.build(), release)
    make_entry(
        draft,
        Decision,
        line,
        part=part_ref(draft, facts),
        because=facts.cause.said if facts.cause else "",
        instead_of=facts.instead_of,
        met_by_others=blame_of(facts) if facts.met_by_others else None,
    )
    return draft


def draft_revision(draft: Draft, line: Understanding) -> Draft:
    """Open a revision: the dimensions named change, the reason is the decision's."""
    facts = line.facts
    if not facts.part:
        return draft_decision(draft, line)
    part = draft.part(facts.part)
    because = facts.cause.said if facts.cause else ""
    label = re.sub(r"(?i)^(rev(ision)?|issue)\.?\s*", "", facts.revision)
    known = {revision.label: revision for revision in draft.revisions(part)}
    if facts.withdrawn:
        of = known.get(label)
        if of is None:
            return draft_note(draft, line)
        make_entry(
            draft, Status, line, of=of.ref, state=State.WITHDRAWN, because=because
        )
        return draft
    if label in known:
        # Told of a revision that is there already: nothing new is opened.
        make_entry(draft, Decision, line, part=part.ref, because=because)
        return draft
    before = draft.revisions(part)
    revision = draft.new_revision(
        part,
        "" if label == _UNLABELLED else label,
        changed=" ".join(line.line.split()),
        why=because,
        # Who tells a change has the files still; whether they hold it is asked later.
        files=before[-1].files if before else (),
    )
    changes = tuple(_change(draft, part, facts, said) for said in facts.readings)
    revision = draft.amend(replace(revision, changes=changes))
    make_entry(
        draft, Decision, line, part=part.ref, because=because, opens=revision.ref
    )
    return draft


def _change(draft: Draft, part: Part, facts: Facts, said: Said) -> design.Change:
    what = said.what or facts.what or UNNAMED
    item = draft.characteristic(part, what)
    return design.Change(characteristic=item.ref, was=item.nominal, becomes=said.value)


def draft_disposal(draft: Draft, line: Understanding) -> Draft:
    """Log what is done with a piece, or how far a size is out and what follows."""
    facts = line.facts
    wanted = len(facts.wanted) == 1 and not tells_which(line, "wanted")
    out = wanted or (facts.off and not facts.readings)
    if facts.part and out:
        # How far it is out and what is done with it is one fact, not two.
        return draft_readings(draft, line)
    if not facts.disposition:
        return draft_note(draft, line)
    return _dispose(draft, line)


def _dispose(draft: Draft, line: Understanding) -> Draft:
    """Log what is done with a piece, and which of its open faults that answers."""
    facts = line.facts
    open_ones = open_faults(draft.snapshot, facts)
    faults = answered_by(line, open_ones)
    faulty = {one.piece.id: one.piece for one in faults if one.piece}
    faulty = faulty or {one.piece.id: one.piece for one in open_ones if one.piece}
    one_piece = len(faulty) == 1 and not facts.piece
    found = (
        draft.snapshot.find(next(iter(faulty.values())), Piece) if one_piece else None
    )
    piece = found or piece_of(draft, facts)
    if piece is not None and (measured := sizes_told(line)):
        read = replace(line, facts=replace(facts, readings=measured))
        draft_run(draft, read, piece)
    if before := _failed_before(draft, line, faults):
        return _failed_again(draft, line, piece, before)
    named = faults if named_singly(line, faults) else []
    make_entry(
        draft,
        Disposal,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, facts),
        disposition=Disposition(facts.disposition),
        answers=named[0].ref if named else None,
        answers_too=tuple(one.ref for one in named[1:]),
        answers_none=for_another_reason(line, faults),
        because=facts.cause.said if facts.cause else "",
        met_by_others=blame_of(facts) if facts.met_by_others else None,
    )
    return draft


_ENDS = frozenset({"scrap", "return"})


def _failed_before(
    draft: Draft, line: Understanding, faults: list[Fault]
) -> Failure | None:
    """Give the failure of the part that a piece is scrapped for failing after.

    The one of the same words, else the last. Where an open fault of the piece says
    it already, that is the one it is for.
    """
    facts, reason = line.facts, reason_told(line)
    if facts.disposition not in _ENDS or faults or not tells_of_failing(reason):
        return None
    every = draft.snapshot.all(Failure)
    owners = ((one, part_of(draft.snapshot, one)) for one in reversed(every))
    mine = [one for one, part in owners if part and part.title == facts.part]
    names = [part.title for part in draft.snapshot.all(Part)]
    same = (one for one in mine if same_trouble(one.title, reason, names))
    return next(same, mine[0] if mine else None)


def _failed_again(
    draft: Draft, line: Understanding, piece: Piece | None, before: Failure
) -> Draft:
    """Log it as the failure it tells of, which ends the piece: it came back."""
    facts = line.facts
    draft.remarks.append(f"a failure, as “{told(before)}” was before it")
    make_entry(
        draft,
        Failure,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, facts),
        symptom=reason_told(line).strip(),
        disposition=Disposition(facts.disposition),
        met_by_others=blame_of(facts),
    )
    return draft
