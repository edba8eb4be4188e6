"""Known faults of which no errata can say who is affected: they name nothing."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.known import known_faults
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.snapshot import Snapshot


def is_unplaced(erratum: Erratum) -> bool:
    """Tell whether a known fault names no part, no revision and no release."""
    named = erratum.part or erratum.revisions or erratum.releases
    return not named and erratum.status not in DROPPED


def unplaced(snapshot: Snapshot) -> Iterator[str]:
    """Say of each such fault that it is in no errata, and how to name its part."""
    for fault in known_faults(snapshot):
        if is_unplaced(fault):
            yield (
                f"{fault.title}: a fault of the drawing names no part: it is in no "
                "errata as a known fault; say which part with: logbook erratum "
                f"{fault.id} --part PART"
            )
