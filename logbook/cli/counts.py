"""`logbook counts`: used, scrapped and left over against the parts list."""

from __future__ import annotations

import argparse

from logbook.advice.changes.listing import files_without_line, lines_without_file
from logbook.advice.ground.advice import STANDING, as_facts
from logbook.advice.pieces.counts import counts_advice, parts_list
from logbook.cli import terms
from logbook.errors import ProblemsFound
from logbook.records.kinds.workshop import Build
from logbook.store.designs.design_files import recorded_files
from logbook.store.reading.designs_below import own_paths


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("build", nargs="?", default="", help="which; else this build")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Compare; exit code 8 where an assembly would contain itself."""
    project = terms.opened(args)
    snapshot = project.snapshot
    build = snapshot.lookup(args.build, Build) if args.build else project.at_hand
    found = list(counts_advice(snapshot, build))
    problems = parts_list(snapshot)[1]
    stray = files_without_line(
        snapshot, own_paths(project.root, recorded_files(project.root))
    )
    bare = lines_without_file(snapshot)
    code = ProblemsFound.exit_code if problems else 0
    if args.json:
        terms.answer(
            advice=[as_facts(one) for one in found],
            files_without_line=[{"path": p, "because": why} for p, why in stray],
            lines_without_file=[part.title for part in bare],
            problems=[str(one) for one in problems],
        )
        return code
    counted = [one for one in found if any(n.name == "used" for n in one.numbers)]
    for one in counted:
        print(one.statement)
    rest = [one for one in found if one not in counted and one.number("list").value]
    if rest:
        names = (f"{one.number('list').value} × {one.about.name}" for one in rest)
        print(f"on the list, nothing on record: {', '.join(names)}")
    for path, why in stray:
        print(f"file without a line: {path}, {why}")
    for part in bare:
        print(f"line without a file: {part.title}")
    for problem in problems:
        print(problem)
    print(STANDING if found else "no line is on the parts list")
    return code
