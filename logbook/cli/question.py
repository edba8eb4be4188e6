"""`logbook question`: what a rebuilder asked, and the entry that answers it."""

from __future__ import annotations

import argparse
from dataclasses import replace

from logbook.cli import names, terms
from logbook.records.kinds.happenings import Question
from logbook.records.kinds.ids import new_id


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("text", help="the question, or the id of one to answer")
    parser.add_argument("--part", default="", help="the part it is about")
    parser.add_argument("--answer", default="", help="the entry that answers it")
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the question or its answer."""
    terms.something(args.text, "the question")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    answer = project.snapshot.lookup(args.answer).ref if args.answer else None
    known = project.snapshot.named(args.text, Question) or [
        q for q in project.snapshot.all(Question) if q.id.startswith(args.text)
    ]
    if answer and len(known) == 1:
        draft.amend(replace(known[0], answered_by=answer))
        return terms.save(project, draft, f"answered: {known[0].title}", args)
    draft.add(
        Question(
            id=new_id(),
            title=args.text,
            when=draft.when,
            part=names.part_for(args, draft, args.part).ref if args.part else None,
            answered_by=answer,
        )
    )
    return terms.save(project, draft, f"question: {args.text}", args)
