"""What was written on a job sheet, typed in box by box on the terminal."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable

from logbook.advice.advisor import Advisor
from logbook.advice.steps.going_past import Ask
from logbook.cli import terms
from logbook.cli.asking import Asking
from logbook.counting import so_many
from logbook.errors import LogbookError, NeedsAnswer
from logbook.project import Project
from logbook.publish.sheet.boxes import Box
from logbook.publish.sheet.kept_sheets import sheet_boxes
from logbook.publish.sheet.operations import Wanted
from logbook.publish.sheet.saved_before import repeated_words
from logbook.publish.sheet.sheet_asked import blank_words
from logbook.publish.sheet.sheet_past import past_of_sheet
from logbook.publish.sheet.sheet_so_far import read_so_far
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import TOO_CLOSE
from logbook.records.sizes.slips import Slip


def enter(project: Project, args: argparse.Namespace) -> int:
    """Ask for each box of a sheet, and save what was typed as one act.

    Raises:
        NeedsAnswer: a check is blank, or nobody says why a wait is gone past; what
            was typed is kept.
    """
    mark = args.enter.strip().lower()
    boxes, build = sheet_boxes(
        project.root, project.snapshot, mark, Wanted(project.at_hand)
    )
    typing = SheetTyping(mark, boxes)
    typing.recall(project.root, project.snapshot)
    meant = project.draft(terms.moment(args), args.build or build).build()
    known = meant if meant.id in project.snapshot else None
    typing.build = known
    advisor = Advisor()
    typing.advice = advisor.update(project.snapshot, known).advice

    def follow() -> None:
        """Hold what is made to suit to the readings that were typed so far."""
        typing.so_far = None
        if typing.may_move_a_gap(project.snapshot):
            draft = project.draft(terms.moment(args), args.build or build)
            typing.draft(draft)
            more = read_so_far(draft)
            typing.so_far = advisor.with_more(project.snapshot, more, draft.build())

    follow()
    walk = _Walk(project, typing, follow, quiet=args.json)
    walk.walk()
    walk.ask_repeated()
    if left := typing.blank(project.snapshot, meant):
        walk.back_to(left)
        _none_blank(typing.blank(project.snapshot, meant), project, mark)
    if not typing.filled:
        if args.json:
            terms.answer(records=[])
        else:
            print("nothing was typed; nothing was saved")
        return 0
    typing.done_already(project.snapshot, meant, typing.advice)
    return _saved(project, args, typing, args.build or build)


def _saved(
    project: Project, args: argparse.Namespace, typing: SheetTyping, build: str
) -> int:
    """Ask what is gone past, then save what was typed as one act in its build."""
    now = terms.moment(args)
    worked = now if args.when else typing.worked(now)
    _past(project, project.draft(worked, build), typing, args)
    draft = project.draft(worked, build)
    typing.draft(draft)
    for remark in draft.remarks:
        print(remark, file=sys.stderr)
    subject = f"{typing.purpose}: {so_many(typing.filled, 'box', 'boxes')}"
    done = terms.save(project, draft, subject, args) if draft.records else 0
    typing.settle(project.root, draft.new)
    return done


def _past(
    project: Project, draft: Draft, typing: SheetTyping, args: argparse.Namespace
) -> None:
    """Ask why a step was done that waited, or of which something was not seen.

    Raises:
        NeedsAnswer: it is not done yet, or nobody is there to say; all is kept.
    """
    typing.draft(draft)
    now = [one for one in typing.advice if one.open]
    for step, past in past_of_sheet(draft, now, typing.whys):
        asks = past.asks is not Ask.NOTHING
        if asks and not args.json:
            print(f"“{step.title}” is ticked as done:")
        if asks and (args.json or not Asking(project.root).past(past)):
            left = typing.not_done(step)
            against = "; ".join(past.against)
            raise NeedsAnswer(
                f"not saved: {left.number} “{step.title}” is ticked as done, and "
                f"{against}; {_go_on(typing.mark)}"
            )
        typing.goes_past(step, past)
        typing.keep(project.root)


def _go_on(mark: str) -> str:
    return f"what was typed is kept, go on with logbook sheet --enter {mark}"


def _none_blank(left: Box | None, project: Project, mark: str) -> None:
    """Refuse a step ticked as done of which it is not told whether it was looked at.

    Raises:
        NeedsAnswer: a check is blank; what was typed is kept.
    """
    if left is not None:
        said = blank_words(project.snapshot, left)
        raise NeedsAnswer(f"not saved: {said}; {_go_on(mark)}")


class _Walk:
    """The walk through the boxes on the terminal; what is typed is kept."""

    def __init__(
        self,
        project: Project,
        typing: SheetTyping,
        follow: Callable[[], None],
        *,
        quiet: bool,
    ) -> None:
        self._project, self._typing, self._quiet = project, typing, quiet
        self._follow = follow
        self._off: Box | None = None

    def walk(self) -> None:
        """Ask for each box in printed order; `<` goes back, `.` leaves the rest."""
        self._say(
            "Enter leaves a box blank, < goes back, a number with : goes there "
            "(12:; 0: is the day and hour it was worked on), . ends; "
            "? logs the reading off drawing as a deviation"
        )
        typed = self._typing.texts
        if typed:
            boxes = so_many(self._typing.filled, "box", "boxes")
            self._say(f"typed before and kept: {boxes}")
        elif saved := self._typing.saved:
            boxes = so_many(saved, "box", "boxes")
            self._say(f"{boxes} of this sheet on record, typed in before")
        self._walk_from(max({*typed, *self._typing.saved}, default=0))

    def ask_repeated(self) -> None:
        """Ask whether what is on record from this sheet is to be logged once more."""
        typing = self._typing
        if not typing.repeated:
            return
        words = repeated_words(typing.repeated, typing.texts, typing.saved)
        asked = f"{words}  l log again [Enter: leave out, save the rest] "
        if not self._quiet and terms.ask_key(asked, {"": "", "l": "again"}):
            typing.log_twice()
        else:
            self._say(f"{words}: left out")
            typing.leave_out(self._project.root)

    def back_to(self, box: Box) -> None:
        """Say that a check is blank, and go on from there."""
        self._say(blank_words(self._project.snapshot, box))
        self._walk_from(box.number - 1)

    def _walk_from(self, at: int) -> None:
        while (box := self._typing.box(at)) is not None:
            try:
                line = input("" if self._quiet else self._prompt(box))
            except EOFError:
                break
            if line.strip() == ".":
                break
            at = self._next(at, box, line.strip())

    def _next(self, at: int, box: Box, line: str) -> int:
        boxes = self._typing.boxes
        if line == "<":
            return max(-1, at - 1)
        if line == "?":
            self._deviation()
            return at
        if line.endswith(":") and line[:-1].isdecimal():
            wanted = int(line[:-1])
            if 0 <= wanted <= len(boxes):
                return wanted - 1
            self._refuse(f"there is no box {wanted}; accepted: 0 to {len(boxes)}")
            return at
        if line and not self._take(box, line):
            return at
        return at + 1

    def _take(self, box: Box, line: str) -> bool:
        try:
            self._typing.take(box, line, self._project.snapshot)
        except LogbookError as refusal:
            self._refuse(str(refusal))
            return False
        slip = self._typing.slip(box, self._project.snapshot)
        if slip is not None and not self._settle(box, slip):
            return False
        self._typing.keep(self._project.root)
        self._follow()
        said = self._typing.judged(box, self._project.snapshot)
        _, limits = self._typing.wanted(box, self._project.snapshot)
        if self._typing.fault(box, self._project.snapshot):
            self._off = box
            self._say(f"     {said}: {limits}; ? logs it")
        elif said == TOO_CLOSE:
            self._say(f"     {said}: {limits}")
        return True

    def _settle(self, box: Box, slip: Slip) -> bool:
        """Ask what was meant; unanswered, the box is blank and is asked for again."""
        keys = {"": "", "1": "meant", "2": "typed"}
        shown = f"1 {slip.meant} was meant / 2 {slip.value} as typed "
        if slip.meant is None:
            keys, shown = {"": "", "1": "typed"}, f"1 {slip.value} as typed "
        said = terms.ask_key(f"{slip.question}  {shown} [Enter: type it again] ", keys)
        if said == "typed":
            self._typing.confirmed.add(box.number)
        else:
            meant = str(slip.meant) if said else ""
            self._typing.take(box, meant, self._project.snapshot)
        return bool(said)

    def _deviation(self) -> None:
        """Ask whose fault the reading off its drawing is; it is saved with the rest."""
        if self._off is None:
            self._refuse("no reading typed here is off drawing or does not suit")
            return
        self._typing.blames[self._off.number] = terms.ask_blame()
        self._typing.keep(self._project.root)

    def _prompt(self, box: Box) -> str:
        of = f"{box.owner} " if box.owner else ""
        wanted = self._typing.wanted(box, self._project.snapshot)
        drawn = f"  ({'; '.join(wanted)})" if box.drawn else ""
        held = self._typing.texts.get(box.number, "")
        kept = f" [{held}]" if held else ""
        return f"{box.number:>4}  {of}{box.label}{drawn}{kept}: "

    def _say(self, words: str) -> None:
        if not self._quiet:
            print(words)

    def _refuse(self, words: str) -> None:
        print(words, file=sys.stderr)
