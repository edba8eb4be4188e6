"""`logbook guide`: write the guide of a release as Markdown and one HTML page."""

from __future__ import annotations

import argparse
from pathlib import Path

from logbook.cli import terms
from logbook.errors import NotFound
from logbook.project import Project
from logbook.publish.errata.errata import write_errata
from logbook.publish.errata.links import linked, to_html
from logbook.publish.errata.stale import stale_pages
from logbook.publish.faults.worded import days_of
from logbook.publish.guide.control import shapes_of
from logbook.publish.guide.guide import write_guide
from logbook.publish.html import pictures_from
from logbook.publish.release.frozen import chosen_revisions, freeze
from logbook.publish.sheet.sheet import PAPERS
from logbook.publish.whole_page import Printed, page
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot

PUBLISHED = "as-built/published"
DRAFT = "draft"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("release", nargs="?", default="", help="which; else the newest")
    parser.add_argument(
        "--draft", action="store_true", help="of what a release would freeze now"
    )
    parser.add_argument("--print", action="store_true", help="print, write no file")
    parser.add_argument("--paper", choices=sorted(PAPERS), default="A4")
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write guide and known faults of a release, and let git take them."""
    project = terms.opened(args)
    release = drafted(project, args) if args.draft else named(project.snapshot, args)
    shapes = shapes_of(project.root, project.repository, release)
    guide = write_guide(project.snapshot, release, project.own_templates, shapes)
    if args.print:
        print(guide, end="")
        return 0
    days = days_of(project.snapshot, project.root, project.repository)
    errata = write_errata(
        project.snapshot, (release,), project.own_templates, days=days
    )
    folder = f"{PUBLISHED}/{release.label}"
    files = {
        **as_files(
            project, release, guide, f"{folder}/guide.md", "guide", paper=args.paper
        ),
        **as_files(
            project,
            release,
            errata,
            f"{folder}/errata.md",
            "known faults",
            paper=args.paper,
        ),
    }
    project.write_files(files, f"guide of {release.label}", terms.moment(args))
    outcome = terms.committed(project)
    stale = list(stale_pages(project.snapshot, project.root, project.own_templates))
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


def as_files(
    project: Project, release: Release, text: str, path: str, what: str, *, paper: str
) -> dict[str, bytes]:
    """Give a page as its Markdown file and, beside it, its HTML file for this paper."""
    name = project.snapshot.project.title
    place = project.snapshot.project.published_at or "the place you got it from"
    text = linked(text, project.root / Path(path).parent)
    made = page(
        to_html(text),
        title=f"{name}: {what}, release {release.label}",
        printed=Printed(
            f"{name}, {what}, release {release.label}. On paper this does not "
            f"change: look for known faults at {place}.",
            PAPERS[paper],
        ),
        picture=pictures_from(project.root, project.root / Path(path).parent),
        own_templates=project.own_templates,
    )
    return {path: text.encode(), path.removesuffix(".md") + ".html": made.encode()}
