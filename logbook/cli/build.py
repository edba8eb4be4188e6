"""`logbook build`: begin a build, or tell what else is known of one that is begun."""

from __future__ import annotations

import argparse
import shlex
from dataclasses import replace
from typing import Any

from logbook.advice.faults.warned_of import counted
from logbook.cli import terms
from logbook.errors import BadInput
from logbook.plain.stated.restated import given
from logbook.records.kinds.happenings import Decision
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.making.going_on import go_on_by


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", nargs="?", default="", help="what to call it")
    parser.add_argument("--purpose", default="", help="what it is for")
    parser.add_argument(
        "--of", default="", help="the release it is built from, or goes on by"
    )
    parser.add_argument("--units", type=int, default=None, help="how many are made")
    parser.add_argument(
        "--builder",
        default="",
        help="whose shop makes it; else who works here, as git knows him",
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the build; of one that is begun, what is told takes the place of before."""
    project = terms.opened(args)
    if args.units is not None and args.units < 1:
        raise BadInput(f"--units: found {args.units}; accepted: 1 or more")
    release = project.snapshot.lookup(args.of, Release) if args.of else None
    draft = project.draft(terms.moment(args))
    told = given(
        purpose=args.purpose, units=args.units, builder=" ".join(args.builder.split())
    )
    begun = project.snapshot.named(args.name, Build) if args.name else ()
    if len(begun) == 1:
        _told_of(draft, begun[0], release, told)
        title = begun[0].title
    else:
        title = draft.new_build(args.name, release=release, **told).title
    code = terms.save(project, draft, f"build: {title}", args)
    if not args.json:
        for one in draft.remarks:
            print(terms.folded(one))
        if release and (known := counted(project.snapshot, release)):
            print(terms.folded(known))
    return code


def _told_of(
    draft: Draft, build: Build, release: Release | None, told: dict[str, Any]
) -> None:
    """Draft what is told of a build that is begun, and by which release it goes on.

    Raises:
        BadInput: nothing is told; the sentence says what may be.
    """
    if not told and release is None:
        name = shlex.quote(build.title)
        raise BadInput(
            f"{build.title} is begun already; accepted: logbook build {name} --of "
            "RELEASE (what is made from here on is made to it), --purpose, --units or "
            f"--builder, which tell it anew; --build {name} with any other verb, to "
            "log under it; another name, for another build"
        )
    if told:
        build = draft.amend(replace(build, **told))
    if release is not None:
        go_on_by(draft, build, release)
        title = f"{build.title} goes on by {release.title}"
        draft.add(Decision(id=new_id(), title=title, when=draft.when, build=build.ref))
