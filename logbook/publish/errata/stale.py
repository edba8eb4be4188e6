"""Pages on disk that say otherwise than the records by now.

The one meaning of “out of date”: `logbook pages` would write the page anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logbook.publish.page_files import Press, differing, paper_on_disk
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.repository import Repository


def stale_pages(
    snapshot: Snapshot, root: Path, repository: Repository, own: Path | None
) -> Iterator[str]:
    """Say in one sentence which pages are out of date; nothing where none is.

    A page that was never written is none of them. `own` are the project's templates.
    """
    press = Press(snapshot, root, repository, own, paper_on_disk(root))
    old = [name for name, files in press.pages_there() if differing(root, files)]
    if old:
        yield f"out of date: {', '.join(old)}; written anew with: logbook pages"
