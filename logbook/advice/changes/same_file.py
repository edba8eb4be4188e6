"""One content as the file of two parts: one of them may have been drawn over."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.records.kinds.design import Revision
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


def same_files(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Say which parts have a file of the same content, each content once.

    Left and right may be meant to be alike; a file saved under a wrong name is not.
    """
    held: dict[str, dict[str, tuple[str, str]]] = {}
    for revision in revisions:
        part = part_of(snapshot, revision)
        for file in revision.files if part else ():
            content = file.text_sha256 or file.sha256
            owner = part.id if part else ""
            held.setdefault(content, {})[owner] = (revision.title, file.path)
    for content, owners in held.items():
        if len(owners) < 2:
            continue
        paths = dict.fromkeys(path for _, path in owners.values())
        titles = " and ".join(title for title, _ in owners.values())
        if len(paths) == 1:
            yield f"{titles} are made from one file, {next(iter(paths))}"
        else:
            yield (
                f"{' and '.join(paths)} hold the same (SHA-256 begins {content[:12]}), "
                f"as {titles}: is one of them saved under a wrong name?"
            )
