"""What `logbook settle` makes one: a piece, or a dimension, made in two clones."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator, Sequence

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.making.made_one import led_on, make_one
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.twins import twin_pieces, twin_sizes

Pairs = Iterable[tuple[Record, Record]]


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare how it is said without a question that two pieces are one."""
    parser.add_argument(
        "--one-piece",
        nargs="+",
        action="append",
        default=[],
        metavar="PIECE",
        help="these are one piece, put on record in two clones (base-2, or base-2 "
        "base-3): the later is joined to the older",
    )


def made_one(project: Project, args: argparse.Namespace) -> list[str]:
    """Join what is one thing, as said or answered; lead on what names the joined.

    Raises:
        BadInput: what is said to be one piece is none, or of two parts.
    """
    done = _joined(project, list(_one_piece(project, args)), args)
    done += _joined(project, twin_sizes(project.snapshot), args)
    draft = project.draft(terms.moment(args))
    for record in led_on(project.snapshot):
        draft.amend(record)
    if draft.amended:
        subject = "settle: " + ", ".join(record.title for record in draft.amended)
        project.save(draft, subject, terms.moment(args))
        done += [f"{one.title}  [{one.id}]: led on" for one in draft.amended]
    return done


def if_one(piece: Piece) -> str:
    """Say how a piece that was called anew is joined, where it was the same one."""
    before = piece.formerly[-1]
    return (
        f"  if it is the same piece: logbook settle --one-piece {before} {piece.title}"
    )


def _joined(project: Project, pairs: Pairs, args: argparse.Namespace) -> list[str]:
    draft = project.draft(terms.moment(args))
    done = []
    for older, later in pairs:
        differs = make_one(draft, older, later)
        done.append(
            f"{older.title}  [{older.id}]: {later.title} {later.id} joined to it"
        )
        done += [f"  said differently: {text}" for text in differs]
    if draft.dropped:
        subject = "settle: one " + ", ".join(one.title for one in draft.dropped)
        project.save(draft, subject, terms.moment(args))
    return done


def _one_piece(
    project: Project, args: argparse.Namespace
) -> Iterator[tuple[Piece, Piece]]:
    """Give the pieces said to be one, then those answered to be; the older first."""
    snapshot = project.snapshot
    said: set[str] = set()
    for names in args.one_piece:
        older, *others = _meant(snapshot, names)
        said |= {one.id for one in others}
        yield from ((older, later) for later in others)
    if args.json or not sys.stdin.isatty():
        return
    for older, later in twin_pieces(snapshot):
        if later.id not in said and _asked(snapshot, older, later):
            yield older, later


def _meant(snapshot: Snapshot, names: Sequence[str]) -> list[Piece]:
    found: dict[str, Piece] = {}
    for name in names:
        called = snapshot.named(name, Piece) or (snapshot.lookup(name, Piece),)
        found |= {one.id: one for one in called}
    pieces = sorted(found.values(), key=age)
    if len(pieces) < 2:
        raise BadInput(
            f"--one-piece: {' '.join(names)} is one piece already; accepted: two pieces"
        )
    if len({one.part.id for one in pieces}) > 1:
        raise BadInput(
            f"--one-piece: {' and '.join(one.title for one in pieces)} are of two "
            "parts; accepted: pieces of one part"
        )
    return pieces


def _asked(snapshot: Snapshot, older: Piece, later: Piece) -> bool:
    print(f"{older.title} is on record twice:")
    for one in (older, later):
        told = [entry.title for entry in snapshot.mentions(one)]
        more = f" and {len(told) - 3} more" if len(told) > 3 else ""
        shown = ", ".join(told[:3]) or "nothing logged on it"
        print(f"  {one.id}, {one.when.astimezone():%d %b %H:%M}: {shown}{more}")
    keys = {"1": "one", "2": "two"}
    asked = "  1 one piece, join them  2 two pieces, the later gets the next number "
    return terms.ask_key(asked, keys) == "one"
