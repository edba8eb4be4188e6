"""Records of what was measured, with the limits that its line tells."""

from __future__ import annotations

from logbook.plain.drafts.drawn import define, differs
from logbook.plain.drafts.sizes import UNNAMED, draft_readings, sized
from logbook.plain.understanding import Facts, Understanding
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import parse_drawn


def draft_measured(draft: Draft, line: Understanding) -> Draft:
    """Log the readings of a line, and what it says is drawn of their dimension."""
    _keep_limits(draft, line.facts)
    return draft_readings(draft, line)


def _keep_limits(draft: Draft, facts: Facts) -> None:
    """Define a dimension by the limits told with its reading, where it has none.

    What is drawn otherwise on record stays as it is, and that is remarked.
    """
    for told in facts.drawn if facts.part else ():
        part = draft.part(facts.part)
        size = parse_drawn(told.size, draft.snapshot.project.unit)
        what = told.what or sized(draft, part, UNNAMED, facts.readings[0].value)
        item = draft.characteristic(part, what, since=draft.made_to(part))
        had = item.lower_limit, item.upper_limit
        if had == (None, None) and not differs(item.nominal, size.nominal):
            define(draft, item, size)
        elif had != (size.lower, size.upper):
            on_record = f"{item.nominal}, {had[0] or 'no limit'} to {had[1] or 'none'}"
            draft.remarks.append(
                f"on record {item.title} is drawn {on_record}: left as it is"
            )
