"""`logbook history`: how a record came to be what it is, commit by commit."""

from __future__ import annotations

import argparse
from dataclasses import asdict

from logbook.cli import names, terms
from logbook.errors import Refused
from logbook.store.git.history import log_of
from logbook.store.reading.amended import changes_by


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("what", nargs="+", help="a name, or the first letters of an id")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List the commits that touched the record's file, newest first."""
    project = terms.opened(args)
    record = names.meant(project.snapshot, " ".join(args.what))
    path = project.snapshot.path(record)
    commits = log_of(project.repository, project.in_tree(path))
    if commits is None:
        raise Refused(f"git does not know the history of {path} here (partial clone)")
    changes = changes_by(project.repository, project.in_tree(path), commits)
    if args.json:
        facts = [
            {**asdict(commit), "changed": [asdict(one) for one in changed]}
            for commit, changed in zip(commits, changes, strict=True)
        ]
        terms.answer(path=path, commits=facts)
        return 0
    print(path)
    for commit, changed in zip(commits, changes, strict=True):
        print(f"{commit.when:%Y-%m-%d %H:%M}  {commit.id[:9]}  {commit.subject}")
        for one in changed:
            print(f"  {one.words}")
    if not commits:
        print("git has not taken it yet")
    return 0
