"""`logbook check`: what cannot be read, does not fit, or would stop a release."""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.changes.branched import branched
from logbook.advice.changes.older_words import older_words
from logbook.advice.changes.same_drawing import drawn_as_before
from logbook.advice.changes.same_file import same_files
from logbook.advice.changes.unlisted import unlisted_in
from logbook.advice.changes.unlisted_cure import unlisted_cures
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.unplaced import unplaced
from logbook.advice.faults.unsaid import unsaid
from logbook.advice.ground.advice import Advice, as_facts
from logbook.advice.joints.unlisted_joints import unlisted_joints
from logbook.advice.pieces.drawn_in_doubt import drawn_in_doubt
from logbook.advice.stops import current_revisions, stops
from logbook.cli import terms
from logbook.counting import so_many
from logbook.errors import Problem, ProblemsFound, Refused
from logbook.project import Project
from logbook.publish.errata.record_ends import released_since
from logbook.publish.faults.unsaid_material import unsaid_materials
from logbook.records.kinds.record import Record
from logbook.records.states.dispositions import unanswered, undisposed
from logbook.store.acts.last import PAGES
from logbook.store.acts.released import without_record, without_tag
from logbook.store.acts.whose_tag import wrongly_tagged
from logbook.store.designs.design_files import recorded_files
from logbook.store.reading.records import located
from logbook.store.reading.stray import stray_records

SETTLES = (
    "undecided: nobody has said what is done with the piece; say it with: logbook "
    'dispose {id} "use as is" (or rework, repair, scrap, return)'
)
MEETS = (
    "not known yet: nobody has said whether another builder would meet this; say it "
    "with: logbook met {id} drawing (or piece, machine)"
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    terms.place(parser)


@dataclass(frozen=True, slots=True)
class _Found:
    """All that is told of a project, each kind in the order it is told."""

    problems: Sequence[Problem]
    undecided: Sequence[Record]
    rejected: Sequence[Advice]
    unmet: Sequence[Record]
    nowhere: Sequence[str]
    unsaid: Sequence[str]
    undrawn: Sequence[str]
    stopping: Sequence[Advice]
    waits: Sequence[Advice]
    waiting: Sequence[str]
    untold: str
    """Why git does not tell what waits for it, where it does not."""
    deleted: Sequence[str]
    lost: Sequence[str]
    orphans: Sequence[str]
    untagged: Sequence[str]
    stale: Sequence[str]

    @property
    def torn(self) -> list[str]:
        """Releases without their record, then those without their tag."""
        return [*self.orphans, *self.untagged]


def run(args: argparse.Namespace) -> int:
    """List the problems; exit code 8 when there are any."""
    project = terms.opened(args)
    found = _looked(project)
    if args.json:
        _answer(project, found)
    else:
        for line in _lines(found):
            print(line)
        print(_counted(project, found))
    wrong = found.problems or found.lost or found.orphans or found.untold
    return ProblemsFound.exit_code if wrong else 0


def _counted(project: Project, found: _Found) -> str:
    """Count in one line what was told; what the exit code is about is always there."""
    words = [so_many(project.snapshot, "record"), so_many(found.problems, "problem")]
    words += [f"{len(found.lost)} lost"] if found.lost else []
    torn = so_many(found.orphans, "release")
    words += [f"{torn} without a record"] if found.orphans else []
    takes = ": logbook commit takes it" if found.waiting else ""
    words += [f"{len(found.undecided) + len(found.rejected)} undecided"]
    if found.untold:
        return ", ".join([*words, "what waits for git is not known"])
    return ", ".join([*words, f"{len(found.waiting)} waiting for git{takes}"])


def _looked(project: Project) -> _Found:
    snapshot = project.snapshot
    waiting, untold = _of_git(project)
    found = stops(snapshot, None, recorded_files(project.root), project.at_hand)
    undecided = undisposed(snapshot)
    known = {record.id for record in undecided}
    current = current_revisions(snapshot)
    return _Found(
        problems=located(
            project.root,
            (*snapshot.problems, *stray_records(project.root), *found.problems),
        ),
        undecided=undecided,
        rejected=found.rejected,
        unmet=unanswered(snapshot),
        nowhere=list(unplaced(snapshot)),
        unsaid=list(unsaid(snapshot)),
        undrawn=[
            *drawn_in_doubt(snapshot, current),
            *drawn_as_before(snapshot, current),
            *same_files(snapshot, current),
            *unlisted_in(snapshot, current),
            *older_words(snapshot, current),
            *unlisted_cures(snapshot),
            *branched(snapshot),
            *unlisted_joints(snapshot),
            *unsaid_materials(snapshot, known_faults(snapshot)),
        ],
        stopping=[
            one
            for one in found.stops
            if one.about.id not in known and one not in found.rejected
        ],
        waits=found.waits,
        waiting=waiting,
        untold=untold,
        deleted=list(_deleted(project)),
        lost=[one.sentence for one in project.lost()],
        orphans=list(without_record(snapshot, project.root, project.repository)),
        untagged=[
            *without_tag(snapshot, project.root, project.repository),
            *wrongly_tagged(snapshot, project.root, project.repository),
            *released_since(snapshot, project.root, project.repository),
        ],
        stale=_stale(project),
    )


def _of_git(project: Project) -> tuple[Sequence[str], str]:
    """Give what waits for git, and why git cannot tell, where it cannot."""
    try:
        return project.waiting(), ""
    except Refused as why:
        return (), str(why)


def _deleted(project: Project) -> Iterator[str]:
    """Say of each file deleted by hand how it goes for good, and how it comes back."""
    try:
        paths = project.deleted()
    except Refused:  # why git cannot tell is told for itself
        return
    for path in paths:
        yield (
            f"{path}: deleted by hand, git still has it, and so has every clone; to "
            f"have it back: git checkout -- {shlex.quote(path)}; to have it go: "
            f"git rm -q {shlex.quote(path)} and git commit"
        )


def _answer(project: Project, found: _Found) -> None:
    terms.answer(
        records=len(project.snapshot),
        problems=[str(problem) for problem in found.problems],
        undecided=[terms.facts(project, record) for record in found.undecided],
        off_drawing=[as_facts(one) for one in found.rejected],
        not_known_yet=[terms.facts(project, record) for record in found.unmet],
        stops=[as_facts(one) for one in (*found.rejected, *found.stopping)],
        waits=[as_facts(one) for one in found.waits],
        unplaced=found.nowhere,
        unsaid=found.unsaid,
        undrawn=found.undrawn,
        waiting=None if found.untold else list(found.waiting),
        untold=found.untold,
        deleted=list(found.deleted),
        lost=list(found.lost),
        releases=found.torn,
        stale=found.stale,
    )


def _lines(found: _Found) -> Iterator[str]:
    yield from map(str, found.problems)
    yield from _asked("undecided", found.undecided, SETTLES)
    yield from _undecided(found.rejected)
    yield from _asked("not known yet", found.unmet, MEETS)
    yield from found.nowhere
    yield from found.unsaid
    yield from found.undrawn
    yield from _waiting(found.stopping, found.waits)
    yield from found.deleted
    yield from (f"lost: {sentence}" for sentence in found.lost)
    yield from found.torn
    yield from found.stale
    if found.untold:
        yield f"git does not tell what waits for it: {found.untold}"


def _stale(project: Project) -> list[str]:
    """Say which pages are stale; where none is on disk nothing is loaded for it."""
    if not any((project.root / PAGES).rglob("*.md")):
        return []

    from logbook.cli.pages import stale_of

    return stale_of(project)


def _asked(what: str, records: Sequence[Record], answer: str) -> Iterator[str]:
    """Say which records want an answer, and how the first of them gets it."""
    for record in records:
        yield f"{what}: {record.title}  [{record.id}]"
    if len(records) > 1:
        each = "say it of each by its id, of the first with"
        yield f"  {answer}".format(id=records[0].id).replace("say it with", each)
    elif records:
        yield f"  {answer}".format(id=records[0].id)


def _undecided(rejected: Iterable[Advice]) -> Iterator[str]:
    """Say which pieces are off their drawing; each stops a release until decided."""
    for one in rejected:
        passed = f"  (gone past: {one.passed})" if one.passed else ""
        yield f"undecided, would stop a release: {one.statement}{passed}"


def _waiting(stopping: Iterable[Advice], waits: Iterable[Advice]) -> Iterator[str]:
    for one in stopping:
        passed = f"  (gone past: {one.passed})" if one.passed else ""
        yield f"would stop a release: {one.statement}{passed}"
    for one in waits:
        yield f"waits on the bench: {one.statement}"
