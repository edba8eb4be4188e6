"""What a file that is cut or printed from allows for already, and what is still to add.

Who does not know it takes the kerf off twice or not at all, and what was to fit does
not. Which process asks for what is common practice, no source.
"""

from __future__ import annotations

import re

from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.words import Source
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_of, shown_label
from logbook.records.together.snapshot import Snapshot

NOMINAL = "nominal"
"""What is said of a file that is drawn to the sizes of the finished part."""
_WIDTH = "the width of the cut"
_ASKS = (
    (r"laser|water\s?jet|plasma|wire.?cut|flame", _WIDTH),
    (r"print|cast|mou?ld", "shrinkage, of holes too,"),
)
_CUT_FROM = re.compile(r"(?i)\.(?:dxf|dwg|svg|stl|3mf|obj|amf|ste?p|gcode|nc)$")


def allowed_for(part: Part) -> str:
    """Name what a part that is made so has to be allowed for; empty where nothing."""
    for pattern, what in _ASKS:
        if re.search(rf"(?i)\b(?:{pattern})", " ".join(part.process)):
            return what
    return _WIDTH if part.source is Source.SERVICE else ""


def said_of(snapshot: Snapshot, revision: Revision) -> str:
    """Give what was said of its files, or of the same ones of an earlier revision."""
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    upto = line[: line.index(revision) + 1] if revision in line else (revision,)
    for one in reversed(upto):
        if not _same_files(one, revision):
            break
        if one.compensated:
            return one.compensated
    return ""


def compensation_words(snapshot: Snapshot, revision: Revision) -> str:
    """Say what the files of a revision allow for; empty where it matters to nothing.

    Where nobody has said it that is told, with what was said of the file before.
    """
    part = part_of(snapshot, revision)
    if part is None or not any(_CUT_FROM.search(f.path) for f in revision.files):
        return ""
    what, said = allowed_for(part), said_of(snapshot, revision)
    if said.casefold() == NOMINAL:
        if part.source is Source.SERVICE:
            more = f"let the service allow for {what}"
        else:
            more = f"allow for {what or 'what your machine does'} yourself"
        return f"nominal, the sizes of the finished part: {more}"
    if said:
        return f"allowed for in it already: {said}; do not allow for that again"
    if not what:
        return ""
    before = _before(snapshot, part, revision)
    return f"nobody has said whether {what} is allowed for in it already{before}"


def _before(snapshot: Snapshot, part: Part, revision: Revision) -> str:
    """Give what was said of the files before these, which are others."""
    line = revisions_of(snapshot, part)
    for one in reversed(line[: line.index(revision)] if revision in line else line):
        if one.compensated:
            return f"; of {shown_label(one)}, another file, it was: {one.compensated}"
    return ""


def _same_files(one: Revision, other: Revision) -> bool:
    held = {file.path: file for file in other.files}
    return len(one.files) == len(other.files) and all(
        file.path in held and same_content(file, held[file.path]) for file in one.files
    )
