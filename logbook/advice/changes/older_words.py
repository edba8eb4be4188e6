"""What of the words of the list may be older than what is bought now.

A part is bought by another revision, and its line still says what the last release
said of the one before.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Iterator

from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.states.statements import Form
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_in, shown_label
from logbook.records.together.snapshot import Snapshot


def older_words(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Say it of each of these revisions; once they are released so, no more."""
    last = max(snapshot.all(Release), key=lambda r: (r.when, r.id), default=None)
    held = revisions_in(snapshot, last) if last else ()
    for one in revisions:
        part = part_of(snapshot, one)
        before = next((old for old in held if part_of(snapshot, old) is part), one)
        if part is None or part.source is not Source.BOUGHT or before is one:
            continue
        for line in snapshot.all(Line):
            if snapshot.find(line.part) is part and _said_so(last, line):
                yield (
                    f"the list has the {part.title} bought as “{line.bought_as}”, as "
                    f"release {last.label if last else ''} had it for "
                    f"{shown_label(before)}: where that is not {shown_label(one)}, the "
                    "old one will be bought; say what is with: logbook line "
                    f"{shlex.quote(part.title)} --bought-as …"
                )


def _said_so(release: Release | None, line: Line) -> bool:
    """Tell whether a release said of a line that the same is bought."""
    words = f"; bought as {line.bought_as}"
    return bool(line.bought_as) and any(
        one.form == Form.LINE and one.of.id == line.id and words in one.says
        for one in (release.statements if release else ())
    )
