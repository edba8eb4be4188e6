"""Files without a line on the parts list, and lines without a file."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.advice.pieces.counts import parts_list
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.words import Source
from logbook.records.together.revisions import current_revision, parts_now
from logbook.records.together.snapshot import Snapshot


def lines_without_file(snapshot: Snapshot) -> tuple[Part, ...]:
    """Give the parts on the list that are made, and that no design file defines."""
    found = []
    for listed in parts_list(snapshot)[0]:
        part = listed.part
        wanted = listed.total + listed.spare > 0 and part.source is not Source.BOUGHT
        revision = current_revision(snapshot, part)
        if wanted and not part.assembly and not (revision and revision.files):
            found.append(part)
    return tuple(found)


def files_without_line(
    snapshot: Snapshot, on_disk: Iterable[str] = ()
) -> tuple[tuple[str, str], ...]:
    """Give design files that no line of the list stands for, each with the reason."""
    listed = {one.part.id for one in parts_list(snapshot)[0] if one.total + one.spare}
    found = []
    for part in parts_now(snapshot):
        revision = current_revision(snapshot, part)
        if revision and part.id not in listed and not part.assembly:
            why = f"{part.title} has no line on the parts list"
            found += [(file.path, why) for file in revision.files]
    known = {file.path for r in snapshot.all(Revision) for file in r.files}
    known |= set(snapshot.project.not_parts)
    found += [(path, "no revision names it") for path in on_disk if path not in known]
    return tuple(found)
