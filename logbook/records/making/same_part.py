"""One part that was typed under two names: all of the one is of the other from then on.

A revision that says nothing of its own is the one that stands; another comes behind
those there are. Pieces stay as many as they are, each with a number of its own: whether
two of them are one is for somebody to say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.errors import BadInput, Refused
from logbook.records.kinds.assembling import Fit, Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.ids import formula_name
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.made_one import make_one
from logbook.records.making.no_part import is_bare, parts_named, released
from logbook.records.sizes.definition import characteristics_of
from logbook.records.states.pieces import pieces_of
from logbook.records.together.labels import label_words, next_label
from logbook.records.together.references import refers
from logbook.records.together.revisions import revisions_of


def same_part(draft: Draft, part: Part, other: Part) -> tuple[str, ...]:
    """Draft that a part is another one; give what both say differently, as told.

    Raises:
        BadInput: they are one already.
        Refused: a release names it.
    """
    if part.id == other.id:
        raise BadInput(f"“{part.title}” is that part; accepted: another part's name")
    if why := released(draft.snapshot, part):
        raise Refused(why)
    differs = [
        *_sizes(draft, part, other),
        *_revisions(draft, part, other),
        *_lines(draft, part, other),
    ]
    _pieces(draft, part, other)
    _formulas(draft, part, other)
    return (*differs, *make_one(draft, other, part))


def renumbered(draft: Draft) -> Iterator[tuple[str, Piece]]:
    """Give the pieces that got another number, each with what it was called."""
    for one in draft.amended:
        if isinstance(one, Piece) and one.id in draft.snapshot:
            before = draft.snapshot[one.id].title
            if before != one.title:
                yield before, one


def _sizes(draft: Draft, part: Part, other: Part) -> Iterator[str]:
    known = {
        formula_name(one.title): one
        for one in characteristics_of(draft.snapshot, other)
    }
    for size in characteristics_of(draft.snapshot, part):
        twin = known.get(formula_name(size.title))
        if twin is not None:
            draft.amend(replace(draft.drafted(size), part=other.ref))
            yield from make_one(draft, twin, size)


def _revisions(draft: Draft, part: Part, other: Part) -> Iterator[str]:
    """Join the revisions that say nothing; put the others behind those there are."""
    order = list(revisions_of(draft.snapshot, other))
    for one in revisions_of(draft.snapshot, part):
        last = draft.drafted(order[-1]) if order else None
        if last is not None and is_bare(one):
            held = {file.path for file in last.files}
            more = (file for file in one.files if file.path not in held)
            draft.amend(replace(last, files=(*last.files, *more)))
            draft.amend(replace(draft.drafted(one), part=other.ref, files=()))
            yield from make_one(draft, order[-1], one)
            continue
        label = next_label([each.label for each in order])
        moved = replace(
            draft.drafted(one),
            part=other.ref,
            label=label,
            title=f"{other.title} {label_words(label)}",
            formerly=(*one.formerly, one.title),
            follows=last.ref if last else None,
        )
        order.append(draft.amend(moved))


def _lines(draft: Draft, part: Part, other: Part) -> Iterator[str]:
    """Join the lines of the parts list: one line says how many there are of it."""
    snapshot = draft.snapshot
    own = {
        one.assembly.id if one.assembly else "": one
        for one in snapshot.mentions(other, Line)
        if refers(snapshot, one.part, other)
    }
    for line in snapshot.mentions(part, Line):
        if not refers(snapshot, line.part, part):
            continue
        twin = own.get(line.assembly.id if line.assembly else "")
        if twin is not None:
            draft.amend(replace(draft.drafted(line), part=other.ref))
            yield from make_one(draft, twin, line)
        else:
            draft.amend(replace(draft.drafted(line), title=other.title))


def _pieces(draft: Draft, part: Part, other: Part) -> None:
    number = draft.next_number(other)
    for piece in pieces_of(draft.snapshot, part):
        was = draft.drafted(piece)
        draft.amend(
            replace(
                was,
                title=f"{other.title}-{number}",
                number=number,
                formerly=(*was.formerly, was.title),
            )
        )
        number += 1


def _formulas(draft: Draft, part: Part, other: Part) -> None:
    """Name the part in the formulas of gaps as it is called from now on."""
    for gap in draft.snapshot.all(Fit):
        if part.name in parts_named(gap):
            name = rf"(?<![\w.@]){re.escape(part.name)}(?=[.@])"
            now = draft.drafted(gap)
            draft.amend(replace(now, formula=re.sub(name, other.name, now.formula)))
