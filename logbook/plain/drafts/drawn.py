"""Records of what a part is to be: stock as bought and as it is, sizes as drawn."""

from __future__ import annotations

from dataclasses import replace

from logbook.errors import BadInput
from logbook.plain.drafts.drafting import draft_note, make_entry, part_ref
from logbook.plain.understanding import Understanding
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Stock
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import Drawn, parse_drawn


def draft_stock(draft: Draft, line: Understanding) -> Draft:
    """Put stock on record with the size it was sold by and the size it has."""
    facts = line.facts
    if facts.remaining is not None:
        return _what_is_left(draft, line, facts.remaining)
    measured = facts.readings[0].value if facts.readings else None
    bought = facts.wanted[0] if facts.wanted else None
    title = facts.material or facts.what or facts.part or line.line
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
    make_entry(draft, Note, line, part=part_ref(draft, facts))
    note = draft.new[-1]
    assert isinstance(note, Note)
    draft.amend(replace(note, about=(*note.about, stock.ref)))
    return draft


_SIDES = 2
"""A sheet has so many sizes; what is left of one is told by none of them alone."""


def _what_is_left(draft: Draft, line: Understanding, left: Quantity) -> Draft:
    """Say on the stock how much of it there is; its part's, or the one so called."""
    facts = line.facts
    named = draft.snapshot.named(facts.stock or facts.material, Stock)
    parts = draft.snapshot.named(facts.part, Part) if facts.part else ()
    own = draft.snapshot.find(parts[0].stock, Stock) if len(parts) == 1 else None
    stock = own or next(iter(named), None)
    called = facts.part or facts.material
    make_entry(draft, Note, line, part=part_ref(draft, facts) if parts else None)
    if stock is None and called:
        stock = draft.add(
            Stock(
                id=new_id(),
                title=f"{called} stock" if facts.part else called,
                material=facts.material,
                when=draft.when,
            )
        )
        if parts:
            draft.amend(replace(parts[0], stock=stock.ref))
    if stock is not None and len(stock.size) < _SIDES:
        draft.amend(replace(stock, size=(left,)))
    elif stock is not None:
        draft.remarks.append(f"{stock.title} has several sides: kept in words only")
    return draft


def differs(known: Quantity | None, said: Quantity | None) -> bool:
    """Tell whether another size is told than the one on record."""
    if known is None or said is None:
        return False
    alike = known.dimension == said.dimension
    return not alike or known.to(said.unit) != said.value


def draft_drawn(draft: Draft, line: Understanding) -> Draft:
    """Define a part's dimensions as drawn, and the stock it is made from.

    What is drawn of no part is kept as a note.

    Raises:
        BadInput: a dimension is drawn otherwise on record: that is a revision.
    """
    facts = line.facts
    if not facts.part:
        return draft_note(draft, line)
    part = draft.part(facts.part)
    more = {
        name: value
        for name in ("material", "thickness")
        if (value := getattr(facts, name)) and not getattr(part, name)
    }
    if more:
        draft.amend(replace(part, **more))
    for told in facts.drawn:
        size = parse_drawn(told.size, draft.snapshot.project.unit)
        item = draft.characteristic(part, told.what, since=draft.made_to(part))
        if differs(item.nominal, size.nominal):
            raise BadInput(
                f"{part.title} {item.title} is drawn {item.nominal} on record; "
                f"accepted: a revision, {part.title} new rev: {told.what} {told.size}"
            )
        define(draft, item, size)
    make_entry(draft, Note, line, part=part.ref)
    return draft


def define(draft: Draft, item: Characteristic, size: Drawn) -> None:
    """Draw a dimension so; a limit it has stays where the size gives none."""
    draft.amend(
        replace(
            item,
            nominal=size.nominal,
            lower_limit=size.lower or item.lower_limit,
            upper_limit=size.upper or item.upper_limit,
        )
    )
