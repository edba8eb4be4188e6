"""How who bought a part can tell which revision of it he has: nobody buys “rev A”.

By the list he bought it by, and by the sizes that are other in the others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.sizes.definition import definition
from logbook.records.together.revisions import revisions_in, revisions_of
from logbook.records.together.snapshot import Snapshot


def bought_words(
    snapshot: Snapshot, part: Part, revision: Revision, having: Sequence[Revision]
) -> str:
    """Say what was bought that is this revision; of `having` all have the same fault.

    Where every revision has it the name of the part is enough.
    """
    others = [one for one in revisions_of(snapshot, part) if one not in having]
    others = [one for one in others if one is not revision]
    if not others:
        return part.title
    sizes = ", ".join(_apart(snapshot, revision, others))
    told = f" ({sizes})" if sizes else ""
    every = snapshot.all(Release)
    labels = [one.label for one in every if revision in revisions_in(snapshot, one)]
    if not labels:
        return f"{revision.title}{told}"
    return f"{part.title} by the list of release {' or '.join(labels)}{told}"


def _apart(
    snapshot: Snapshot, revision: Revision, others: Sequence[Revision]
) -> Iterator[str]:
    """Give the drawn sizes of a revision that none of the others is drawn with."""
    theirs = {
        (one.name, str(one.nominal))
        for other in others
        for one in definition(snapshot, other)
    }
    for one in definition(snapshot, revision):
        if one.nominal and (one.name, str(one.nominal)) not in theirs:
            yield f"{one.name} {one.nominal}"
