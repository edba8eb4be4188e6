"""What a release leaves without a file, and which design files go with no part.

Rebuilders cut and print from the files that are frozen with a release; a drawing that
lies in the repository and is on no part's record is not among them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logbook.counting import first_few
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.kinds.words import Source
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.lone_drawings import may_draw_a_part

TIES = "logbook revise PART --file PATH --redrawn"
"""The line that ties a design file to its part."""
RELEASED = "once its revision is released, without --redrawn, as a new revision"
"""What becomes of that line then: a released revision stays as it was."""
NONE = "logbook project --no-part PATH"
_MOST = 6


def unfiled(
    snapshot: Snapshot,
    revisions: Sequence[Revision],
    on_disk: Mapping[str, DesignFile],
    own: Mapping[str, DesignFile],
) -> Iterator[str]:
    """Say which parts have no file, and which files here, by path, are of no part.

    Nothing is said of what is bought, nor of files of another design: `own` are those
    that are of none.
    """
    bare = [
        part.title
        for one in revisions
        if not one.files
        and (part := part_of(snapshot, one))
        and part.source is not Source.BOUGHT
    ]
    frozen = [file for one in revisions for file in one.files if file.path in on_disk]
    if bare:
        whole = "" if frozen else ", and this freezes no file at all"
        yield f"{first_few(bare, _MOST)}: no file on record; rebuilders get none{whole}"
    elif revisions and not frozen:
        yield "this freezes no file at all; rebuilders get none"
    said = set(snapshot.project.not_parts)
    loose = [path for path in loose_files(snapshot, own) if path not in said]
    if loose:
        are = "file here is" if len(loose) == 1 else "files here are"
        named = first_few(loose, _MOST)
        yield (
            f"{len(loose)} design {are} of no part and not frozen: {named}; {TIES} "
            f"ties one to its part; {RELEASED}; {NONE} says that it goes with none"
        )


def loose_files(
    snapshot: Snapshot, on_disk: Mapping[str, DesignFile]
) -> tuple[str, ...]:
    """Give the paths of what may draw a part and is, by path or content, of none."""
    tied = [file for one in snapshot.all(Revision) for file in one.files]
    paths = {file.path for file in tied}
    held = {on_disk[path].sha256 for path in paths if path in on_disk}
    held |= {file.sha256 for file in tied}
    return tuple(
        path
        for path, file in on_disk.items()
        if path not in paths and file.sha256 not in held and may_draw_a_part(path)
    )
