"""Who tried a release: a build that made every revision in it that is made.

What is bought does not count, nor what is made to practise.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.counting import so_many
from logbook.records.kinds import design, workshop
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source, State
from logbook.records.states.counted import counted_made
from logbook.records.states.needed import needed_in
from logbook.records.states.pieces import piece_state
from logbook.records.states.practice import is_practice
from logbook.records.states.tried import spoiled
from logbook.records.together.snapshot import Snapshot

_NOT_MADE = {State.ORDERED, State.SENT_OUT}


@dataclass(frozen=True, slots=True)
class Trial:
    """What one build made of a release's revisions, and what it has no piece of.

    A piece that was scrapped was made: `scrapped` are those whose every piece was,
    `spoiled` those of them whose every piece was for a slip at the bench, which tells
    nothing of the drawing.
    """

    build: workshop.Build
    made: tuple[Revision, ...]
    missing: tuple[Revision, ...]
    scrapped: tuple[Revision, ...]
    spoiled: tuple[Revision, ...] = ()

    @property
    def whole(self) -> bool:
        """Tell whether the build tried everything in the release that is made."""
        return not self.missing and not self.spoiled


def trials(snapshot: Snapshot, release: Release) -> tuple[Trial, ...]:
    """Give the builds that made at least one revision of a release, oldest first."""
    wanted = [r for r in needed_in(snapshot, release) if _is_made(snapshot, r)]
    found = []
    for build in snapshot.all(workshop.Build):
        pieces = {r.id: tuple(_made(snapshot, r, build)) for r in wanted}
        counts = {r.id: tuple(counted_made(snapshot, r, build)) for r in wanted}
        made = tuple(r for r in wanted if pieces[r.id] or counts[r.id])
        shown = [r for r in made if pieces[r.id]]
        slips = tuple(r for r in shown if _all_spoiled(snapshot, pieces[r.id]))
        if len(made) > len(slips):
            missing = tuple(r for r in wanted if r not in made)
            gone = tuple(
                r
                for r in made
                if _all_scrapped(snapshot, pieces[r.id])
                and not any(count.used or count.spare for count in counts[r.id])
            )
            found.append(Trial(build, made, missing, gone, slips))
    return tuple(found)


def _is_made(snapshot: Snapshot, revision: Revision) -> bool:
    part = snapshot.find(revision.part, design.Part)
    if part is None or part.source is Source.BOUGHT:
        return False
    return not is_practice(snapshot, part)


def _all_spoiled(snapshot: Snapshot, pieces: Sequence[workshop.Piece]) -> bool:
    return all(spoiled(snapshot, piece) for piece in pieces)


def _all_scrapped(snapshot: Snapshot, pieces: Sequence[workshop.Piece]) -> bool:
    return all(piece_state(snapshot, piece) is State.SCRAPPED for piece in pieces)


def was_made(snapshot: Snapshot, revision: Revision) -> bool:
    """Tell whether a piece of a revision was made, for a build or to try it."""
    counted = counted_made(snapshot, revision)
    return any(_pieces(snapshot, revision)) or any(counted)


def _made(
    snapshot: Snapshot, revision: Revision, build: workshop.Build
) -> Iterator[workshop.Piece]:
    """Give the pieces a build made of a revision, those scrapped since too."""
    for piece in _pieces(snapshot, revision):
        if snapshot.find(piece.build) is build:
            yield piece


def _pieces(snapshot: Snapshot, revision: Revision) -> Iterator[workshop.Piece]:
    for piece in snapshot.mentions(revision, workshop.Piece):
        own = snapshot.find(piece.revision) is revision
        if own and piece_state(snapshot, piece) not in _NOT_MADE:
            yield piece


def tried_words(snapshot: Snapshot, release: Release) -> str:
    """Say plainly whether anybody has built a release."""
    found = trials(snapshot, release)
    whole = [trial for trial in found if trial.whole]
    if whole:
        names = ", ".join(trial.build.title for trial in whole)
        return f"Tried: {names} made every part of it{_scrapped(whole[-1])}."
    if not found:
        return "Untried: nobody has built this release."
    best = max(found, key=lambda trial: len(trial.made))
    count = len(best.made) + len(best.missing)
    but = f", all but {_listed(best.missing)}" if best.missing else ""
    return (
        f"Untried as a whole: {best.build.title} made {len(best.made)} of its "
        f"{so_many(count, 'part')}{but}{_scrapped(best)}."
    )


def _scrapped(trial: Trial) -> str:
    """Say which of what a build made were scrapped, for whatever reason."""
    if not trial.scrapped:
        return ""
    verb = "was" if len(trial.scrapped) == 1 else "were"
    return f"; of these {_listed(trial.scrapped)} {verb} scrapped"


def _listed(revisions: Sequence[Revision]) -> str:
    *names, last = (revision.title for revision in revisions)
    return f"{', '.join(names)} and {last}" if names else last
