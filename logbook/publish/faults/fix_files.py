"""By which file a fix is made: who holds an old release has one of the same name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.faults.fixing import Fixed
from logbook.advice.ground.same_content import same_content
from logbook.publish.html import anchor
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.words import Source
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class FixFile:
    """A file to make a fix from: its name, its sign, how it stands to the old one."""

    name: str
    sign: str
    beside: str


def fix_files(fix: Fixed, having: Sequence[Revision]) -> Iterator[FixFile]:
    """Name each file of the revision to take, and how to know it from the old one."""
    for file in fix.revision.files:
        same = [
            one.title
            for one in having
            if any(same_content(file, old) for old in one.files)
        ]
        older = [
            one.title for one in having if file.path in {old.path for old in one.files}
        ]
        held = f" of release {fix.releases[-1]}" if fix.releases else ""
        if same:
            yield FixFile(file.path, "", f"the same file as for {' and '.join(same)}")
        else:
            sign = f"SHA-256 begins {file.sha256[:12]}"
            beside = f"not that of {' or '.join(older)}" if older else ""
            yield FixFile(f"{file.path}{held}", sign, beside)


def fix_guide(snapshot: Snapshot, fix: Fixed) -> str:
    """Give where in the guides its making is told, as LABEL/guide.md#part.

    That is in the newest release that holds it; empty where none does, or where it is
    bought.
    """
    part = snapshot.find(fix.revision.part, Part)
    if part is None or not fix.releases or part.source is Source.BOUGHT:
        return ""
    return f"{fix.releases[-1]}/guide.md#{anchor(part.title)}"
