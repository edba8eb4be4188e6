"""A gap as somebody states it: the dimensions its formula names are made if missing."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Part
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import Drawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import Name, read_formula


def stated_gap(
    draft: Draft, title: str, formula: str, wanted: Drawn | None, last: str = ""
) -> Fit:
    """Give the gap, not yet in the draft; `last` names what is made last, to suit.

    Raises:
        BadInput: the text is no formula, or `last` is not in it.
    """
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


def _dimension(draft: Draft, name: Name) -> Ref:
    """Give the dimension a formula names; part and dimension are made if missing."""
    part = draft.part(_title(draft.snapshot, name.part))
    return draft.characteristic(part, name.dimension.replace("_", " ")).ref


def _title(snapshot: Snapshot, name: str) -> str:
    for part in snapshot.all(Part):
        if part.name == name:
            return part.title
    return name.replace("_", " ")
