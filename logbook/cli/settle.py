"""`logbook settle`: put in order what two clones did apart."""

from __future__ import annotations

import argparse
import sys

from logbook.cli import terms
from logbook.errors import NeedsAnswer, Problem
from logbook.project import Project
from logbook.records.settling import joined, read_sides, relabelled
from logbook.records.text import Parsed, write_record


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--take",
        choices=("ours", "theirs"),
        help="the side to take where a record was changed on both",
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Join runs, relabel the later of two names, ask about the rest."""
    project = terms.opened(args)
    done = [
        _conflict(project, problem, args)
        for problem in project.snapshot.problems
        if problem.found == "a merge conflict"
    ]
    project.reload()
    draft = project.draft(terms.moment(args))
    for record in relabelled(project.snapshot):
        draft.amend(record)
    if draft.amended:
        done += [f"{r.formerly[-1]} is now {r.title}  [{r.id}]" for r in draft.amended]
        subject = "settle: " + ", ".join(record.title for record in draft.amended)
        project.save(draft, subject, terms.moment(args))
    outcome = {} if args.later else terms.committed(project)
    if args.json:
        terms.answer(settled=done, **outcome)
        return 0
    print("\n".join(done) if done else "nothing to settle")
    if outcome and done:
        print(outcome["git"])
    return 0


def _conflict(project: Project, problem: Problem, args: argparse.Namespace) -> str:
    """Settle one file; it is for the user to mark it resolved in git."""
    path = problem.file
    data = (project.root / path).read_bytes()
    found = read_sides(data, path)
    if found is None:
        return f"{problem}"
    ours, theirs = found
    run_ = joined(ours, theirs)
    if run_ is not None:
        text, how = write_record(run_), "both sides' readings joined by their ids"
    else:
        text, how = _chosen(path, ours, theirs, args)
    project.write_files({path: text.encode()}, f"settle: {path}", terms.moment(args))
    return f"{path}: {how}; now: git add {path}, and finish the merge"


def _chosen(
    path: str, ours: Parsed, theirs: Parsed, args: argparse.Namespace
) -> tuple[str, str]:
    side = args.take or _ask(path, ours, theirs, args)
    taken, left = (ours, theirs) if side == "ours" else (theirs, ours)
    if taken.record is None:
        raise NeedsAnswer(f"{taken.problems[0]}; mend it by hand", ("ours", "theirs"))
    kept = taken.record
    if left.record is not None:
        from dataclasses import replace

        other = write_record(left.record)
        quoted = "\n".join(f"> {line}".rstrip() for line in other.splitlines())
        prose = f"{kept.prose}\n\nThe other side, not taken:\n\n{quoted}".strip()
        kept = replace(kept, prose=prose)
    return write_record(kept), f"{side} taken, the other side kept in its prose"


def _ask(path: str, ours: Parsed, theirs: Parsed, args: argparse.Namespace) -> str:
    for name, side in (("ours", ours), ("theirs", theirs)):
        if not args.json:
            shown = write_record(side.record) if side.record else side.problems[0]
            print(f"--- {name} ---\n{shown}")
    if args.json or not sys.stdin.isatty():
        raise NeedsAnswer(
            f"{path} was changed on both sides; accepted: --take ours or --take theirs",
            ("ours", "theirs"),
        )
    said = input("which side? [o: ours, t: theirs] ").strip().lower()
    return "theirs" if said.startswith("t") else "ours"
