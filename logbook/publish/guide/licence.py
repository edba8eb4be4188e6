"""Which file of the repository holds its licence, where the records state none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from logbook.records.written.shown_signs import is_utf8

_NAMED = re.compile(r"(?i)(?:licen[cs]e|copying)(?:[.-].+)?")
"""As files of licences are called (common practice, no source)."""


def licence_files(folders: Iterable[Path]) -> str:
    """Name the licence files in the first of the folders that has any; else nothing."""
    for folder in folders:
        found = [one.name for one in folder.iterdir() if _NAMED.fullmatch(one.name)]
        found = [one for one in found if is_utf8(one) and (folder / one).is_file()]
        if found := sorted(found):
            return " and ".join(found)
    return ""
