"""`logbook say`: a plain line, shown as understood, asked about at most once."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from logbook.advice.faults.warned_of import counted
from logbook.cli import terms
from logbook.cli.asking import Asking
from logbook.cli.closing import asked_past, goes_past, tell_past
from logbook.cli.fault_called import build_meant, page_at_hand
from logbook.cli.faults_told import untold_faults
from logbook.cli.file_unit import said_unit
from logbook.cli.offered import after_entry
from logbook.cli.part_none import said_none
from logbook.cli.say_told import (
    build_told,
    design_told,
    kept_said,
    line_told,
    put_right_said,
)
from logbook.errors import LogbookError
from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.answers.of_part import without_part
from logbook.plain.answers.slip_settled import taken_as_typed
from logbook.plain.answers.whose import which_fits
from logbook.plain.drafts.entries import draft_line, keeps_blame, wants_blame
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.told.build_begun import BuildBegun, build_begun
from logbook.plain.told.file_unit import FileUnit
from logbook.plain.told.of_design import said_of_design
from logbook.plain.understanding import Kind, Understanding, Verdict, as_note
from logbook.plain.words.project_words import vocabulary
from logbook.plain.words.vocabulary import Vocabulary
from logbook.project import Project
from logbook.records.kinds.words import Blame
from logbook.records.making.drafts import Draft
from logbook.store.designs.proposals import make_proposed, unmade_parts

_EXAMPLE = 'what happened, as in: logbook say "base opening 178.6 should be 180"'
_NO_FAULT = (
    "--met-by {} was not kept: the line tells of no deviation, failure or decision"
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("line", nargs="+", help="what happened, in plain words")
    parser.add_argument("--yes", action="store_true", help="take it without asking")
    parser.add_argument("--met-by", choices=sorted(terms.BLAMES), help="whose fault")
    parser.add_argument("--as-note", action="store_true", help="keep it as a note")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Understand the line, show it, ask what must be asked, save it."""
    project = terms.opened(args)
    line = terms.something(" ".join(args.line), _EXAMPLE)
    if args.json and not args.yes:
        terms.answer(saved=False, **_told(project, args, line))
        return 0
    if args.yes or args.json:
        _say(project, args, line, None)
        return 0
    asking = Asking(project.root)
    if not _say(project, args, line, asking):
        asking.keep_back(line)
    try:
        return _what_waits(project, args, asking)
    except KeyboardInterrupt:
        print("\nlogbook: stopped; what was not taken is kept in logbook drafts")
        return 130


def _what_waits(project: Project, args: argparse.Namespace, asking: Asking) -> int:
    """Take the lines that were typed at a question, one after the other."""
    code = 0
    while line := asking.waits():
        print(f"next: {line}")
        of_now = {"when": None, "met_by": None, "as_note": False}
        own = argparse.Namespace(**{**vars(args), **of_now})
        try:
            if _say(project, own, line, asking):
                asking.taken()
            else:
                asking.left()
        except LogbookError as refusal:
            print(f"logbook: {refusal}", file=sys.stderr)
            code = refusal.exit_code
            asking.left()
    return code


def _told(project: Project, args: argparse.Namespace, line: str) -> dict[str, object]:
    """Say what a line is understood as; nothing of it is saved."""
    if begun := build_begun(line, project.snapshot, terms.moment(args)):
        return build_told(begun)
    if of_design := said_of_design(line, project.snapshot):
        return design_told(of_design)
    return line_told(_understood(project, args, line))


def _understood(project: Project, args: argparse.Namespace, line: str) -> Understanding:
    page = page_at_hand(project, args)
    understood = understand(line, _words(project, args))
    build = build_meant(project, args)
    return held_to_records(understood, project.snapshot, page=page, build=build)


def _say(
    project: Project, args: argparse.Namespace, line: str, asking: Asking | None
) -> bool:
    """Say one line; tell whether it was taken. Without `asking` nothing is asked."""
    begun = build_begun(line, project.snapshot, terms.moment(args))
    if begun is not None and not args.as_note:
        return _begin(project, args, begun, asking)
    of_design = said_of_design(line, project.snapshot)
    if of_design is not None and not args.as_note:
        if isinstance(of_design, FileUnit):
            return said_unit(project, args, of_design, asking)
        return said_none(project, args, of_design, asking)
    words = _words(project, args)
    understood = _understood(project, args, line)
    shown = _shown(understood) if asking else ""
    asked: set[str] = set()
    settled = False
    while understood.verdict is Verdict.ASKED and not args.as_note:
        asked |= {one.question for one in (understood.question,) if one}
        settled = not _is_lone(understood)
        told = _settled(words, args, understood, asking)
        if told is None:
            return False
        here = page_at_hand(project, args), build_meant(project, args)
        understood = held_to_records(told, project.snapshot, asked, *here)
        shown = _shown(understood, shown) if asking else shown
    if not asking and not args.json:
        _shown(understood)  # With nobody to ask, what it is taken as and no more.
    noted = settled and (understood.verdict is Verdict.KEPT or bool(understood.amends))
    draft = _taken(project, args, understood, asking, noted=noted)
    if draft is None:
        return False
    if args.met_by and not keeps_blame(draft):
        print(_NO_FAULT.format(args.met_by), file=sys.stderr)
    subject = f"{Kind.NOTE if args.as_note else understood.tells}: {line}"
    before = project.snapshot
    amended = draft.amended and not draft.new
    kept = partial(kept_said, before=before)
    terms.save(project, draft, subject, args, tell=put_right_said if amended else kept)
    if not args.json:
        after_entry(project, before, args, asking)
    return True


def _begin(
    project: Project, args: argparse.Namespace, begun: BuildBegun, asking: Asking | None
) -> bool:
    """Begin the build that the line names; tell whether it was begun."""
    if not args.json:
        print(f"begins a build · {begun.words}")
        if begun.release and (told := counted(project.snapshot, begun.release)):
            print(terms.folded(f"  {told}"))
    draft = project.draft(begun.when or terms.moment(args))
    begun.draft(draft)
    if asking and not asking.taking():
        return False
    terms.save(project, draft, f"build: {begun.name}", args)
    return True


def _shown(line: Understanding, before: str = "") -> str:
    """Show what is understood, unless that is what was shown before; give it."""
    said = in_one_line(line)
    if said != before:
        print(terms.folded(said))
    return said


def _taken(
    project: Project,
    args: argparse.Namespace,
    line: Understanding,
    asking: Asking | None,
    *,
    noted: bool,
) -> Draft | None:
    """Draft the line, its last questions asked; None where it is not to be taken.

    What was `noted` or put right by an answer is not asked about once more.
    """
    blame = terms.BLAMES[args.met_by] if args.met_by else None
    draft = _draft(project, args, line, blame)
    if not args.json:
        for remark in (*remarks(draft), *untold_faults(draft)):
            print(terms.folded(f"  {remark}"))
    past = goes_past(draft)
    if asking and (past.waits or past.ticks):
        return draft if asked_past(draft, past, asking) else None
    if blame is None and asking and wants_blame(draft):
        told = asking.whose(which_fits(line, project.snapshot))
        if told is None:
            return None
        warned, draft = draft.warned, _draft(project, args, line, told)
        draft.warned = warned
        return draft
    if asking and not noted and not asking.taking():
        return None
    tell_past(past)
    return draft


def _words(project: Project, args: argparse.Namespace) -> Vocabulary:
    """Give the names in use: those of the records, and of design files beside them."""
    proposed = unmade_parts(project.root, project.snapshot)
    titles = (part.title for part in proposed)
    return vocabulary(project.snapshot, terms.moment(args), titles)


def _draft(
    project: Project,
    args: argparse.Namespace,
    line: Understanding,
    blame: Blame | None,
) -> Draft:
    now = line.facts.when or terms.moment(args)
    draft = project.draft(now, args.build or line.facts.build)
    if args.as_note:
        return draft_line(draft, as_note(line))
    if line.verdict is Verdict.TAKEN:
        named = (line.facts.part, *line.facts.others, *line.facts.layers)
        make_proposed(draft, project.root, named)
    return draft_line(draft, line, blame)


# -- asking ----------------------------------------------------------------------


def _is_lone(line: Understanding) -> bool:
    """Tell whether a question leaves nothing to choose: it is a note, or not taken."""
    doubt = line.question
    return doubt is not None and len(doubt.choices) == 1 and not doubt.spares


def _settled(
    words: Vocabulary,
    args: argparse.Namespace,
    line: Understanding,
    asking: Asking | None,
) -> Understanding | None:
    """Have the needed question answered; unanswered, the line becomes a note.

    None where it is not to be taken.
    Where only the part is not sure, it is kept as what it is, of no part. With --yes
    what looks like a slip is taken as typed; its doubt stays open.
    """
    doubt = line.question
    assert doubt is not None
    if asking and _is_lone(line):
        print(terms.folded(f"  {doubt.question}"))
        return as_note(line)
    said = asking.doubt(doubt, words) if asking else ""
    if said is None:
        return None
    if said or doubt.spares:
        return answered(line, doubt, said, words)
    as_it_is = None if asking else taken_as_typed(line, doubt)
    if as_it_is is not None:
        print(f"taken as typed, though {doubt.question}", file=sys.stderr)
        return as_it_is
    kept = without_part(line) if doubt.about == "part" and not asking else as_note(line)
    if not args.json:
        how = "as a note" if kept.kind is Kind.NOTE else "without a part"
        sure = " / ".join(doubt.choices)
        why = "" if asking else f", not sure: {doubt.question} {sure}"
        print(f"kept {how}{why}", file=sys.stderr)  # Who was asked has read it.
    return kept
