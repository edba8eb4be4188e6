"""`logbook sheet`: print the day's job, and type in what was written on it."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from logbook.cli import names, terms
from logbook.cli.sheet_entered import enter
from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.project import Project
from logbook.publish.sheet.boxes import Box
from logbook.publish.sheet.kept_sheets import keep_sheet
from logbook.publish.sheet.operations import JobSheet, Wanted
from logbook.publish.sheet.sheet import job_sheet, write_html
from logbook.publish.sheet.sheet_text import write_text
from logbook.publish.whole_page import PAPERS
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Build


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--step", action="append", default=[], help="only this step; again for more"
    )
    parser.add_argument(
        "--part", action="append", default=[], help="only this part; again for more"
    )
    parser.add_argument("--paper", choices=sorted(PAPERS), default="A4")
    parser.add_argument(
        "--pieces", type=int, default=1, help="boxes for so many pieces of each part"
    )
    parser.add_argument(
        "--all", action="store_true", help="what is done and measured too"
    )
    parser.add_argument(
        "--overrides", action="store_true", help="print private reasons for going on"
    )
    parser.add_argument(
        "--out", type=Path, help="a file, .html or .txt; else text is printed"
    )
    parser.add_argument(
        "--enter", metavar="SHEET", help="type in what was written on this sheet"
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Print a sheet, or take one in."""
    project = terms.opened(args)
    return enter(project, args) if args.enter else _print(project, args)


def _print(project: Project, args: argparse.Namespace) -> int:
    if not 1 <= args.pieces <= 99:
        raise BadInput(f"--pieces: found {args.pieces}; accepted: 1 to 99")
    sheet = job_sheet(project.snapshot, _wanted(project, args), terms.moment(args))
    keep_sheet(project.root, sheet)
    if args.out:
        _write(args, sheet, project)
    if args.json:
        terms.answer(sheet=sheet.mark, build=sheet.build, boxes=_told(sheet.boxes))
    elif args.out:
        print(f"{args.out}: sheet {sheet.mark}, {so_many(sheet.boxes, 'box', 'boxes')}")
        print(
            f"typed in with: Ctrl-S on the bench, or logbook sheet --enter {sheet.mark}"
        )
    else:
        print(write_text(sheet, args.paper), end="")
    return 0


def _wanted(project: Project, args: argparse.Namespace) -> Wanted:
    snapshot, at_hand = project.snapshot, project.at_hand
    return Wanted(
        build=snapshot.lookup(args.build, Build) if args.build else at_hand,
        steps=tuple(snapshot.lookup(name, Step).id for name in args.step),
        parts=tuple(names.meant(snapshot, name, Part).id for name in args.part),
        pieces=args.pieces,
        everything=args.all,
        overrides=args.overrides,
    )


def _write(args: argparse.Namespace, sheet: JobSheet, project: Project) -> None:
    if args.out.suffix.lower() in {".html", ".htm"}:
        text = write_html(sheet, args.paper, project.own_templates)
    elif args.out.suffix.lower() == ".txt":
        text = write_text(sheet, args.paper)
    else:
        raise BadInput(f"--out: found {args.out}; accepted: a name in .html or .txt")
    try:
        args.out.write_text(text, "utf-8")
    except OSError as error:
        raise BadInput(
            f"--out: {args.out}: {error.strerror}; accepted: a file that can be written"
        ) from None


def _told(boxes: Sequence[Box]) -> list[dict[str, str | int]]:
    return [
        {
            "number": box.number, "sort": box.sort.value, "label": box.label,
            "of": box.owner, "drawn": box.drawn, "accept": box.accept,
        }
        for box in boxes
    ]  # fmt: skip
