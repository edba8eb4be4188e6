"""A release put together: revisions, files as they are on disk, and what hinders it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from logbook.advice.changes.file_units import (
    SAY_SO,
    unit_told,
    units_left_behind,
    with_units,
)
from logbook.advice.stops import stops
from logbook.errors import BadInput
from logbook.publish.release.statements import statements
from logbook.publish.release.trials import trials
from logbook.publish.release.unfiled import RELEASED, loose_files, unfiled
from logbook.records.kinds import design
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.own_tags import tag_of
from logbook.store.designs.design_files import recorded_files
from logbook.store.designs.unsaid_units import unsaid_units
from logbook.store.git.history import changed_since_head
from logbook.store.git.repository import Repository
from logbook.store.reading.designs_below import own_paths
from logbook.store.reading.records import located

_LABEL = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9._+-]*[A-Za-z0-9+])?")


def check_label(label: str) -> str:
    """Give a release label that can also name a tag and a folder.

    Raises:
        BadInput: it cannot.
    """
    fits = _LABEL.fullmatch(label) and ".." not in label
    if not fits or label.endswith(".lock") or len(label) > 60:
        raise BadInput(
            f"release: found “{label}”; accepted: letters, digits, . _ + and -, "
            "such as 1.0"
        )
    return label


# -- what goes in ----------------------------------------------------------------


def chosen_revisions(
    snapshot: Snapshot, named: Sequence[str] = ()
) -> tuple[Revision, ...]:
    """Give the revision of each part that goes in: the named, else the current one.

    Raises:
        NotFound: a name means no revision, or several.
        BadInput: two revisions of one part are named.
    """
    picked: dict[str, Revision] = {}
    for words in named:
        revision = snapshot.lookup(words, Revision)
        key = revision.part.id
        if key in picked and picked[key] is not revision:
            raise BadInput(
                f"--revision: found {picked[key].title} and {revision.title}; "
                "accepted: one revision of each part"
            )
        picked[key] = revision
    found = []
    for part in sorted(snapshot.all(design.Part), key=lambda p: p.title.casefold()):
        revision_ = picked.get(part.id) or current_revision(snapshot, part)
        if revision_ is not None:
            found.append(revision_)
    return tuple(found)


def freeze(
    snapshot: Snapshot,
    root: Path,
    label: str,
    revisions: tuple[Revision, ...],
    when: datetime,
    summary: str = "",
) -> Release:
    """Make the record of a release: revisions, files as on disk, statements.

    No two of them are of one second: which is the later has to be told.
    """
    on_disk = recorded_files(root)
    files = _files(on_disk, revisions)
    made = Release(
        id=new_id(),
        title=f"release {label}",
        when=_after_others(snapshot, when.replace(microsecond=0)),
        label=label,
        tag=tag_of(root, label),
        revisions=tuple(revision.ref for revision in revisions),
        summary=summary,
        of_no_part=tuple(_of_no_part(snapshot, root, on_disk)),
        files=files,
        statements=statements(snapshot, revisions, files),
    )
    tried = tuple(trial.build.ref for trial in trials(snapshot, made) if trial.whole)
    return replace(made, tried_by=tried)


def _after_others(snapshot: Snapshot, when: datetime) -> datetime:
    taken = {one.when for one in snapshot.all(Release)}
    while when in taken:
        when += timedelta(seconds=1)
    return when


def _files(
    on_disk: Mapping[str, DesignFile], revisions: Sequence[Revision]
) -> tuple[DesignFile, ...]:
    """Give the files of the revisions with the hashes they have on disk now."""
    named = [file for one in revisions for file in one.files]
    paths = dict.fromkeys(file.path for file in named)
    return with_units((on_disk[path] for path in paths if path in on_disk), named)


def _of_no_part(
    snapshot: Snapshot, root: Path, on_disk: Mapping[str, DesignFile]
) -> Iterator[str]:
    """Give the design files that lie there and are of no part, said so or not."""
    said = [path for path in snapshot.project.not_parts if path in on_disk]
    yield from sorted({*said, *loose_files(snapshot, own_paths(root, on_disk))})


# -- what hinders ----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Hindered:
    """What should be settled before a release, and what somebody went on past.

    `unfiled` says what goes out without its file, or in a unit nobody can tell, and
    what lies here and goes with no part.
    """

    unsettled: tuple[str, ...]
    passed: tuple[str, ...]
    unfiled: tuple[str, ...] = ()


def hindrances(
    snapshot: Snapshot,
    root: Path,
    repository: Repository,
    revisions: tuple[Revision, ...],
    build: Build | None = None,
) -> Hindered:
    """List as sentences what should be settled before these are released.

    `build` is the one in hand.
    """
    known = recorded_files(root)
    found = stops(snapshot, revisions, known, build)
    return Hindered(
        (
            *map(str, located(root, (*snapshot.problems, *found.problems))),
            *(one.statement for one in found.open),
            *_uncommitted(root, repository, revisions, known),
        ),
        tuple(f"{one.statement} ({one.passed})" for one in found.stops if one.passed),
        (
            *unfiled(snapshot, revisions, known, own_paths(root, known)),
            *_in_no_unit(snapshot, root, revisions, known),
        ),
    )


def _in_no_unit(
    snapshot: Snapshot,
    root: Path,
    revisions: Sequence[Revision],
    known: Mapping[str, DesignFile],
) -> Iterator[str]:
    """Say of which files nobody can tell the unit, with what mends it."""
    paths = [
        file.path
        for one in revisions
        for file in one.files
        if file.path in known and not unit_told(snapshot, known[file.path])
    ]
    say = SAY_SO.format(part="PART", unit="UNIT")
    for said in unsaid_units(root, paths, snapshot.project.unit):
        yield (
            f"{said} Rebuilders cannot tell: draw it in {snapshot.project.unit}, "
            f"then logbook revise PART --redrawn; {RELEASED}. Or say which unit it is "
            f"in: {say}"
        )
    yield from units_left_behind(snapshot, revisions, known)


def _uncommitted(
    root: Path,
    repository: Repository,
    revisions: Sequence[Revision],
    known: Mapping[str, DesignFile],
) -> Iterator[str]:
    paths = {file.path for one in revisions for file in one.files if file.path in known}
    tops = {repository.relative(root / path): path for path in sorted(paths)}
    changed = changed_since_head(repository, tuple(tops)) if tops else ()
    for top in changed or ():
        yield f"{tops.get(top, top)}: not committed as it is now, the tag would miss it"
