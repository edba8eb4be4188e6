"""`logbook guide`: write the guide of a release as Markdown and one HTML page."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.cli.pages import paper, press_of, stale_of
from logbook.errors import NotFound
from logbook.project import Project
from logbook.publish.release.frozen import chosen_revisions, freeze
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot

DRAFT = "draft"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("release", nargs="?", default="", help="which; else the newest")
    parser.add_argument(
        "--draft", action="store_true", help="of what a release would freeze now"
    )
    parser.add_argument("--print", action="store_true", help="print, write no file")
    paper(parser)
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write guide and known faults of a release, and let git take them."""
    project = terms.opened(args)
    release = drafted(project, args) if args.draft else named(project.snapshot, args)
    press = press_of(project, args)
    guide, files = press.guide(release)
    if args.print:
        print(guide, end="")
        return 0
    files |= press.errata((release,))[1]
    project.write_files(files, f"guide of {release.label}", terms.moment(args))
    outcome = terms.committed(project)
    stale = stale_of(project)
    if args.json:
        paths = list(files)
        terms.answer(release=release.label, paths=paths, stale=stale, **outcome)
    else:
        print("\n".join([*files, outcome["git"], *stale]))
    return 0


def named(snapshot: Snapshot, args: argparse.Namespace) -> Release:
    """Give the release the command names, else the newest.

    Raises:
        NotFound: there is none, or none of that name.
    """
    releases = snapshot.all(Release)
    if args.release:
        return snapshot.lookup(args.release, Release)
    if not releases:
        raise NotFound(
            "there is no release yet; accepted: logbook release 1.0 first, or --draft"
        )
    return releases[-1]


def drafted(project: Project, args: argparse.Namespace) -> Release:
    """Give what a release would be now, without saving one."""
    revisions = chosen_revisions(project.snapshot)
    when = terms.moment(args)
    return freeze(project.snapshot, project.root, DRAFT, revisions, when)
