"""`logbook photo`: link a photo to an entry, cleaned before git first sees it."""

from __future__ import annotations

import argparse
from pathlib import Path

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.happenings import Entry
from logbook.store.photos.cleaned import take_in
from logbook.store.photos.linking import link_photo


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("entry", help="the entry that shows it, by name or id")
    parser.add_argument("file", type=Path, help="a JPEG or PNG")
    parser.add_argument("--caption", default="", help="what is to be seen")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Clean the photo, save it, and link it."""
    project = terms.opened(args)
    entry = project.snapshot.lookup(args.entry)
    if not isinstance(entry, Entry):
        raise BadInput(f"“{args.entry}” is no entry; accepted: something that happened")
    try:
        raw = args.file.read_bytes()
    except OSError as error:
        raise BadInput(f"{args.file}: {error.strerror}; accepted: a photo") from None
    cleaned = take_in(raw, args.file.name)
    draft = project.draft(terms.moment(args))
    new = link_photo(draft, entry, cleaned, args.caption, project.root)
    subject = f"photo: {args.caption or entry.title}"
    return terms.save(project, draft, subject, args, new)
