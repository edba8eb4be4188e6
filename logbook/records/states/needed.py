"""What a release needs: its revisions but those of parts its list says none of.

Who takes a part off the list leaves its records; they say nothing of the release.
"""

from __future__ import annotations

import re

from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.states.statements import Form
from logbook.records.together.once import once
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot

_NONE = re.compile(r"; 0 pieces(?:;|$)")
_SPARE = re.compile(r"; \d+ spare(?:;|$)")


@once
def not_needed_in(snapshot: Snapshot, release: Release) -> frozenset[str]:
    """Give the ids of the parts of which a release lists no piece and no spare."""
    said: dict[str, list[bool]] = {}
    for statement in release.statements:
        if statement.form != Form.LINE:
            continue
        record = snapshot.find(statement.of)
        ref = record.part if isinstance(record, Line) else statement.of
        part = snapshot.find(ref, Part)
        if part is not None:
            none = bool(_NONE.search(statement.says))
            dropped = none and not _SPARE.search(statement.says)
            said.setdefault(part.id, []).append(dropped)
    return frozenset(part for part, lines in said.items() if all(lines))


@once
def needed_in(snapshot: Snapshot, release: Release) -> tuple[Revision, ...]:
    """Give the revisions of a release whose parts it needs."""
    dropped = not_needed_in(snapshot, release)
    held = revisions_in(snapshot, release)
    return tuple(one for one in held if one.part.id not in dropped)


def dropped_since(snapshot: Snapshot, part: Part) -> Release | None:
    """Give the first release from which on none of a part is needed; None: it still is.

    The newest release decides.
    """
    since = None
    for release in sorted(snapshot.all(Release), key=lambda one: (one.when, one.id)):
        if part.id not in not_needed_in(snapshot, release):
            since = None
        elif since is None:
            since = release
    return since
