"""`logbook check`: what cannot be read, does not fit, or would stop a release."""

from __future__ import annotations

import argparse

from logbook.advice.advice import as_facts
from logbook.advice.stops import stops
from logbook.cli import terms
from logbook.errors import ProblemsFound
from logbook.records.state import unanswered, undisposed
from logbook.store.design_files import recorded_files
from logbook.store.reading import located

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
    code = ProblemsFound.exit_code if problems or lost else 0
    if args.json:
        terms.answer(
            records=len(snapshot),
            problems=[str(problem) for problem in problems],
            undecided=[terms.facts(project, record) for record in undecided],
            not_known_yet=[terms.facts(project, record) for record in unmet],
            stops=[as_facts(one) for one in stopping],
            waits=[as_facts(one) for one in found.waits],
            waiting=list(waiting),
            lost=list(lost),
        )
        return code
    for problem in problems:
        print(problem)
    for record in undecided:
        print(f"undecided: {record.title}  [{record.id}]")
    if undecided:
        print(f"  {SETTLES}".format(id=undecided[0].id))
    for record in unmet:
        print(f"not known yet: {record.title}  [{record.id}]")
    if unmet:
        print(f"  {MEETS}".format(id=unmet[0].id))
    for one in stopping:
        passed = f"  (gone past: {one.passed})" if one.passed else ""
        print(f"would stop a release: {one.statement}{passed}")
    for one in found.waits:
        print(f"waits on the bench: {one.statement}")
    for sentence in lost:
        print(f"lost: {sentence}")
    words = f"{len(snapshot)} records, {len(problems)} problems, "
    print(words + f"{len(undecided)} undecided, {len(waiting)} waiting for git")
    return code
