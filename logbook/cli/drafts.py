"""`logbook drafts`: what was typed and refused, or not finished, is still here."""

from __future__ import annotations

import argparse
from pathlib import Path

from logbook.cli import terms
from logbook.errors import NoProject, NotFound
from logbook.store.reading.find import find_project
from logbook.store.typed.drafts import Draft, delete_draft, drafts


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("id", nargs="?", default="", help="the beginning of one's id")
    parser.add_argument("--drop", action="store_true", help="delete it, or all of them")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List the drafts, print one, or drop them."""
    root = _root(args.folder)
    found = [one for one in drafts(root) if one.id.startswith(args.id)]
    if args.id and not found:
        raise NotFound(f"no draft is called “{args.id}”; accepted: logbook drafts")
    if args.drop:
        for one in found:
            delete_draft(root, one.id)
    if args.json:
        terms.answer(drafts=[_told(one) for one in found], dropped=args.drop)
        return 0
    for one in found:
        when = f"{one.when.astimezone():%Y-%m-%d %H:%M}"
        print(f"{one.id}  {when}  {one.for_what}\n  {one.text}")
    print(f"{len(found)} {'dropped' if args.drop else 'kept'}")
    return 0


def _root(folder: Path) -> Path:
    """Give the project's folder; where no logbook is started yet, the folder itself."""
    try:
        return find_project(folder).parent
    except NoProject:
        return folder.resolve()


def _told(one: Draft) -> dict[str, str]:
    when = one.when.astimezone().isoformat()
    return {"id": one.id, "when": when, "for": one.for_what, "text": one.text}
