"""The known faults that what is told in the shell touches: each said once, before."""

from __future__ import annotations

import sys

from logbook.advice.faults.warned_of import warned_of
from logbook.records.making.drafts import Draft


def untold_faults(draft: Draft) -> list[str]:
    """Give the lines of the known faults a draft touches that were not said of it yet.

    What stops use comes first. They count as said from then on.
    """
    found = [one for one in warned_of(draft) if one.fault.id not in draft.warned]
    draft.warned |= {one.fault.id for one in found}
    return [one.says for one in found]


def tell_faults(draft: Draft) -> list[str]:
    """Say them before anything is asked or saved, and give what was said."""
    told = untold_faults(draft)
    for line in told:
        print(line, file=sys.stderr)
    return told
