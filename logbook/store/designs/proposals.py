"""Parts that the design files here speak of, before anybody has made them.

Known by the names of the files alone, so that looking costs no reading; what a
file holds is read when its part is made.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from logbook.records.kinds.design import Part, Revision
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.design_files import named_files, recorded
from logbook.store.designs.part_names import ProposedPart, propose_parts


def unmade_parts(root: Path, snapshot: Snapshot) -> tuple[ProposedPart, ...]:
    """Give the parts proposed by design files that no part here stands for.

    Drawings alone propose too: a line that names one says that it is a part.
    """
    known = {
        folded(name)
        for part in snapshot.all(Part)
        for name in (part.title, part.name, *part.aliases, *part.formerly)
    }
    taken = {file.path for one in snapshot.all(Revision) for file in one.files}
    said = snapshot.project.not_parts
    files = [one for one in named_files(root) if one.path not in said]
    return tuple(
        proposed
        for proposed in propose_parts(files, drawings=True)
        if folded(proposed.title) not in known
        and proposed.name not in known
        and taken.isdisjoint(proposed.paths)
    )


def make_proposed(draft: Draft, root: Path, titles: Iterable[str]) -> None:
    """Make those of the titled parts that design files propose, with their files."""
    wanted = {
        folded(title)
        for title in titles
        if title and not draft.snapshot.named(title, Part)
    }
    if not wanted:
        return
    for proposed in unmade_parts(root, draft.snapshot):
        if folded(proposed.title) in wanted:
            wanted.remove(folded(proposed.title))
            take_proposed(draft, proposed, root)


def take_proposed(draft: Draft, proposed: ProposedPart, root: Path) -> Part:
    """Make the part with a revision for each that its file names tell of."""
    first, *later = proposed.revisions
    title = _own_title(draft, proposed)
    part = draft.new_part(title, label=first.label, files=recorded(root, first.files))
    for revision in later:
        draft.new_revision(part, revision.label, files=recorded(root, revision.files))
    return part


def _own_title(draft: Draft, proposed: ProposedPart) -> str:
    """Give a title no other new part has: its number helps, else a count."""
    taken = {folded(r.title) for r in draft.new if isinstance(r, Part)}
    title = proposed.title
    if folded(title) in taken and proposed.number:
        title = f"{proposed.number} {title}"
    count = 2
    while folded(title) in taken:
        title = f"{proposed.title} {count}"
        count += 1
    return title
