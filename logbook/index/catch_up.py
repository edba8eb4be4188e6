"""Taking in what changed on disk, as a program: `… PROJECT DATABASE`.

Many files are much to read for a thread beside the keys; a process of its own does
it without holding them up.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from logbook.errors import LogbookError
from logbook.index.catalogue import Index
from logbook.index.rebuild import HOUSE

GIVES_WAY = 10
"""By so much it is less urgent than the keys."""


def in_child(root: Path, path: Path) -> bool:
    """Take in whatever changed, in a child process; False if that was not to be."""
    # -P: the folder the user stands in may be a stranger's, with modules in it.
    start = (
        f"import sys; sys.path.append({str(HOUSE)!r}); "
        "from logbook.index.catch_up import main; sys.exit(main(sys.argv[1:]))"
    )
    words = [sys.executable, "-P", "-c", start, str(root), str(path)]
    try:
        done = subprocess.run(
            words,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            process_group=0,
            check=False,
        )
    except OSError:
        return False
    return done.returncode == 0


def main(words: list[str]) -> int:
    """Bring the index of a project up to date, if there is one."""
    root, path = map(Path, words)
    if hasattr(os, "nice"):
        os.nice(GIVES_WAY)
    try:
        index = Index.open_existing(root, path)
        if index is None:
            return 1
        index.bring_up_to_date()
        index.close()
    except (OSError, LogbookError):
        return 1
    return 0
