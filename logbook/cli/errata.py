"""`logbook errata`: the known faults that apply to a release, as pages or as JSON."""

from __future__ import annotations

import argparse
import dataclasses

from logbook.cli import terms
from logbook.cli.guide import PUBLISHED, as_files, named
from logbook.errors import BadInput
from logbook.publish.errata import errata_facts, readme_line, write_errata
from logbook.records.model import Release


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("release", nargs="?", default="", help="which; else the newest")
    parser.add_argument("--all", action="store_true", help="of all releases together")
    parser.add_argument("--print", action="store_true", help="print, write no file")
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write the known faults, or with --json give them as data and write nothing."""
    project = terms.opened(args)
    if args.all and args.release:
        raise BadInput(f"found --all and {args.release}; accepted: one of the two")
    releases = (
        project.snapshot.all(Release) if args.all else (named(project.snapshot, args),)
    )
    if args.json:
        terms.answer(**errata_facts(project.snapshot, releases, every=args.all))
        return 0
    text = write_errata(
        project.snapshot, releases, project.own_templates, every=args.all
    )
    if args.print:
        print(text, end="")
        return 0
    what = releases[-1] if releases else Release(id="", title="", label="none")
    path = f"{PUBLISHED}/{what.label}/errata.md"
    if args.all:
        what = dataclasses.replace(what, label="all")
        path = f"{PUBLISHED}/errata.md"
    files = as_files(project, what, text, path, "known faults")
    project.write_files(files, f"known faults of {what.label}", terms.moment(args))
    outcome = terms.committed(project)
    said = [*files, outcome["git"]]
    if releases and not args.all:
        said.append(f"for the README: {readme_line(project.snapshot, what, path)}")
    print("\n".join(said))
    return 0
