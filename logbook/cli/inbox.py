"""`logbook inbox`: what the phone has put into the folder and nobody has sorted."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import NotFound
from logbook.store.photos.inbox import Item, read_inbox
from logbook.store.photos.sorted_items import wait_here


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--all", action="store_true", help="what was sorted too")
    parser.add_argument(
        "--again", metavar="FILE", help="let a file that was sorted wait again"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """List what waits, oldest first."""
    project = terms.opened(args)
    if args.again:
        every = read_inbox(project.root, project.snapshot, everything=True)
        found = [item for item in every.items if item.name == args.again]
        if not found:
            raise NotFound(f"no {args.again} in {every.folder}; accepted: a file there")
        wait_here(project.root, found[0].identity)
    inbox = read_inbox(project.root, project.snapshot, everything=args.all)
    if args.json:
        terms.answer(
            folder=str(inbox.folder),
            items=[_told(item) for item in inbox.items],
            remarks=list(inbox.remarks),
        )
        return 0
    for item in inbox.items:
        said = f"  {item.words}" if item.words else ""
        doubt = f"  ({item.doubt})" if item.doubt else ""
        became = f"  [{item.became}]" if item.became else ""
        kind = "photo" if item.is_photo else "text"
        print(
            f"{item.when:%Y-%m-%d %H:%M}  {kind:<5}  {item.name}{said}{doubt}{became}"
        )
    for remark in inbox.remarks:
        print(remark)
    count = sum(not item.became for item in inbox.items)
    print(f"{count} to be sorted in {inbox.folder}; logbook sorts them on screen")
    return 0


def _told(item: Item) -> dict[str, str]:
    return {
        "file": item.name,
        "kind": "photo" if item.is_photo else "text",
        "when": item.when.isoformat(),
        "words": item.words,
        "doubt": item.doubt,
        "became": item.became,
    }
