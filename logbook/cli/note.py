"""`logbook note`: a plain note."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("text", nargs="+", help="the note")
    parser.add_argument("--part", default="", help="the part it is about")
    parser.add_argument("--prose", default="", help="more, as Markdown")
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the note."""
    names.part_and_words(args, "the note")
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.part_for(args, draft, args.part).ref if args.part else None
    note = Note(
        id=new_id(),
        title=args.text,
        prose=args.prose,
        when=draft.when,
        build=draft.build().ref,
        part=part,
    )
    draft.add(note)
    return terms.save(project, draft, f"note: {args.text}", args)
