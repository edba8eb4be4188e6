"""`logbook build`: start a build, or go on with one by another release."""

from __future__ import annotations

import argparse

from logbook.advice.faults.warned_of import counted
from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.happenings import Decision
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.going_on import go_on_by


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="what to call it")
    parser.add_argument("--purpose", default="", help="what it is for")
    parser.add_argument(
        "--of", default="", help="the release it is built from, or goes on by"
    )
    parser.add_argument("--units", type=int, default=None, help="how many are made")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the build; one that is begun goes on by the release that is named."""
    project = terms.opened(args)
    if args.units is not None and args.units < 1:
        raise BadInput(f"--units: found {args.units}; accepted: 1 or more")
    release = project.snapshot.lookup(args.of, Release) if args.of else None
    draft = project.draft(terms.moment(args))
    begun = project.snapshot.named(args.name, Build) if args.name else ()
    if len(begun) == 1 and release and not args.purpose and args.units is None:
        go_on_by(draft, begun[0], release)
        title = f"{begun[0].title} goes on by {release.title}"
        draft.add(
            Decision(id=new_id(), title=title, when=draft.when, build=begun[0].ref)
        )
    else:
        units = 1 if args.units is None else args.units
        build = draft.new_build(
            args.name, purpose=args.purpose, release=release, units=units
        )
        title = build.title
    code = terms.save(project, draft, f"build: {title}", args)
    if not args.json:
        for one in draft.remarks:
            print(one)
        if release and (told := counted(project.snapshot, release)):
            print(terms.folded(told))
    return code
