"""Whose design a release would be of, where somebody else released it so far."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.made_public import Release
from logbook.records.kinds.place import FOLDER
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.repository import Repository
from logbook.store.git.whose import made_by_another


def whose_design(snapshot: Snapshot, root: Path, repository: Repository) -> str:
    """Say that another person made every release so far; else nothing.

    After the first release of one's own it was said.
    """
    releases = snapshot.all(Release)
    if not releases:
        return ""
    folder = Path(snapshot.path(releases[-1])).parts[1]
    other = made_by_another(repository, repository.relative(root / FOLDER / folder))
    if not other:
        return ""
    labels = ", ".join(one.label for one in releases[-3:])
    return (
        f"this is a design that {other} released ({labels}): yours would be its "
        "newest for all who take in your clone; what you found can be sent to "
        f"{other} instead"
    )
