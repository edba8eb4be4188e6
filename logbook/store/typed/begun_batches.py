"""Batches of new pieces that were begun: a piece is on record with its first reading.

Until then only this tells that it belongs to the batch, so that one left in the middle
is gone on with. It is a convenience: what cannot be read or written is as if nothing
had been begun, and after a day nobody is at it any more.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from logbook.errors import LogbookError
from logbook.store.disk.own_files import keep_own_file, own_file

KEPT_FOR = timedelta(days=1)
_NAME = "begun-batches.json"


def begun_batch(project: Path, part: str, build: str, now: datetime) -> tuple[int, ...]:
    """Give the numbers of the pieces begun last of the part with this id in a build."""
    for row in _rows(project):
        with suppress(KeyError, TypeError, ValueError):
            fresh = now - datetime.fromisoformat(row["at"]) < KEPT_FOR
            if fresh and (row["part"], row["build"]) == (part, build):
                return tuple(int(number) for number in row["numbers"])
    return ()


def begin_batch(
    project: Path, part: str, build: str, numbers: Sequence[int], now: datetime
) -> None:
    """Note which pieces of a part are begun; those begun of it before are no more."""
    row = {"part": part, "build": build, "numbers": [*numbers], "at": now.isoformat()}
    others = [
        one
        for one in _rows(project)
        if (one.get("part"), one.get("build")) != (part, build)
    ]
    with suppress(LogbookError):
        data = json.dumps([row, *others][:20]).encode()
        keep_own_file(project, _NAME, data, own_file(project, _NAME))


def _rows(project: Path) -> list[dict[str, Any]]:
    with suppress(LogbookError, ValueError):
        rows = json.loads(own_file(project, _NAME) or b"[]")
        return [row for row in rows if isinstance(row, dict)]
    return []
