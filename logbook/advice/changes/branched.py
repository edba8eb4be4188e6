"""Revisions of a part opened beside each other: neither has what the other changed.

Two clones that each open a revision leave a part with two ends. The next one is made to
the newest, and lacks what the other changed, until somebody says what is to be.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator

from logbook.records.kinds.design import Part, Revision
from logbook.records.together.revisions import (
    current_revision,
    is_withdrawn,
    line_to,
    revisions_of,
)
from logbook.records.together.snapshot import Snapshot


def ends_of(snapshot: Snapshot, part: Part) -> tuple[Revision, ...]:
    """Give the revisions of a part that none came of, without those withdrawn."""
    line = revisions_of(snapshot, part)
    standing = [one for one in line if not is_withdrawn(snapshot, one)]
    return tuple(
        one
        for one in standing
        if not any(
            one is not later and one in line_to(snapshot, later) for later in standing
        )
    )


def branched(snapshot: Snapshot) -> Iterator[str]:
    """Say of each part with several ends what the newest lacks, and what ends it."""
    for part in snapshot.all(Part):
        ends = ends_of(snapshot, part)
        now = current_revision(snapshot, part)
        if len(ends) < 2 or now is None:
            continue
        # Of two with one label it is asked first which keeps it.
        for other in (one for one in ends if one.title != now.title):
            what = other.changed or "what it changed, which nobody has said"
            revise = shlex.join(
                ["logbook", "revise", part.title, "--joins", other.title]
            )
            without = shlex.join(["logbook", "status", other.title, "withdrawn"])
            yield (
                f"{part.title}: {now.title}, opened last, to which the next is made, "
                f"does not have what {other.title} changed ({what}): they were opened "
                f"beside each other. If the next is to have both: {revise}; if not: "
                f"{without}"
            )
