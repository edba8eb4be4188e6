"""The unit of a design file that names none itself, as it was once said.

It goes with the content, so that a release that froze the file before it was said has
it too, and a file drawn anew, maybe in another unit, has none until it is said again.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.together.once import once
from logbook.records.together.snapshot import Snapshot

SAY_SO = "logbook part {part} --file-unit {unit}"
"""The line that says it."""


@once
def _told(snapshot: Snapshot) -> Mapping[str, str]:
    """Give the units that were told, by the hashes of what they were told of."""
    told: dict[str, str] = {}
    for revision in snapshot.all(Revision):
        for file in revision.files:
            if file.unit:
                told[file.sha256] = file.unit
                told[file.text_sha256 or file.sha256] = file.unit
    return told


def unit_told(snapshot: Snapshot, file: DesignFile) -> str:
    """Give the unit that was told of a file's content; empty where none was."""
    told = _told(snapshot)
    return told.get(file.sha256) or told.get(file.text_sha256 or file.sha256, "")


def with_units(
    files: Iterable[DesignFile], before: Iterable[DesignFile]
) -> tuple[DesignFile, ...]:
    """Give files as they are now, with the unit told of the same content before."""
    held = {file.path: file for file in before if file.unit}
    return tuple(
        replace(file, unit=held[file.path].unit)
        if file.path in held and same_content(file, held[file.path])
        else file
        for file in files
    )


def units_left_behind(
    snapshot: Snapshot,
    revisions: Iterable[Revision],
    on_disk: Mapping[str, DesignFile],
) -> Iterator[str]:
    """Say which files were drawn anew since their unit was told, and how to say it."""
    told = {
        (revision.part.id, file.path): file.unit
        for revision in snapshot.all(Revision)
        for file in revision.files
        if file.unit
    }
    for revision in revisions:
        for file in revision.files:
            unit = told.get((revision.part.id, file.path), "")
            now = on_disk.get(file.path)
            if unit and now is not None and not unit_told(snapshot, now):
                say = SAY_SO.format(part=shlex.quote(revision.part.name), unit=unit)
                yield (
                    f"{file.path} names no unit, and {unit} was said of what it held "
                    f"before; if it still is: {say}"
                )
