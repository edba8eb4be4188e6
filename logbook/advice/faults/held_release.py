"""Which release somebody holds who holds its design files, and what else came with it.

Who has all the drawings of a release has its bought parts and its wiring too: their
faults concern him as well, though no file of them is there to be known by.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from logbook.advice.faults.fixing import releases_named
from logbook.advice.faults.holding import Held
from logbook.advice.faults.withdrawn_release import recalled
from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.made_public import Release
from logbook.records.states.needed import needed_in
from logbook.records.together.snapshot import Snapshot


def released_as(snapshot: Snapshot, files: Iterable[DesignFile]) -> tuple[Release, ...]:
    """Give the releases whose design files are all among these; those with the most."""
    held = tuple(files)
    whole = [
        one
        for one in snapshot.all(Release)
        if one.files
        and all(any(same_content(mine, file) for mine in held) for file in one.files)
    ]
    most = max((len(one.files) for one in whole), default=0)
    return tuple(one for one in whole if len(one.files) == most)


def came_with(
    snapshot: Snapshot, releases: Sequence[Release], held: Iterable[Held]
) -> tuple[Held, ...]:
    """Give what a release has beside what is held by its files; of several, nothing.

    Which of them it is the files do not tell, and they may differ in just that.
    """
    if len(releases) != 1:
        return ()
    release = releases[0]
    known = {one.part.id for thing in held for one in thing.revisions}
    return tuple(
        Held((one,), f"the {one.part.name} of release {release.label}")
        for one in needed_in(snapshot, release)
        if one.part.id not in known
    )


def release_words(snapshot: Snapshot, releases: Sequence[Release]) -> str:
    """Say of which release the files are, or of which they may be; empty of none.

    Of one that was withdrawn it is said that it was.
    """
    if not releases:
        return ""
    labels = [one.label for one in releases]
    said = f"these are the design files of {releases_named(labels)}"
    gone = (recalled(snapshot, one) for one in releases)
    said = "; ".join(filter(None, (said, *gone)))
    if len(labels) == 1:
        return said
    return (
        f"{said}: the files do not tell which; what has no file may differ, so look at "
        "the known faults of yours: logbook errata RELEASE --print"
    )
