"""Records of what failed, and of the work told in one line with it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from logbook.plain.answers.known_faults import NONE, open_faults, told
from logbook.plain.drafts.choices import draft_disposal
from logbook.plain.drafts.drafting import (
    blame_of,
    cause_of,
    disposition_of,
    make_entry,
    part_ref,
    piece_of,
)
from logbook.plain.drafts.work import draft_step
from logbook.plain.understanding import Beside, Facts, Kind, Understanding
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Conditions, Disposal, Failure, StepDone
from logbook.records.making.drafts import Draft
from logbook.records.together.likeness import same_trouble


def draft_failure(draft: Draft, line: Understanding) -> Draft:
    """Log a failure; what was done to the piece before it, and the one made for it."""
    beside = line.facts.beside
    anew = beside is not None and beside.did == Beside.ANEW
    worked = _worked_before(draft, line, beside) if beside and not anew else None
    failed = _failed(draft, line)
    if worked is not None:
        draft.amend(replace(failed, when=worked.when + _NEXT))
    if anew:
        _made_for_it(draft, line, failed)
    return draft


_NEXT = timedelta(milliseconds=1)
"""Entries are told apart by their instant: which came first must show in it."""


def _worked_before(
    draft: Draft, line: Understanding, beside: Beside
) -> Disposal | None:
    """Log what was done to the piece, for the open fault that came again."""
    facts = line.facts
    faults = open_faults(draft.snapshot, facts)
    again = line.line.replace(beside.said, "")
    names = [part.title for part in draft.snapshot.all(Part)]
    same = [one for one in faults if same_trouble(one.title, again, names)]
    meant = same[-1:] or (faults if len(faults) == 1 else [])
    done = replace(
        line,
        line=beside.said,
        kind=Kind.DISPOSITION,
        words={},
        content=(),
        facts=Facts(
            part=facts.part,
            piece=facts.piece,
            disposition=beside.did,
            answers=told(meant[0]) if meant else NONE,
        ),
    )
    draft_disposal(draft, done)
    return next((one for one in draft.new if isinstance(one, Disposal)), None)


def _made_for_it(draft: Draft, line: Understanding, failed: Failure) -> None:
    """Log the making of one more piece, after the one before it had failed."""
    facts = Facts(part=line.facts.part)
    draft_step(draft, replace(line, kind=Kind.STEP, words={}, facts=facts))
    for made in draft.new:
        if isinstance(made, StepDone):
            draft.amend(replace(made, when=failed.when + _NEXT))


def _failed(draft: Draft, line: Understanding) -> Failure:
    facts = line.facts
    piece = piece_of(draft, facts)
    said = (*(one.value for one in facts.readings), *facts.conditions)
    hot = [value for value in said if value.dimension == "temperature"]
    conditions = Conditions(
        temperature=hot[0] if hot else None,
        place=facts.place,
        room=facts.room,
        after=facts.hours or facts.minutes,
    )
    return make_entry(
        draft,
        Failure,
        line,
        piece=piece.ref if piece else None,
        part=part_ref(draft, facts),
        where=facts.where or facts.place,
        cause=cause_of(facts),
        conditions=conditions if conditions != Conditions() else None,
        cure=facts.cure,
        disposition=disposition_of(facts),
        met_by_others=blame_of(facts),
    )
