"""What a job sheet says of a build by a release: its known faults, made to what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.advice.faults.warned_of import at_step, counted
from logbook.publish.pages import capital
from logbook.publish.sheet.limits_printed import line_of
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import is_gone, pieces_of
from logbook.records.together.revisions import built_to, shown_label
from logbook.records.together.snapshot import Snapshot


def by_release(snapshot: Snapshot, build: Build | None) -> str:
    """Say by which release a build goes, and how many known faults that has."""
    release = snapshot.find(build.release, Release) if build else None
    if release is None:
        return ""
    told = counted(snapshot, release)
    return line_of(f"by {release.title}{f'. {capital(told)}' if told else ''}")


def faults_told(
    snapshot: Snapshot, build: Build | None, step: Step
) -> Iterator[tuple[str, str]]:
    """Give the known faults of what a step makes and takes, as it is in this build."""
    for one in at_step(snapshot, build, step) if build else ():
        led, _, rest = one.says.partition(": ")
        yield led, line_of(rest)


def made_to_told(
    snapshot: Snapshot, build: Build | None, parts: Sequence[Part]
) -> Iterator[str]:
    """Say to which revision each piece here is made, or the one still to be made."""
    if build is None or build.release is None:
        return
    for part in parts:
        if part.source is Source.BOUGHT:
            continue
        here = [
            (piece.title, snapshot.find(piece.revision, Revision))
            for piece in pieces_of(snapshot, part)
            if snapshot.find(piece.build) is build and not is_gone(snapshot, piece)
        ]
        for name, revision in here or [(part.title, built_to(snapshot, part, build))]:
            if revision is not None:
                yield f"{name}: {shown_label(revision)}"
