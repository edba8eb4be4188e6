"""A line that says which unit design files are in: `diffuser.dxf is in inches`.

A file that names its unit itself is not asked; of one that names none somebody says it
once. What is said of is a file of a part, by its name or by how it ends.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath

from logbook.records.kinds.design import Part
from logbook.records.together.names import folded
from logbook.records.together.revisions import current_revision, parts_now
from logbook.records.together.snapshot import Snapshot
from logbook.units import find_unit, is_length

_LINE = re.compile(
    r"(?P<what>\S.*?)\s+(?:is|are|was|were)\s+(?:all\s+)?"
    r"(?:drawn\s+|saved\s+|exported\s+)?in\s+(?P<unit>[^\W\d]+)",
    re.IGNORECASE,
)
_KIND = re.compile(
    r"(?:(?:the|all|our|my)\s+)*(?:(?P<part>.+?)(?:['’]s)?\s+)??"
    r"(?P<ending>stl|dxf|svg)(?P<many>s|\s+files|\s+drawings)?(?:\s+(?:file|drawing))?"
    r"(?:\s+(?:of|for)\s+(?:the\s+)?(?P<of>.+))?",
    re.IGNORECASE,
)
_AROUND = " \t“”\"'‘’"

Files = tuple[tuple[Part, tuple[str, ...]], ...]
"""Files by their paths, with the part each is of."""


@dataclass(frozen=True, slots=True)
class FileUnit:
    """A unit, and the design files that are said to be in it.

    It is `unclear` where one file is said and several are called so: it says which.
    """

    files: Files
    unit: str
    unclear: str = ""

    kind = "file unit"

    @property
    def paths(self) -> list[str]:
        """The files by their paths."""
        return [path for _, paths in self.files for path in paths]

    @property
    def words(self) -> str:
        """Say what is understood: what one unit in the file is."""
        said = f"{', '.join(self.paths)}: one unit of it is 1 {self.unit}"
        return self.unclear or said

    @property
    def facts(self) -> dict[str, object]:
        """The facts as a program reads them."""
        return {"files": self.paths, "unit": self.unit}


def file_unit_said(line: str, snapshot: Snapshot) -> FileUnit | None:
    """Give the files of parts on record a line says the unit of; None: it says none."""
    said = _LINE.fullmatch(" ".join(line.split()).rstrip(" .!"))
    if said is None or not is_length(said["unit"]):
        return None
    what = said["what"].strip(_AROUND)
    found, several = _named(what, snapshot)
    if not found:
        return None
    unit = find_unit(said["unit"]).symbol
    paths = list(dict.fromkeys(path for _, path in found))
    if len(paths) > 1 and not several:
        few = ", ".join(paths[:4]) + (" and more" if len(paths) > 4 else "")
        accepted = f"one by its name, as “{paths[0]} is in {unit}”"
        return FileUnit((), unit, f"“{what}” can be {few}; accepted: {accepted}")
    by_part = {part.id: part for part, _ in found}
    files = tuple(
        (part, tuple(path for of, path in found if of is part))
        for part in by_part.values()
    )
    return FileUnit(files, unit)


def _named(what: str, snapshot: Snapshot) -> tuple[list[tuple[Part, str]], bool]:
    """Give the files that some words name, and whether these say that it is several.

    They name one by its name, or by how it ends.
    """
    every = sorted(_files(snapshot), key=lambda one: one[1])
    low = re.sub(r"(?i)^the\s+", "", what).casefold()
    by_name = [
        (part, path)
        for part, path in every
        if low in (path.casefold(), PurePosixPath(path).name.casefold())
    ]
    kind = _KIND.fullmatch(what)
    if by_name or kind is None:
        return by_name, False
    ends = f".{kind['ending'].casefold()}"
    of = folded((kind["part"] or kind["of"] or "").strip(_AROUND))
    found = [
        (part, path)
        for part, path in every
        if path.casefold().endswith(ends) and (not of or folded(part.title) == of)
    ]
    return found, kind["many"] is not None


def _files(snapshot: Snapshot) -> Iterator[tuple[Part, str]]:
    for part in parts_now(snapshot):
        revision = current_revision(snapshot, part)
        for file in revision.files if revision else ():
            yield part, file.path
