"""The unit of a part's design files that name none themselves, as the shell is told."""

from __future__ import annotations

import argparse
from functools import partial

from logbook.cli import terms
from logbook.cli.asking import Asking
from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.told.file_unit import FileUnit
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.store.designs.said_unit import say_unit
from logbook.units import is_length


def file_unit_option(parser: argparse.ArgumentParser) -> None:
    """Declare the option."""
    parser.add_argument(
        "--file-unit",
        help="what its files are drawn in that name no unit themselves: mm, in, m",
    )


def file_unit_told(project: Project, draft: Draft, part: Part, told: str) -> None:
    """Put on record what the option says; empty takes it away.

    Raises:
        BadInput: it is no unit of length, or no file of the part lacks one.
    """
    if told and not is_length(told):
        raise BadInput(f"--file-unit: found “{told}”; accepted: mm, cm, m, in or ft")
    try:
        say_unit(draft, project.root, part, told)
    except BadInput as refusal:
        raise BadInput(f"--file-unit {told}: {refusal}") from None


def said_unit(
    project: Project, args: argparse.Namespace, said: FileUnit, asking: Asking | None
) -> bool:
    """Do what a plain line says of files, shown first; tell whether it was done.

    Raises:
        NeedsAnswer: one file is said, and several are called so.
        BadInput: a file that is meant names its unit itself.
    """
    if said.unclear:
        raise NeedsAnswer(said.unclear)
    if not args.json:
        print(terms.folded(f"file unit · {said.words}"))
    draft = project.draft(terms.moment(args), args.build)
    for part, paths in said.files:
        say_unit(draft, project.root, part, said.unit, paths)
    if asking and not asking.taking():
        return False
    tell = partial(_kept, said)
    terms.save(project, draft, f"file unit: {said.words}", args, tell=tell)
    return True


def _kept(said: FileUnit, saved: object) -> list[str]:
    del saved
    return [f"  kept: {said.words}; guide and stock list take it from there"]
