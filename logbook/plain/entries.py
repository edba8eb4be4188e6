"""From a line as understood to the records it becomes.

One function for each kind of fact. Whatever finds no field of its own still
stands in the title, which is the line as typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from logbook.plain.coverage import recorded_as
from logbook.plain.lexicon import lexicon
from logbook.plain.order_of_work import brought_to_size, step_meant
from logbook.plain.understanding import Facts, Kind, Understanding, Verdict
from logbook.plain.understanding import Reading as Said
from logbook.quantity import Absent, Quantity, quantity
from logbook.records import model
from logbook.records.ids import Ref, new_id
from logbook.records.making import Draft
from logbook.records.model import (
    Cause,
    Conditions,
    Count,
    Decision,
    Deviation,
    Disposal,
    Entry,
    Failure,
    Joint,
    Layer,
    Note,
    Order,
    Part,
    Piece,
    Question,
    Reading,
    Run,
    Status,
    StepDone,
    Stock,
)
from logbook.records.off_drawing import off_drawing
from logbook.records.state import characteristics_of, part_of, undisposed
from logbook.records.text import clean_title
from logbook.records.words import Blame, CauseStatus, Disposition, State

E = TypeVar("E", bound=Entry)

_UNLABELLED = "new"
"""What a revision is called in a line that gives it no label."""

UNNAMED = "size"
"""The dimension of a reading that names none."""


def draft_line(draft: Draft, line: Understanding, blame: Blame | None = None) -> Draft:
    """Add to the draft what the line says; `blame` answers its one question.

    A line that is doubtful, or only a remark, becomes a note.
    """
    if line.verdict is Verdict.KEPT:
        return _note(draft, line)
    facts = line.facts
    if blame is not None:
        line = replace(line, facts=replace(facts, met_by_others=blame.value))
    return _MAKERS[line.kind](draft, line)


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


# -- pieces every kind needs -----------------------------------------------------


def _blame(facts: Facts) -> Blame:
    said = facts.met_by_others.removeprefix("only ")
    return Blame(said) if said else Blame.UNKNOWN


def _disposition(facts: Facts) -> Disposition | None:
    return Disposition(facts.disposition) if facts.disposition else None


def _piece(draft: Draft, facts: Facts) -> Piece | None:
    if not facts.part:
        return None
    part = draft.part(facts.part)
    number = re.search(r"(\d+)\s*$", facts.piece)
    return draft.piece(part, int(number[1]) if number else None)


def _about(draft: Draft, facts: Facts) -> tuple[Ref, ...]:
    return tuple(draft.part(name).ref for name in facts.others if name != facts.part)


def _entry(draft: Draft, cls: type[E], line: Understanding, **facts: object) -> E:
    """Make an entry with what every entry has."""
    return draft.add(
        cls(
            id=new_id(),
            title=clean_title(line.line),
            when=draft.when,
            build=draft.build().ref,
            about=_about(draft, line.facts),
            **facts,  # type: ignore[arg-type]
        )
    )


def _part_ref(draft: Draft, facts: Facts) -> Ref | None:
    return draft.part(facts.part).ref if facts.part else None


# -- one maker for each kind -----------------------------------------------------


def _note(draft: Draft, line: Understanding) -> Draft:
    known = line.facts.part and not line.facts.part_is_new
    part = _part_ref(draft, line.facts) if known else None
    title, prose = clean_title(line.line), ""
    if title != line.line.strip():
        prose = line.line
    draft.add(
        Note(
            id=new_id(),
            title=title,
            prose=prose,
            when=draft.when,
            build=draft.build().ref,
            part=part,
        )
    )
    return draft


def _readings(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    if not facts.readings and not facts.absent:
        return _off(draft, line)
    piece = _piece(draft, facts)
    run = _run(draft, line, piece)
    if facts.wanted and not _unpaired(facts):
        _deviations(draft, line, run, piece)
    elif facts.part:
        _off_drawing(draft, line, run, piece)
    return draft


def _off(draft: Draft, line: Understanding) -> Draft:
    """Log “0.5 too wide”: a deviation whose size is only known as a difference."""
    facts = line.facts
    piece = _piece(draft, facts)
    wanted, found = (facts.wanted[0] if facts.wanted else None), None
    if wanted is not None and facts.off is not None:
        found = quantity(wanted.value + facts.off.to(wanted.unit), wanted.unit)
    _entry(
        draft,
        Deviation,
        line,
        piece=piece.ref if piece else None,
        part=_part_ref(draft, facts),
        off=facts.off,
        wanted=wanted,
        found=found,
        place=facts.place,
        met_by_others=_blame(facts),
        disposition=_disposition(facts),
        cure=facts.cure,
    )
    return draft


def _run(draft: Draft, line: Understanding, piece: Piece | None) -> Run:
    facts = line.facts
    said = facts.readings or (None,)
    instrument = draft.snapshot.named(facts.instrument, model.Instrument)
    return _entry(
        draft,
        Run,
        line,
        piece=piece.ref if piece else None,
        part=_part_ref(draft, facts),
        instrument=instrument[0].ref if facts.instrument and instrument else None,
        readings=tuple(
            _reading(draft, line, one, _wanted_of(facts, at))
            for at, one in enumerate(said)
        ),
    )


def _unpaired(facts: Facts) -> bool:
    """Tell whether several wanted sizes cannot be told apart by their order."""
    return len(facts.wanted) not in (1, len(facts.readings))


def _wanted_of(facts: Facts, at: int) -> Quantity | None:
    """Give the wanted size of a reading: the only one, or that in its place."""
    if not facts.wanted or _unpaired(facts):
        return None
    return facts.wanted[at if len(facts.wanted) > 1 else 0]


def _reading(
    draft: Draft, line: Understanding, said: Said | None, wanted: Quantity | None
) -> Reading:
    facts = line.facts
    what = (said.what if said else "") or facts.what or UNNAMED
    name = Ref(what)
    value = said.value if said else (facts.absent or Absent.NOT_MEASURED)
    if facts.part:
        part = draft.part(facts.part)
        vague = what == UNNAMED or line.kind in (Kind.STEP, Kind.DISPOSITION)
        if vague and not _is_dimension(what):
            what = _sized(draft, part, what, value)
        name = draft.characteristic(part, what, wanted).ref
    return Reading(
        id=new_id(),
        at=draft.when,
        what=name,
        value=value,
        place=(said.place if said else "") or facts.place,
        room=facts.room,
        after=facts.hours or facts.minutes,
    )


def _is_dimension(what: str) -> bool:
    """Tell whether a name says what is measured: “hole spacing”, not “down”."""
    known, words = lexicon(), what.casefold().split()
    found = (known.longest(words, at) for at in range(len(words)))
    return any(hit and any(t.startswith("measures") for t in hit[1]) for hit in found)


def _sized(draft: Draft, part: Part, what: str, value: Quantity | Absent) -> str:
    """Name the dimension meant: “filed to 178.3” means the only one a part has.

    Only a value near what is drawn of it can be that one: a number far off, or of
    another kind, was told of something else.
    """
    known = characteristics_of(draft.snapshot, part)
    for item in known:
        if what.casefold() == item.title.casefold():
            return what
    near = len(known) == 1 and _is_near(known[0].nominal, value)
    return known[0].title if near else UNNAMED


_NEAR = Fraction(1, 4)
"""A made size is nearer to its drawn one than this share of it."""


def _is_near(nominal: Quantity | None, value: Quantity | Absent) -> bool:
    if nominal is None or isinstance(value, Absent):
        return isinstance(value, Absent)
    if nominal.metal or value.metal or nominal.dimension != value.dimension:
        return False
    return abs(value.to(nominal.unit) - nominal.value) <= abs(nominal.value) * _NEAR


def _deviations(
    draft: Draft, line: Understanding, run: Run, piece: Piece | None
) -> None:
    """Log a deviation where the line itself says what the size should be."""
    for at, reading in enumerate(run.readings):
        wanted = _wanted_of(line.facts, at)
        if isinstance(reading.value, Absent) or wanted is None:
            continue
        if reading.value.to(wanted.unit) == wanted.value:
            continue
        _deviation(draft, line, reading, wanted, piece)
        if len(line.facts.wanted) == 1:
            return


def _off_drawing(
    draft: Draft, line: Understanding, run: Run, piece: Piece | None
) -> None:
    """Log a deviation where the drawing's own limits are not met."""
    found = off_drawing(draft, draft.part(line.facts.part), run.readings)
    if found is not None:
        _deviation(draft, line, *found, piece)


def _deviation(
    draft: Draft,
    line: Understanding,
    reading: Reading,
    wanted: Quantity,
    piece: Piece | None,
) -> None:
    _entry(
        draft,
        Deviation,
        line,
        piece=piece.ref if piece else None,
        part=_part_ref(draft, line.facts),
        characteristic=reading.what,
        wanted=wanted,
        found=reading.value,
        place=reading.place,
        met_by_others=_blame(line.facts),
        disposition=_disposition(line.facts),
        cure=line.facts.cure,
    )


def _stock(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    measured = facts.readings[0].value if facts.readings else None
    bought = facts.wanted[0] if facts.wanted else None
    title = facts.material or facts.what or facts.part or clean_title(line.line)
    stock = draft.add(
        Stock(
            id=new_id(),
            title=f"{bought} {title}" if bought else title,
            material=facts.material,
            bought_as=bought,
            measured=measured,
            price=facts.price,
            when=draft.when,
        )
    )
    _entry(draft, Note, line, part=_part_ref(draft, facts))
    note = draft.new[-1]
    assert isinstance(note, Note)
    draft.amend(replace(note, about=(*note.about, stock.ref)))
    return draft


def _failure(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    piece = _piece(draft, facts)
    said = (*(one.value for one in facts.readings), *facts.conditions)
    hot = [value for value in said if value.dimension == "temperature"]
    conditions = Conditions(
        temperature=hot[0] if hot else None,
        place=facts.place,
        room=facts.room,
        after=facts.hours or facts.minutes,
    )
    _entry(
        draft,
        Failure,
        line,
        piece=piece.ref if piece else None,
        part=_part_ref(draft, facts),
        where=facts.where or facts.place,
        cause=_cause(facts),
        conditions=conditions if conditions != Conditions() else None,
        cure=facts.cure,
        disposition=_disposition(facts),
        met_by_others=_blame(facts),
    )
    return draft


def _cause(facts: Facts) -> Cause | None:
    if facts.cause is None:
        return None
    proven = facts.cause.status == CauseStatus.PROVEN.value
    status = CauseStatus.PROVEN if proven else CauseStatus.GUESSED
    return Cause(said=facts.cause.said, status=status)


def _decision(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    if facts.disposition and facts.part:
        # What is done with a piece is one fact; its reason stands in it.
        return _dispose(draft, line)
    _entry(
        draft,
        Decision,
        line,
        part=_part_ref(draft, facts),
        because=facts.cause.said if facts.cause else "",
        instead_of=facts.instead_of,
        met_by_others=_blame(facts) if facts.met_by_others else None,
    )
    return draft


def _revision(draft: Draft, line: Understanding) -> Draft:
    """Open a revision: the dimensions named change, the reason is the decision's."""
    facts = line.facts
    if not facts.part:
        return _decision(draft, line)
    part = draft.part(facts.part)
    because = facts.cause.said if facts.cause else ""
    label = re.sub(r"(?i)^(rev(ision)?|issue)\.?\s*", "", facts.revision)
    known = {revision.label: revision for revision in draft.revisions(part)}
    if facts.withdrawn:
        of = known.get(label)
        if of is None:
            return _note(draft, line)
        _entry(draft, Status, line, of=of.ref, state=State.WITHDRAWN, because=because)
        return draft
    if label in known:
        # Told of a revision that is there already: nothing new is opened.
        _entry(draft, Decision, line, part=part.ref, because=because)
        return draft
    revision = draft.new_revision(
        part,
        "" if label == _UNLABELLED else label,
        changed=clean_title(line.line),
        why=because,
    )
    changes = tuple(_change(draft, part, facts, said) for said in facts.readings)
    revision = draft.amend(replace(revision, changes=changes))
    _entry(draft, Decision, line, part=part.ref, because=because, opens=revision.ref)
    return draft


def _change(draft: Draft, part: Part, facts: Facts, said: Said) -> model.Change:
    what = said.what or facts.what or UNNAMED
    item = draft.characteristic(part, what)
    return model.Change(characteristic=item.ref, was=item.nominal, becomes=said.value)


def _disposal(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    out = len(facts.wanted) == 1 or (facts.off and not facts.readings)
    if facts.part and out:
        # How far it is out and what is done with it is one fact, not two.
        return _readings(draft, line)
    if not facts.disposition:
        return _note(draft, line)
    return _dispose(draft, line)


def _dispose(draft: Draft, line: Understanding) -> Draft:
    """Log what is done with a piece, and which fault that answers."""
    facts = line.facts
    faults = _open_faults(draft, facts)
    faulty = {one.piece.id: one.piece for one in faults if one.piece}
    one_piece = len(faulty) == 1 and not facts.piece
    found = (
        draft.snapshot.find(next(iter(faulty.values())), Piece) if one_piece else None
    )
    piece = found or _piece(draft, facts)
    if piece is not None and facts.readings:
        _run(draft, line, piece)
    _entry(
        draft,
        Disposal,
        line,
        piece=piece.ref if piece else None,
        part=_part_ref(draft, facts),
        disposition=Disposition(facts.disposition),
        answers=faults[0].ref if len(faults) == 1 and not facts.piece else None,
        because=facts.cause.said if facts.cause else "",
    )
    return draft


def _open_faults(draft: Draft, facts: Facts) -> list[Deviation | Failure]:
    """Give the faults of the part that nobody has decided on."""
    if not facts.part:
        return []
    part = draft.part(facts.part)
    found = undisposed(draft.snapshot)
    return [one for one in found if part_of(draft.snapshot, one) is part]


def _step(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    steps = draft.snapshot.named(facts.step, model.Step) if facts.step else ()
    step = steps[0] if len(steps) == 1 else None
    if step is None and not facts.undone:
        step = step_meant(draft, line.line, _part_ref(draft, facts))
    made = facts.part and not facts.inside
    told = made and (facts.readings or facts.piece)
    piece = _piece(draft, facts) if told else None
    named = tuple(one for one in facts.readings if _is_read(draft, line, one))
    if piece is not None and named:
        measured = replace(line, facts=replace(facts, readings=named))
        _run(draft, measured, piece)
    _entry(
        draft,
        StepDone,
        line,
        step=step.ref if step else None,
        part=_part_ref(draft, facts) or (step.makes if step else None),
        piece=piece.ref if piece else None,
        time=facts.minutes or facts.hours,
        set_to=tuple(reading.value for reading in facts.readings),
        closes=facts.closes or bool(step and step.closes),
        inside=(facts.part,) if facts.inside and facts.part else (),
        undone=facts.undone,
    )
    return draft


def _is_read(draft: Draft, line: Understanding, said: Said) -> bool:
    """Tell whether a size of work done is a reading of what came out of it.

    It is where it is named; and “filed to 178.3” is where the part's one dimension
    is near. The newest reading counts, so a later finish puts it right.
    """
    if said.what or not line.facts.part:
        return bool(said.what)
    part = draft.part(line.facts.part)
    sized = _sized(draft, part, UNNAMED, said.value) != UNNAMED
    return sized and brought_to_size(line.line)


def _joint(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    layers = tuple(Layer(part=draft.part(name).ref) for name in facts.layers)
    if recorded_as(line) is Kind.STEP:
        return _step(draft, line)
    draft.add(
        Joint(
            id=new_id(),
            title=clean_title(line.line),
            fastener=facts.fastener,
            layers=layers,
            quantity=facts.quantity or 1,
            when=draft.when,
        )
    )
    return draft


def _order(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    _entry(
        draft,
        Order,
        line,
        part=_part_ref(draft, facts),
        quantity=facts.quantity or 1,
        price=facts.price,
        due=facts.due,
    )
    return draft


def _count(draft: Draft, line: Understanding) -> Draft:
    facts = line.facts
    name = facts.counted or facts.part
    if not name or facts.quantity is None:
        return _note(draft, line)
    _entry(draft, Count, line, part=draft.part(name).ref, used=facts.quantity)
    return draft


def _question(draft: Draft, line: Understanding) -> Draft:
    known = line.facts.part and not line.facts.part_is_new
    part = _part_ref(draft, line.facts) if known else None
    _entry(draft, Question, line, part=part)
    return draft


_MAKERS: dict[Kind, Callable[[Draft, Understanding], Draft]] = {
    Kind.READING: _readings,
    Kind.STOCK: _stock,
    Kind.FIT: _note,
    Kind.FAILURE: _failure,
    Kind.DECISION: _decision,
    Kind.REVISION: _revision,
    Kind.SUBSTITUTION: _decision,
    Kind.DISPOSITION: _disposal,
    Kind.STEP: _step,
    Kind.JOINT: _joint,
    Kind.ORDER: _order,
    Kind.COUNT: _count,
    Kind.QUESTION: _question,
    Kind.NOTE: _note,
}
