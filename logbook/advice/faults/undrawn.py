"""A revision that says its shape changed while its files are those of one before.

Who makes the part again from them gets what he has.
"""

from __future__ import annotations

import re

from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot

_SHAPE = re.compile(
    r"(?i)\b(?:fillet(?:s|ed)?|radius|radii|round(?:ed|ing)|chamfer(?:s|ed)?|holes?|"
    r"slots?|notch(?:es|ed)?|ribs?|pockets?|grooves?|cut-?outs?|boss(?:es)?|flanges?|"
    r"wider|narrower|longer|shorter|deeper|moved)\b"
)
"""Words for what only a drawing can hold (common practice, no source)."""


def undrawn(
    snapshot: Snapshot, revision: Revision, held: Revision | None = None
) -> str:
    """Say that the files of a revision are as one before had them; else nothing.

    `held` is the earlier revision somebody has; without it the one just before. Only of
    a revision that says that its shape changed.
    """
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    before = line[: line.index(revision)] if revision in line else ()
    earlier = held or (before[-1] if before else None)
    if earlier not in before or earlier is None or not _SHAPE.search(revision.changed):
        return ""
    same = unchanged_files(revision.files, earlier)
    if not same or len(same) < len(revision.files):
        return ""
    files = " and ".join(same)
    holds = "hold" if len(same) > 1 else "holds"
    return (
        f"{files} of {revision.title} {holds} the same as of {earlier.title}, so what "
        f"changed (“{revision.changed}”) is not in it"
    )


def unchanged_files(
    files: tuple[DesignFile, ...], earlier: Revision
) -> tuple[str, ...]:
    """Give the paths of those files that hold what an earlier revision had there."""
    held = {file.path: file for file in earlier.files}
    return tuple(
        one.path
        for one in files
        if one.path in held and same_content(one, held[one.path])
    )
