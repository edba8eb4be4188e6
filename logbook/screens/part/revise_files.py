"""The files a revision takes: those the part has, and those here that are ticked.

A design file that is of no part yet can be ticked; where the part has none, one called
like it is ticked until somebody takes the tick away.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.advice.changes.file_units import with_units
from logbook.publish.release.unfiled import loose_files
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.kinds.ids import formula_name
from logbook.records.together.names import folded
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.part_names import read_name

TICKED = "x"
UNTICKED = "no"
_MOST = 8


def tie_key(path: str) -> str:
    """Give the key of the row that ties this file to the part."""
    return f"tie {path}"


def offered_files(
    snapshot: Snapshot, part: Part, on_disk: Mapping[str, DesignFile] | None
) -> tuple[str, ...]:
    """Give the paths of no part that this one may take, those of its name first."""
    loose = loose_files(snapshot, on_disk) if on_disk else ()
    return tuple(sorted(loose, key=lambda one: not called_like(part, one))[:_MOST])


def called_like(part: Part, path: str) -> bool:
    """Tell whether a file is called like the part."""
    title = read_name(path).title
    names = {folded(one) for one in (part.title, *part.aliases, *part.formerly)}
    return folded(title) in names or formula_name(title) == part.name


def is_tied(snapshot: Snapshot, part: Part, rows: Mapping[str, str], path: str) -> bool:
    """Tell whether the row of a file is ticked."""
    before = current_revision(snapshot, part)
    bare = before is None or not before.files
    usual = TICKED if bare and called_like(part, path) else UNTICKED
    return (rows.get(tie_key(path)) or usual) == TICKED


def files_tied(
    snapshot: Snapshot,
    part: Part,
    rows: Mapping[str, str],
    on_disk: Mapping[str, DesignFile],
) -> tuple[DesignFile, ...]:
    """Give the files of no part yet that the revision ties to this one."""
    return tuple(
        on_disk[path]
        for path in offered_files(snapshot, part, on_disk)
        if is_tied(snapshot, part, rows, path)
    )


def files_taken(
    snapshot: Snapshot,
    part: Part,
    rows: Mapping[str, str],
    on_disk: Mapping[str, DesignFile],
) -> Iterator[DesignFile]:
    """Give the files of the revision as they are on disk; one missing stays known."""
    before = current_revision(snapshot, part)
    held = before.files if before else ()
    yield from with_units((on_disk.get(file.path, file) for file in held), held)
    yield from files_tied(snapshot, part, rows, on_disk)
