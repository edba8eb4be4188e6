"""How who holds a made part can tell that it has a known fault."""

from __future__ import annotations

import re
from collections.abc import Sequence

from logbook.advice.faults.telling_bought import bought_words
from logbook.quantity import Quantity
from logbook.records.kinds import assembling, design
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.words import Source
from logbook.records.sizes.definition import dimension
from logbook.records.states.read_now import found_now, found_words
from logbook.records.states.wanted import wanted
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot


def how_to_tell(
    snapshot: Snapshot,
    entry: Deviation | Failure,
    revision: Revision | None,
    having: Sequence[Revision] = (),
) -> str:
    """Say what to look at: a size, then the file a piece was made from.

    `having` are all revisions that have it, where the one it was found on is not the
    only one. A size made to suit is this build's own: nobody else can tell by it. Nor
    by a file that a revision without it has as well.
    """
    every = having or ((revision,) if revision else ())
    own, shared = files_that_tell(snapshot, every)
    said = []
    if isinstance(entry, Deviation) and entry.wanted and entry.found:
        alike = _drawn_as_found(snapshot, entry, revision, every)
        said.append(_by_size(snapshot, entry, revision, alike))
        if revision is not None and alike is not None and not own:
            # Neither size nor file tells; what else was changed does.
            return f"{said[0]}; {_by_rest(snapshot, entry, revision, alike, shared)}"
    if every:
        told = dict.fromkeys(made_from(snapshot, one, every) for one in every)
        said.append("; or ".join(told))
        for file, others in shared:
            said.append(
                f"{file.path} does not tell them apart, {others} has the same file"
            )
        if shared and not own and (changed := _changed_after(snapshot, every)):
            said.append(f"what tells: {changed}")
    return "; ".join(said)


MADE_FROM = "it was made from"
"""The words that name the revision of a piece, where its file tells."""
BOUGHT_AS = "it was bought as"


def made_from(
    snapshot: Snapshot, revision: Revision, having: Sequence[Revision] = ()
) -> str:
    """Say that a piece was made from a revision, with the files that tell it.

    Those are files that no revision has but those `having` the fault.
    """
    own, _ = files_that_tell(snapshot, (revision,), having)
    files = ", ".join(f"{f.path}, SHA-256 begins {f.sha256[:12]}" for f in own)
    part = snapshot.find(revision.part, design.Part)
    if part is not None and part.source is Source.BOUGHT:
        made = f"{BOUGHT_AS} {bought_words(snapshot, part, revision, having)}"
    else:
        made = f"{MADE_FROM} {revision.title}"
    return f"{made} ({files})" if files else made


def _by_size(
    snapshot: Snapshot,
    entry: Deviation,
    revision: Revision | None,
    alike: Revision | None,
) -> str:
    """Say which size tells, or that none does: a later revision is drawn so."""
    item = snapshot.find(entry.characteristic, Characteristic)
    what = item.title if item else "it"
    suits = _suits(snapshot, item) if item else None
    found = found_words(snapshot, entry)
    told = wanted(snapshot, entry, revision)
    if suits is not None:
        drawn = told.drawn if told and told.drawn else entry.wanted
        return (
            f"the {what} was made to the {drawn} drawn, before the gap "
            f"“{suits.title}” was measured"
        )
    if alike is not None:
        return (
            f"the {what} does not tell: {found} is also what {alike.title} has, and "
            "that is without the fault"
        )
    if told is None or told.as_drawn:
        return f"measure the {what}: {found} where the drawing has {entry.wanted}"
    by = f"drawn {told.drawn}, " if told.drawn else ""
    return f"measure the {what}: {by}found {found}, where it should be {told.said}"


def _drawn_as_found(
    snapshot: Snapshot,
    entry: Deviation,
    revision: Revision | None,
    having: Sequence[Revision],
) -> Revision | None:
    """Give the first later revision without it that draws the size as it was found."""
    part = snapshot.find(revision.part, design.Part) if revision else None
    line = revisions_of(snapshot, part) if part else ()
    item = snapshot.find(entry.characteristic, Characteristic)
    found = found_now(snapshot, entry)
    later = line[line.index(revision) + 1 :] if revision in line else ()
    for one in (r for r in later if r not in having) if item and found else ():
        drawn = dimension(snapshot, one, item).nominal if item else None
        if drawn and found and _same(drawn, found):
            return one
    return None


def _by_rest(
    snapshot: Snapshot,
    entry: Deviation,
    revision: Revision,
    alike: Revision,
    shared: list[tuple[design.DesignFile, str]],
) -> str:
    """Say what else a revision changed that draws the size as it was found."""
    size = found_now(snapshot, entry)
    told = re.split(r"[;,]\s+", alike.changed)
    rest = [one for one in told if one and str(size).casefold() not in one.casefold()]
    files = f"nor does {shared[0][0].path}, the same file for both; " if shared else ""
    if not rest:
        return f"{files}ask which revision yours was made to: {revision.title} has it"
    return f"{files}yours has it where this was not done: {', '.join(rest)}"


def _same(one: Quantity, other: Quantity) -> bool:
    return one.dimension == other.dimension and one.to(other.unit) == other.value


def files_that_tell(
    snapshot: Snapshot, revisions: Sequence[Revision], having: Sequence[Revision] = ()
) -> tuple[list[design.DesignFile], list[tuple[design.DesignFile, str]]]:
    """Give the files of revisions that tell them, and the others with who has them.

    A file tells where no other revision has it than these and those `having` the fault.
    """
    own: list[design.DesignFile] = []
    shared: list[tuple[design.DesignFile, str]] = []
    for revision in revisions:
        part = snapshot.find(revision.part, design.Part)
        line = revisions_of(snapshot, part) if part else ()
        for file in revision.files:
            others = [
                one.title
                for one in line
                if one not in revisions
                and one not in having
                and file.sha256 in {f.sha256 for f in one.files}
            ]
            if others:
                shared.append((file, " and ".join(others)))
            else:
                own.append(file)
    return own, list({file.sha256: (file, who) for file, who in shared}.values())


def _changed_after(snapshot: Snapshot, having: Sequence[Revision]) -> str:
    """Say what the revisions have that followed the newest with it."""
    newest = having[-1]
    part = snapshot.find(newest.part, design.Part)
    line = revisions_of(snapshot, part) if part else ()
    later = line[line.index(newest) + 1 :] if newest in line else ()
    return ", ".join(f"{one.title} has {one.changed}" for one in later if one.changed)


def _suits(snapshot: Snapshot, item: Characteristic) -> assembling.Fit | None:
    """Give the gap a dimension is made last for."""
    gaps = snapshot.all(assembling.Fit)
    return next((g for g in gaps if snapshot.find(g.made_last) is item), None)
