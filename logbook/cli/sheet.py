"""`logbook sheet`: print the day's job, and type in what was written on it."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from logbook.cli import terms
from logbook.errors import BadInput, LogbookError, NotFound
from logbook.project import Project
from logbook.publish.boxes import Box, Sort, read_boxes, write_boxes
from logbook.publish.operations import JobSheet, Wanted
from logbook.publish.sheet import PAPERS, job_sheet, write_html
from logbook.publish.sheet_back import draft_back, not_looked_at, read_box
from logbook.publish.sheet_text import write_text
from logbook.quantity import Quantity, parse_value
from logbook.records.model import Build, Characteristic, Part, Piece, Revision, Step
from logbook.records.snapshot import Snapshot
from logbook.records.state import Dimension, dimension
from logbook.store.drafts import delete_draft, drafts, keep_draft
from logbook.store.own_files import keep_own_file, own_file


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
    return _enter(project, args) if args.enter else _print(project, args)


# -- printing --------------------------------------------------------------------


def _print(project: Project, args: argparse.Namespace) -> int:
    if not 1 <= args.pieces <= 99:
        raise BadInput(f"--pieces: found {args.pieces}; accepted: 1 to 99")
    sheet = job_sheet(
        project.snapshot, _wanted(project.snapshot, args), terms.moment(args)
    )
    name = _file(sheet.mark)
    held = own_file(project.root, name)
    kept = write_boxes(sheet.boxes, sheet.build_id)
    if held != kept:
        keep_own_file(project.root, name, kept, held)
    if args.out:
        _write(args, sheet, project)
    if args.json:
        terms.answer(sheet=sheet.mark, build=sheet.build, boxes=_told(sheet.boxes))
    elif args.out:
        print(f"{args.out}: sheet {sheet.mark}, {len(sheet.boxes)} boxes")
        print(f"typed in with: logbook sheet --enter {sheet.mark}")
    else:
        print(write_text(sheet, args.paper), end="")
    return 0


def _wanted(snapshot: Snapshot, args: argparse.Namespace) -> Wanted:
    return Wanted(
        build=snapshot.lookup(args.build, Build) if args.build else None,
        steps=tuple(snapshot.lookup(name, Step).id for name in args.step),
        parts=tuple(snapshot.lookup(name, Part).id for name in args.part),
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


def _file(mark: str) -> str:
    return f"sheets/{mark}.json"


def _told(boxes: Sequence[Box]) -> list[dict[str, str | int]]:
    return [
        {
            "number": box.number, "sort": box.sort.value, "label": box.label,
            "of": box.owner, "drawn": box.drawn, "accept": box.accept,
        }
        for box in boxes
    ]  # fmt: skip


# -- typing in -------------------------------------------------------------------


def _enter(project: Project, args: argparse.Namespace) -> int:
    when = terms.moment(args)
    boxes, build = _boxes(project, args.enter.strip().lower())
    purpose = f"job sheet {args.enter.strip().lower()}"
    typed = _Typing(project, boxes, purpose, quiet=args.json).walked()
    if not typed:
        if args.json:
            terms.answer(records=[])
        else:
            print("nothing was typed; nothing was saved")
        return 0
    draft = project.draft(when, args.build or build)
    draft_back(draft, boxes, typed)
    if not args.json:
        for box in not_looked_at(boxes, typed):
            print(f"left blank: {box.number} {box.label}")
    done = terms.save(project, draft, f"{purpose}: {len(typed)} boxes", args)
    _drop(project, purpose)
    return done


def _boxes(project: Project, mark: str) -> tuple[tuple[Box, ...], str]:
    """Give the boxes of a printed sheet, kept when it was printed on this machine."""
    if not mark.isalnum():
        raise NotFound(f"“{mark}” is no sheet; accepted: the six signs in its title")
    data = own_file(project.root, _file(mark))
    if data is not None:
        return read_boxes(data)
    now = job_sheet(project.snapshot, Wanted(), datetime.now().astimezone())
    if now.mark == mark:
        return now.boxes, now.build_id
    raise NotFound(
        f"sheet {mark} was not printed here, and the records have changed since it "
        "was; accepted: a sheet printed on this machine, or one printed anew"
    )


class _Typing:
    """The walk through the boxes; what was typed is kept until it is saved."""

    def __init__(
        self, project: Project, boxes: Sequence[Box], purpose: str, *, quiet: bool
    ) -> None:
        self._project, self._boxes, self._purpose = project, boxes, purpose
        self._quiet = quiet
        self._typed: dict[int, str] = {}
        self._draft = ""
        for draft in drafts(project.root):
            if draft.for_what == purpose:
                self._draft = draft.id
                rows = (line.partition(" ") for line in draft.text.split("\n"))
                self._typed = {int(n): t for n, _, t in rows if n.isdecimal()}
                break

    def walked(self) -> dict[int, str]:
        """Ask for each box in printed order; `<` goes back, `.` leaves the rest."""
        self._say(
            "Enter leaves a box blank, < goes back, a number with : goes there "
            "(12:), . ends"
        )
        if self._typed:
            self._say(f"{len(self._typed)} boxes were typed before and are kept")
        at = max(self._typed, default=0)
        while 0 <= at < len(self._boxes):
            try:
                line = input("" if self._quiet else self._prompt(self._boxes[at]))
            except EOFError:
                break
            if line.strip() == ".":
                break
            at = self._next(at, line.strip())
        return self._typed

    def _next(self, at: int, line: str) -> int:
        if line == "<":
            return max(0, at - 1)
        if line.endswith(":") and line[:-1].isdecimal():
            wanted = int(line[:-1])
            if 1 <= wanted <= len(self._boxes):
                return wanted - 1
            self._refuse(f"there is no box {wanted}; accepted: 1 to {len(self._boxes)}")
            return at
        if line and not self._take(self._boxes[at], line):
            return at
        return at + 1

    def _take(self, box: Box, line: str) -> bool:
        drawn = self._dimension(box)
        try:
            text = read_box(box, line, drawn.nominal if drawn else None)
        except LogbookError as refusal:
            self._refuse(str(refusal))
            return False
        self._typed[box.number] = text
        if not text:
            del self._typed[box.number]
        rows = "\n".join(f"{n} {t}" for n, t in sorted(self._typed.items()))
        if rows:
            kept = keep_draft(self._project.root, rows, self._purpose, self._draft)
            self._draft = kept.id
        self._judge(box, drawn, text)
        return True

    def _judge(self, box: Box, drawn: Dimension | None, text: str) -> None:
        if drawn is None or not text:
            return
        value = parse_value(text, box.unit) if text not in {"n", "-"} else None
        if isinstance(value, Quantity) and drawn.verdict(value) == "off drawing":
            self._say(f"     off drawing: accepted is {box.accept}")

    def _dimension(self, box: Box) -> Dimension | None:
        """Give the dimension a box was printed for, as it is drawn by now."""
        stored = self._project.snapshot.stored.get(box.about)
        item = stored.record if stored else None
        if box.sort is not Sort.READING or not isinstance(item, Characteristic):
            return None
        snapshot = self._project.snapshot
        piece = next(iter(snapshot.named(box.piece, Piece)), None)
        revision = snapshot.find(piece.revision, Revision) if piece else None
        return dimension(snapshot, revision, item)

    def _prompt(self, box: Box) -> str:
        of = f"{box.owner} " if box.owner else ""
        drawn = f"  ({box.drawn}; {box.accept})" if box.drawn else ""
        held = self._typed.get(box.number, "")
        kept = f" [{held}]" if held else ""
        return f"{box.number:>4}  {of}{box.label}{drawn}{kept}: "

    def _say(self, words: str) -> None:
        if not self._quiet:
            print(words)

    def _refuse(self, words: str) -> None:
        print(words, file=sys.stderr)


def _drop(project: Project, purpose: str) -> None:
    """Let go of what was kept while typing, now that it is on record."""
    for draft in drafts(project.root):
        if draft.for_what == purpose:
            delete_draft(project.root, draft.id)
