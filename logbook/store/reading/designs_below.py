"""The designs that have a logbook of their own in the folders below one.

Several designs may lie in one repository, each in its folder. What lies in such a
folder is of that design, and of no other.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TypeVar

from logbook.records.kinds.place import FOLDER, PROJECT_FILE

F = TypeVar("F")
_DEEPEST = 4
"""So far down a design is looked for: `designs/lamps/desk/as-built` is found."""
_MOST = 4000
"""So many folders are looked into, and no more: the place may be a whole disk."""
_FOREIGN = frozenset({FOLDER, "node_modules", "__pycache__", "site-packages", "venv"})


def has_own_logbook(folder: Path) -> bool:
    """Tell whether a design with a logbook of its own lies in a folder."""
    return (folder / FOLDER / PROJECT_FILE).is_file()


def designs_below(folder: Path) -> tuple[str, ...]:
    """Give the folders below that have a logbook of their own, with `/`, sorted."""
    budget = [_MOST]
    return tuple(sorted(_below(folder, "", _DEEPEST, budget)))


def _below(folder: Path, inside: str, deep: int, budget: list[int]) -> Iterator[str]:
    try:
        with os.scandir(folder / inside) as entries:
            names = [one.name for one in entries if one.is_dir(follow_symlinks=False)]
    except OSError:
        return
    for name in names:
        path = f"{inside}/{name}" if inside else name
        budget[0] -= 1
        if budget[0] < 0 or name.startswith(".") or name in _FOREIGN:
            continue
        if (folder / path / ".git").exists():  # another repository
            continue
        if has_own_logbook(folder / path):
            yield path
        elif deep > 1:
            yield from _below(folder, path, deep - 1, budget)


def own_paths(root: Path, files: Mapping[str, F]) -> dict[str, F]:
    """Give those of the files below a design's folder that are of no other design."""
    others = tuple(f"{one}/" for one in designs_below(root))
    return {path: one for path, one in files.items() if not path.startswith(others)}
