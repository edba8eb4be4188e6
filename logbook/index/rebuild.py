"""The cold rebuild as a program: `python -m logbook.index.rebuild PROJECT DATABASE`.

It prints one line for every few thousand files, “read 2000 of 100000”, and ends
with 0, or with 1 and a sentence where no index can be written.
"""

from __future__ import annotations

import gc
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

from logbook.errors import LogbookError
from logbook.index.database import build
from logbook.index.fill import Progress
from logbook.records.kinds.place import FOLDER
from logbook.store.reading.find import record_files

HOUSE = Path(__file__).parents[2]

FEW_FILES = 2000
"""So many files are read here sooner than a child has started to read them."""


def make(root: Path, path: Path, progress: Progress | None = None) -> bool:
    """Build the index anew, that of a large project in a child; False if it failed."""
    if len(record_files(root / FOLDER)) > FEW_FILES:
        return in_child(root, path, progress)
    try:
        build(root, path, progress)
    except (OSError, sqlite3.Error, LogbookError):
        return False
    return True


def in_child(root: Path, path: Path, progress: Progress | None = None) -> bool:
    """Rebuild in a child process, so that the keys stay quick; False if it failed."""
    # -P: the folder the user stands in may be a stranger's, with modules in it.
    start = (
        f"import sys; sys.path.append({str(HOUSE)!r}); "
        "from logbook.index.rebuild import main; sys.exit(main(sys.argv[1:]))"
    )
    words = [sys.executable, "-P", "-c", start, str(root), str(path)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        for line in child.stdout:
            said = line.split()
            if progress and len(said) == 4 and said[0] == "read":
                progress(int(said[1]), int(said[3]))
    return child.returncode == 0


def main(words: list[str]) -> int:
    """Rebuild the index of a project."""
    if len(words) != 2:
        print("accepted: PROJECT DATABASE", file=sys.stderr)
        return 2
    # Rows of every file are held and none of them in a circle: to look through them
    # for rubbish, again and again as they become more, finds nothing.
    gc.disable()
    try:
        build(Path(words[0]), Path(words[1]), _say, _hands())
    except (OSError, sqlite3.Error, LogbookError) as error:
        print(f"the index could not be written: {error}", file=sys.stderr)
        return 1
    return 0


def _hands() -> int:
    """Count the processes to read with: two halve the time, more add little."""
    return min(2, os.cpu_count() or 1)


def _say(done: int, total: int) -> None:
    print(f"read {done} of {total}", flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
