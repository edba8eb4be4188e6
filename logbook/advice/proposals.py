"""What the records make worth proposing, and which proposal one entry brought up.

Rules only, each in its own module; the same records give the same proposals in
the same order. What was refused is left out for good.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.advice.proposed.as_cut import as_cut
from logbook.advice.proposed.before import before
from logbook.advice.proposed.built_in import built_in
from logbook.advice.proposed.closing import closing
from logbook.advice.proposed.conditions import conditions
from logbook.advice.proposed.cured_so import cured_so
from logbook.advice.proposed.cures import cures
from logbook.advice.proposed.fasteners import as_fitted
from logbook.advice.proposed.faults import faults
from logbook.advice.proposed.gaps import gaps
from logbook.advice.proposed.joints import joints
from logbook.advice.proposed.limits import limits
from logbook.advice.proposed.mates import mates
from logbook.advice.proposed.needed import needed
from logbook.advice.proposed.parts_list import (
    counted,
    not_needed,
    stock_as_it_is,
)
from logbook.advice.proposed.proposal import Proposal
from logbook.advice.proposed.same_again import same_again
from logbook.advice.proposed.set_values import set_values
from logbook.advice.proposed.settings import settings
from logbook.advice.proposed.sheet_instead import sheet_instead
from logbook.advice.proposed.spent import spent
from logbook.advice.proposed.stand_ins import substitutes
from logbook.advice.proposed.steps import order_of_work
from logbook.advice.proposed.tools import tools
from logbook.advice.proposed.wait_over import wait_over
from logbook.errors import NotFound
from logbook.records.kinds.happenings import Declined
from logbook.records.kinds.ids import spoken
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_RULES: tuple[Callable[[Snapshot], Iterator[Proposal]], ...] = (
    cured_so, closing, wait_over, as_cut, same_again, faults, cures, before,
    conditions, gaps, joints, as_fitted, sheet_instead, set_values, substitutes,
    stock_as_it_is, limits, counted, needed, not_needed, mates, tools, settings,
    built_in, order_of_work, spent,
)  # fmt: skip
"""In the order of what an unanswered one costs."""

SHORTEST_MARK = 3


def proposals(snapshot: Snapshot) -> tuple[Proposal, ...]:
    """Give everything that could be put on record, what was refused aside."""
    refused = {one.proposal for one in snapshot.all(Declined)}
    every = (one for rule in _RULES for one in rule(snapshot))
    return tuple(one for one in every if one.key not in refused)


def brought_up(earlier: Snapshot, now: Snapshot) -> Proposal | None:
    """Give the one proposal to ask about after an entry: it was not there before.

    So each is asked about once, when its last condition is met; one that is not
    answered then only stands in the list.
    """
    found = proposals(now)
    if not found:
        return None
    known = {one.key for one in proposals(earlier)}
    return next((one for one in found if one.key not in known), None)


def offered(snapshot: Snapshot, words: str) -> Proposal:
    """Give the one proposal meant: its short name or the beginning, or a record's name.

    Raises:
        NotFound: none, or several, are meant.
    """
    every = proposals(snapshot)
    mark, name = spoken(words), folded(words)
    found = [one for one in every if one.mark == mark]
    found = found or [one for one in every if folded(one.about.name) == name]
    if not found and len(mark) >= SHORTEST_MARK:
        found = [one for one in every if one.mark.startswith(mark)]
    if len(found) == 1:
        return found[0]
    known = ", ".join(f"{one.mark} ({one.about.name})" for one in (found or every)[:6])
    many = "can mean several" if found else "is nothing that is offered"
    raise NotFound(f"“{words}” {many}; accepted: {known or 'nothing is offered now'}")
