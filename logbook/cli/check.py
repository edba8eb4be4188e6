"""`logbook check`: what cannot be read, does not fit, or would stop a release."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator, Sequence

from logbook.advice.advice import Advice, as_facts
from logbook.advice.same_drawing import drawn_as_before
from logbook.advice.same_file import same_files
from logbook.advice.stops import current_revisions, stops
from logbook.advice.unplaced import unplaced
from logbook.cli import terms
from logbook.errors import ProblemsFound
from logbook.project import Project
from logbook.records.dispositions import unanswered, undisposed
from logbook.records.record import Record
from logbook.store.acts import PAGES
from logbook.store.design_files import recorded_files
from logbook.store.reading import located
from logbook.store.released import without_record, without_tag

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


def run(args: argparse.Namespace) -> int:
    """List the problems; exit code 8 when there are any."""
    project = terms.opened(args)
    snapshot = project.snapshot
    found = stops(snapshot, None, recorded_files(project.root))
    problems = located(project.root, (*snapshot.problems, *found.problems))
    undecided = undisposed(snapshot)
    known = {record.id for record in undecided}
    unmet = unanswered(snapshot)
    stopping = [one for one in found.stops if one.about.id not in known]
    waiting, lost = project.waiting(), project.lost()
    orphans = list(without_record(snapshot, project.root, project.repository))
    torn = [*orphans, *without_tag(snapshot, project.repository)]
    stale = _stale(project)
    nowhere = list(unplaced(snapshot))
    current = current_revisions(snapshot)
    undrawn = [*drawn_as_before(snapshot, current), *same_files(snapshot, current)]
    code = ProblemsFound.exit_code if problems or lost or orphans else 0
    if args.json:
        terms.answer(
            records=len(snapshot),
            problems=[str(problem) for problem in problems],
            undecided=[terms.facts(project, record) for record in undecided],
            not_known_yet=[terms.facts(project, record) for record in unmet],
            stops=[as_facts(one) for one in stopping],
            waits=[as_facts(one) for one in found.waits],
            unplaced=nowhere,
            undrawn=undrawn,
            waiting=list(waiting),
            lost=list(lost),
            releases=torn,
            stale=stale,
        )
        return code
    for line in (
        *map(str, problems),
        *_asked("undecided", undecided, SETTLES),
        *_asked("not known yet", unmet, MEETS),
        *nowhere,
        *undrawn,
        *_waiting(stopping, found.waits),
        *(f"lost: {sentence}" for sentence in lost),
        *torn,
        *stale,
    ):
        print(line)
    words = f"{len(snapshot)} records, {len(problems)} problems, "
    print(words + f"{len(undecided)} undecided, {len(waiting)} waiting for git")
    return code


def _stale(project: Project) -> list[str]:
    """Say which guides are stale; where none is on disk nothing is loaded for it."""
    if not any((project.root / PAGES).glob("*/guide.md")):
        return []
    from logbook.publish.stale import stale_guides

    return list(stale_guides(project.snapshot, project.root, project.own_templates))


def _asked(what: str, records: Sequence[Record], answer: str) -> Iterator[str]:
    """Say which records want an answer, and how the first of them gets it."""
    for record in records:
        yield f"{what}: {record.title}  [{record.id}]"
    if records:
        yield f"  {answer}".format(id=records[0].id)


def _waiting(stopping: Iterable[Advice], waits: Iterable[Advice]) -> Iterator[str]:
    for one in stopping:
        passed = f"  (gone past: {one.passed})" if one.passed else ""
        yield f"would stop a release: {one.statement}{passed}"
    for one in waits:
        yield f"waits on the bench: {one.statement}"
