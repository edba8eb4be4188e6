"""`logbook offered`: what could be put on record, taken with an answer or refused."""

from __future__ import annotations

import argparse
import sys

from logbook.advice.proposals import brought_up, offered, proposals
from logbook.advice.proposed.proposal import (
    NOT_WANTED,
    Proposal,
    as_facts,
    decline,
    put_answer,
)
from logbook.cli import terms
from logbook.cli.asking import Asking
from logbook.errors import BadInput, LogbookError
from logbook.project import Project
from logbook.records.together.snapshot import Snapshot


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "what", nargs="?", choices=("list", "take", "refuse"), default="list"
    )
    parser.add_argument("which", nargs="?", default="", help="as listed, or a name")
    parser.add_argument("answer", nargs="*", help="the answer: 0.1 to 0.5, made last")
    parser.add_argument("--because", default="", help="why it is not wanted")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """List what is offered, take one with an answer, or refuse one for good."""
    project = terms.opened(args)
    if args.what == "list":
        return _listed(project, args)
    if not args.which:
        raise BadInput(f"{args.what}: which one? accepted: its short name, as listed")
    found = offered(project.snapshot, args.which)
    draft = project.draft(terms.moment(args), args.build)
    answer = " ".join(args.answer)
    if args.what == "refuse":
        decline(draft, found, args.because or answer)
        return terms.save(project, draft, found.subject(NOT_WANTED), args)
    if not answer:
        raise BadInput(f"{found.question} nothing was said; accepted: {found.accepts}")
    put_answer(draft, found, answer)
    return terms.save(project, draft, found.subject(answer), args)


def _listed(project: Project, args: argparse.Namespace) -> int:
    every = proposals(project.snapshot)
    if args.json:
        terms.answer(offered=[as_facts(one) for one in every])
        return 0
    for one in every:
        print(f"{one.mark}  {one.question}\n       then {one.buys}")
    if every:
        print("answer one: logbook offered take NAME ANSWER; or: refuse NAME")
    else:
        print("nothing is offered now")
    return 0


# -- after an entry ------------------------------------------------------------------


def after_entry(
    project: Project,
    before: Snapshot,
    args: argparse.Namespace,
    asking: Asking | None,
) -> None:
    """Ask about what the entry just saved brought up, or only mention it.

    At most one thing, once; no answer leaves it in the list, and nothing that is
    said here touches the entry.
    """
    found = brought_up(before, project.snapshot)
    if found is None:
        return
    if not asking:
        print(f"could be answered (logbook offered): {found.mark}  {found.question}")
        return
    print(terms.folded(found.question))
    print(terms.folded(f"  then {found.buys}"))
    try:
        prompt = f"  [{found.accepts}; n: {found.no}; Enter: later] "
        answer = input(terms.folded(prompt)).strip()
    except (EOFError, KeyboardInterrupt):
        print()  # The entry is on record; what was asked stays in the list.
        return
    if answer:
        _answered(project, found, answer, args, asking)


def _answered(
    project: Project,
    found: Proposal,
    answer: str,
    args: argparse.Namespace,
    asking: Asking,
) -> None:
    draft = project.draft(terms.moment(args), args.build)
    try:
        put_answer(draft, found, answer)
        terms.save(project, draft, found.subject(answer), args)
    except LogbookError as refusal:
        again = f'logbook offered take {found.mark} "…"'
        kept = asking.no_answer(answer, again.replace("…", answer))
        told = (str(refusal), kept, f"It stays offered: {again}")
        print(". ".join(filter(None, told)), file=sys.stderr)
