"""How who holds a made part can tell that it has a known fault."""

from __future__ import annotations

from logbook.quantity import Quantity
from logbook.records import assembling, design
from logbook.records.definition import dimension
from logbook.records.design import Characteristic, Revision
from logbook.records.happenings import Deviation, Failure
from logbook.records.revisions import revisions_of
from logbook.records.snapshot import Snapshot


def how_to_tell(
    snapshot: Snapshot, entry: Deviation | Failure, revision: Revision | None
) -> str:
    """Say what to look at: a size, then the file a piece was made from.

    A size made to suit is this build's own: nobody else can tell by it. Nor by a
    file that another revision has as well.
    """
    said = []
    if isinstance(entry, Deviation) and entry.wanted and entry.found:
        item = snapshot.find(entry.characteristic, Characteristic)
        what = item.title if item else "it"
        suits = _suits(snapshot, item) if item else None
        if suits is not None:
            said.append(
                f"the {what} was made to the {entry.wanted} drawn, before the gap "
                f"“{suits.title}” was measured"
            )
        else:
            said.append(_by_size(snapshot, what, entry, revision))
    if revision is not None:
        made = f"it was made from {revision.title}"
        own, shared = _telling(snapshot, revision)
        files = ", ".join(f"{f.path}, SHA-256 begins {f.sha256[:12]}" for f in own)
        said.append(f"{made} ({files})" if files else made)
        for file, others in shared:
            said.append(
                f"{file.path} does not tell them apart, {others} has the same file"
            )
        if shared and not own and (changed := _changed_after(snapshot, revision)):
            said.append(f"what tells: {changed}")
    return "; ".join(said)


def _by_size(
    snapshot: Snapshot, what: str, entry: Deviation, revision: Revision | None
) -> str:
    """Say which size tells, or that none does: a later revision is drawn so."""
    part = snapshot.find(revision.part, design.Part) if revision else None
    line = revisions_of(snapshot, part) if part else ()
    item = snapshot.find(entry.characteristic, Characteristic)
    later = line[line.index(revision) + 1 :] if revision in line else ()
    for one in later if item else ():
        drawn = dimension(snapshot, one, item).nominal if item else None
        if drawn and entry.found and _same(drawn, entry.found):
            changed = f" ({one.changed})" if one.changed else ""
            return (
                f"the {what} does not tell them apart: {entry.found} is also what "
                f"{one.title} has{changed}, look at what else that changed"
            )
    return f"measure the {what}: {entry.found} where the drawing has {entry.wanted}"


def _same(one: Quantity, other: Quantity) -> bool:
    return one.dimension == other.dimension and one.to(other.unit) == other.value


def _telling(
    snapshot: Snapshot, revision: Revision
) -> tuple[list[design.DesignFile], list[tuple[design.DesignFile, str]]]:
    """Give the files only this revision has, and the others with who else has them."""
    part = snapshot.find(revision.part, design.Part)
    line = revisions_of(snapshot, part) if part else ()
    own, shared = [], []
    for file in revision.files:
        others = [
            one.title
            for one in line
            if one is not revision and file.sha256 in {f.sha256 for f in one.files}
        ]
        if others:
            shared.append((file, " and ".join(others)))
        else:
            own.append(file)
    return own, shared


def _changed_after(snapshot: Snapshot, revision: Revision) -> str:
    """Say what the revisions that followed have and this one has not."""
    part = snapshot.find(revision.part, design.Part)
    line = revisions_of(snapshot, part) if part else ()
    later = line[line.index(revision) + 1 :] if revision in line else ()
    return ", ".join(f"{one.title} has {one.changed}" for one in later if one.changed)


def _suits(snapshot: Snapshot, item: Characteristic) -> assembling.Fit | None:
    """Give the gap a dimension is made last for."""
    gaps = snapshot.all(assembling.Fit)
    return next((g for g in gaps if snapshot.find(g.made_last) is item), None)
