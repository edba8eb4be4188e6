"""`logbook photo`: link a photo to an entry, cleaned before git first sees it."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.model import Entry, Photo
from logbook.records.state import current_revision, part_of
from logbook.store.photos import take_in

FOLDER = "as-built/photos"


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
    part = part_of(project.snapshot, entry)
    shows = current_revision(project.snapshot, part) if part else None
    photo = Photo(
        path=f"{FOLDER}/{cleaned.name}",
        caption=args.caption,
        shows=shows.ref if shows else None,
        taken=cleaned.taken if cleaned.taken and cleaned.taken.tzinfo else None,
    )
    draft = project.draft(terms.moment(args))
    draft.amend(replace(entry, photos=(*entry.photos, photo)))
    files = {
        f"{FOLDER}/{cleaned.name}": cleaned.data,
        f"{FOLDER}/{cleaned.thumbnail_name}": cleaned.thumbnail,
    }
    new = {path: data for path, data in files.items() if not _there(project.root, path)}
    subject = f"photo: {args.caption or entry.title}"
    return terms.save(project, draft, subject, args, new)


def _there(root: Path, path: str) -> bool:
    return (root / path).exists()
