"""`logbook pages`: write every page that says otherwise than the records by now."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.project import Project
from logbook.publish.errata.errata import readme_line
from logbook.publish.errata.stale import stale_pages
from logbook.publish.page_files import Press, differing, errata_path, paper_on_disk
from logbook.publish.whole_page import PAPERS
from logbook.records.kinds.made_public import Release


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    paper(parser)
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def paper(parser: argparse.ArgumentParser) -> None:
    """Add the option of every verb that writes pages to be printed."""
    said = "what it is printed on; else as the pages on disk are, or A4"
    parser.add_argument("--paper", choices=sorted(PAPERS), help=said)


def press_of(project: Project, args: argparse.Namespace) -> Press:
    """Give what makes the pages of a project for the paper that is named."""
    return Press(
        project.snapshot,
        project.root,
        project.repository,
        project.own_templates,
        getattr(args, "paper", None) or paper_on_disk(project.root),
    )


def stale_of(project: Project) -> list[str]:
    """Say which pages of a project are out of date; empty where none is."""
    return list(
        stale_pages(
            project.snapshot, project.root, project.repository, project.own_templates
        )
    )


def run(args: argparse.Namespace) -> int:
    """Write what has changed of all pages as one act, and let git take it."""
    project = terms.opened(args)
    files: dict[str, bytes] = {}
    written: list[str] = []
    current: list[str] = []
    for name, made in press_of(project, args).every_page():
        changed = differing(project.root, made)
        files |= changed
        (written if changed else current).append(name)
    if files:
        subject = f"pages: {', '.join(written)}"
        project.write_files(files, subject, terms.moment(args))
    outcome = terms.committed(project)
    lines = [
        readme_line(project.snapshot, release, errata_path(release))
        for release in project.snapshot.all(Release)
    ]
    if args.json:
        terms.answer(paths=list(files), current=current, readme=lines, **outcome)
        return 0
    said = [*files, *(f"as it was: {', '.join(current)}" for _ in current[:1])]
    said += [outcome["git"]] if files else []
    said += ["for the README:", *(f"  {line}" for line in lines)] if lines else []
    print("\n".join(said))
    return 0
