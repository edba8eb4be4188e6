"""`logbook say`: a plain line, shown as understood, asked about at most once."""

from __future__ import annotations

import argparse
import sys

from logbook.cli import terms
from logbook.cli.offered import after_entry
from logbook.errors import NeedsAnswer
from logbook.plain.answering import answered, as_note
from logbook.plain.entries import draft_line, wants_blame
from logbook.plain.lines import understand
from logbook.plain.project_words import vocabulary
from logbook.plain.shown import describe, in_one_line
from logbook.plain.understanding import Understanding, Verdict
from logbook.project import Project
from logbook.records.kinds import kind_of
from logbook.records.making import Draft
from logbook.records.words import Blame

_ANSWERS = {"d": "drawing", "p": "piece", "m": "machine", "": "unknown", "?": "unknown"}


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
    line = " ".join(args.line)
    understood = understand(line, vocabulary(project.snapshot, terms.moment(args)))
    if args.json and not args.yes:
        terms.answer(taken=False, **_told(understood))
        return 0
    if not args.json:
        print(in_one_line(understood))
    asking = not args.yes and not args.json
    if understood.verdict is Verdict.ASKED and not args.as_note:
        understood = _settled(project, args, understood, asking=asking)
    blame = terms.BLAMES[args.met_by] if args.met_by else None
    draft = _draft(project, args, understood, blame)
    if not args.json:
        print("\n".join(f"  + {_named(draft, n)}" for n in range(len(draft.new))))
    if blame is None and asking and wants_blame(draft):
        blame = _ask_blame()
        draft = _draft(project, args, understood, blame)
    elif asking and not args.yes and not _ask_taking():
        print("not taken; nothing was saved")
        return 0
    before = project.snapshot
    code = terms.save(project, draft, f"{understood.kind}: {line}", args)
    if not args.json:
        after_entry(project, before, args, asking=asking)
    return code


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
    return draft_line(draft, line, blame)


def _named(draft: Draft, number: int) -> str:
    record = draft.new[number]
    return f"{kind_of(record).shown}: {record.title}"


def _told(line: Understanding) -> dict[str, object]:
    question = line.question
    return {
        "kind": line.kind.value,
        "verdict": line.verdict.value,
        "understood": dict(describe(line)),
        "question": question.question if question else "",
        "choices": list(question.choices) if question else [],
    }


# -- asking ----------------------------------------------------------------------


def _settled(
    project: Project, args: argparse.Namespace, line: Understanding, *, asking: bool
) -> Understanding:
    """Have the needed question answered; unanswered, the line becomes a note."""
    doubt = line.question
    assert doubt is not None
    said = _ask(doubt.question, doubt.choices) if asking else ""
    if not said:
        if not args.json:
            print(f"kept as a note, because: {doubt.question}", file=sys.stderr)
        return as_note(line)
    words = vocabulary(project.snapshot, terms.moment(args))
    return answered(line, doubt, said, words)


def _ask(question: str, choices: tuple[str, ...]) -> str:
    shown = " / ".join(f"{n} {choice}" for n, choice in enumerate(choices, 1))
    said = _input(f"{question}  {shown}  [Enter: keep as a note] ")
    if said.isdigit() and 1 <= int(said) <= len(choices):
        return choices[int(said) - 1]
    return said


def _ask_blame() -> Blame:
    said = _input(
        "would another builder meet this?  d the drawing is wrong / p only this piece "
        "/ m my machine does this  [Enter: not known yet] "
    )
    return terms.BLAMES[_ANSWERS.get(said[:1].lower(), "unknown")]


def _ask_taking() -> bool:
    return _input("take it? [Enter: yes, n: no] ").lower() not in {"n", "no"}


def _input(prompt: str) -> str:
    """Ask on the terminal.

    Raises:
        NeedsAnswer: nobody is there to answer.
    """
    try:
        return input(prompt).strip()
    except EOFError:
        raise NeedsAnswer(
            "nobody answered, so the line was not taken; accepted: an answer, or --yes"
        ) from None
