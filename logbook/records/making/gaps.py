"""A gap as somebody states it: the dimensions its formula names are made if missing."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TypeVar

from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import Drawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import Name, read_formula

N = TypeVar("N", Part, Characteristic)


def stated_gap(
    draft: Draft, title: str, formula: str, wanted: Drawn | None, last: str = ""
) -> Fit:
    """Give the gap, not yet in the draft; `last` names what is made last, to suit.

    Known parts and dimensions may be named as they are called, “shelf board.length”.

    Raises:
        BadInput: the text is no formula, or `last` is not in it.
    """
    formula, last = spelt(draft.snapshot, formula), spelt(draft.snapshot, last)
    names = read_formula(formula).names
    refs = {str(name): _dimension(draft, name) for name in names}
    if last and last not in refs:
        raise BadInput(
            f"made last: {last} is not in the formula; accepted: {', '.join(refs)}"
        )
    return Fit(
        id=new_id(),
        title=title,
        when=draft.when,
        formula=formula,
        lower_limit=wanted.lower if wanted else None,
        upper_limit=wanted.upper if wanted else None,
        made_last=refs[last] if last else None,
    )


def spelt(snapshot: Snapshot, text: str) -> str:
    """Give a formula with what is called in several words named as formulas do."""
    for part in _longest_first(snapshot.all(Part)):
        text = re.sub(
            rf"(?i)(?<![\w.@]){re.escape(part.title)}(?=[.@])", part.name, text
        )
    for size in _longest_first(snapshot.all(Characteristic)):
        text = re.sub(rf"(?i)(?<=\.){re.escape(size.title)}(?![\w.@])", size.name, text)
    return text


def _longest_first(named: Iterable[N]) -> list[N]:
    return sorted(named, key=lambda one: -len(one.title))


def _dimension(draft: Draft, name: Name) -> Ref:
    """Give the dimension a formula names; part and dimension are made if missing."""
    part = draft.part(_title(draft.snapshot, name.part))
    return draft.characteristic(part, name.dimension.replace("_", " ")).ref


def _title(snapshot: Snapshot, name: str) -> str:
    for part in snapshot.all(Part):
        if part.name == name:
            return part.title
    return name.replace("_", " ")
