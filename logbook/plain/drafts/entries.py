"""From a line as understood to the records it becomes.

One function for each kind of fact. Whatever finds no field of its own still
stands in the title, which is the line as typed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from logbook.plain.drafts.choices import draft_decision, draft_disposal, draft_revision
from logbook.plain.drafts.drafting import (
    draft_note,
    make_entry,
    part_ref,
)
from logbook.plain.drafts.drawn import draft_drawn, draft_stock
from logbook.plain.drafts.failures import draft_failure
from logbook.plain.drafts.measured import draft_measured
from logbook.plain.drafts.of_each import each_piece
from logbook.plain.drafts.several_made import draft_work
from logbook.plain.drafts.work import draft_count, draft_joint, draft_order
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.spread import gathered
from logbook.records.kinds.happenings import (
    Deviation,
    Entry,
    Failure,
    Note,
    Question,
)
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Blame
from logbook.records.making.amends import amend_draft
from logbook.records.making.drafts import Draft
from logbook.records.making.retracting import Retractable, retract
from logbook.records.making.same_fact import with_the_same
from logbook.records.together.likeness import stems
from logbook.records.written.text import write_record


def draft_line(draft: Draft, line: Understanding, blame: Blame | None = None) -> Draft:
    """Add to the draft what the line says; `blame` answers its one question.

    A line that is doubtful, or only a remark, becomes a note.
    """
    line = gathered(line)  # The day is when it was; its entry is called without it.
    if line.verdict is Verdict.KEPT:
        return draft_note(draft, line)
    if line.amends is not None:
        return _amended(draft, line, *line.amends)
    facts = line.facts
    if blame is not None:
        line = replace(line, facts=replace(facts, met_by_others=blame.value))
    for one in each_piece(draft, line):
        _MAKERS[line.kind](draft, one)
    return draft


def _amended(draft: Draft, line: Understanding, before: Record, after: Record) -> Draft:
    """Put a record right, and with it what tells the same.

    Where the line tells more than that, it is kept too, as a note on that record.
    """
    if isinstance(before, Retractable) and isinstance(after, Note):
        retract(draft, before, after)
        return draft
    for was, fresh in with_the_same(draft.snapshot, before, after):
        amend_draft(draft, was, fresh)
    told = stems(f"{write_record(before)} {write_record(after)}")
    if len(stems(line.line) - told - _PUTS_RIGHT) > _BESIDE:
        note = draft_note(draft, line).new[-1]
        if isinstance(note, Note) and isinstance(after, Entry):
            draft.amend(replace(note, about=(*note.about, after.ref)))
    return draft


_PUTS_RIGHT = stems(
    "oops sorry slip wrong mistake misread mistyped meant mean wrote written logged "
    "typed noted entered said should instead rather really actually they those"
)
_BESIDE = 2
"""Words a correction may have beside what it puts right, and tell nothing more."""


def wants_blame(draft: Draft) -> bool:
    """Tell whether the drafted records leave open whom their fault concerns."""
    return any(
        isinstance(record, Deviation | Failure)
        and record.met_by_others is Blame.UNKNOWN
        for record in draft.new
    )


def keeps_blame(draft: Draft) -> bool:
    """Tell whether a drafted record says whom its fault concerns."""
    return any(getattr(record, "met_by_others", None) for record in draft.new)


def _question(draft: Draft, line: Understanding) -> Draft:
    known = line.facts.part and not line.facts.part_is_new
    part = part_ref(draft, line.facts) if known else None
    make_entry(draft, Question, line, part=part)
    return draft


_MAKERS: dict[Kind, Callable[[Draft, Understanding], Draft]] = {
    Kind.READING: draft_measured,
    Kind.STOCK: draft_stock,
    Kind.DRAWN: draft_drawn,
    Kind.FIT: draft_note,
    Kind.FAILURE: draft_failure,
    Kind.DECISION: draft_decision,
    Kind.REVISION: draft_revision,
    Kind.SUBSTITUTION: draft_decision,
    Kind.DISPOSITION: draft_disposal,
    Kind.STEP: draft_work,
    Kind.JOINT: draft_joint,
    Kind.ORDER: draft_order,
    Kind.COUNT: draft_count,
    Kind.QUESTION: _question,
    Kind.NOTE: draft_note,
}
