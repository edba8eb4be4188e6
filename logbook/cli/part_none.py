"""`logbook part NAME --no-part`, `--same-as`: a part that is none, or another one."""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Iterable, Iterator
from functools import partial

from logbook.cli import terms
from logbook.cli.asking import Asking
from logbook.errors import BadInput
from logbook.plain.told.no_part import NoPart
from logbook.project import Project, Saved
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.making.drafts import Draft
from logbook.records.making.no_part import take_away
from logbook.records.making.same_part import renumbered, same_part
from logbook.records.states.pieces import pieces_of

_BACK = "logbook undo brings it back"


def none_options(parser: argparse.ArgumentParser) -> None:
    """Declare the options by which a part goes."""
    parser.add_argument(
        "--no-part",
        action="store_true",
        help="it is none, it came to be by a slip: what was made with it alone goes",
    )
    parser.add_argument(
        "--entries-stay",
        action="store_true",
        help="with --no-part: what was said of it stays on record, of no part",
    )
    parser.add_argument(
        "--same-as",
        metavar="PART",
        help="it is that part under a second name: all of it is of that one then",
    )


def goes(project: Project, args: argparse.Namespace) -> int | None:
    """Take the part away, or join it to another, if that is said; else None.

    Raises:
        BadInput: both are said, or --entries-stay without what it goes with.
    """
    if args.no_part and args.same_as:
        raise BadInput("--no-part and --same-as are two answers; accepted: one of them")
    if args.entries_stay and not args.no_part:
        raise BadInput("--entries-stay: accepted: with --no-part")
    if not args.no_part and not args.same_as:
        return None
    # By its whole name or id: what goes is not guessed at.
    part = project.snapshot.lookup(args.name, Part)
    if args.no_part:
        return _away(project, args, part, stays=args.entries_stay)
    other = project.snapshot.lookup(args.same_as, Part)
    return _joined(project, args, part, other)


def said_none(
    project: Project, args: argparse.Namespace, said: NoPart, asking: Asking | None
) -> bool:
    """Do what a plain line says of a part, shown first; tell whether it was done.

    Raises:
        Refused: a release names it.
        NeedsAnswer: something was said of it that would be lost.
    """
    if not args.json:
        print(f"no part · {said.words}")
    if said.other is None:
        away = take_away(project.draft(terms.moment(args)), said.part)
        if not args.json:
            print(terms.folded(f"  goes: {', '.join(map(_called, away))}"))
    if asking and not asking.taking():
        return False
    if said.other is None:
        _away(project, args, said.part, stays=False)
    else:
        _joined(project, args, said.part, said.other)
    return True


def _away(
    project: Project, args: argparse.Namespace, part: Part, *, stays: bool
) -> int:
    draft = project.draft(terms.moment(args), args.build)
    away = take_away(draft, part, stays=stays)
    tell = partial(_gone, away)
    return terms.save(project, draft, f"no part: {part.title}", args, tell=tell)


def _gone(away: Iterable[Record], saved: Saved) -> list[str]:
    lines = [f"taken away: {_called(one)}" for one in away]
    lines += [f"stays, of no part: {one.title}  [{one.id}]" for one in saved.records]
    lines.append(_BACK)
    files = [f.path for one in away if isinstance(one, Revision) for f in one.files]
    for path in dict.fromkeys(files):
        lines.append(
            f"{path} goes with no part now; to be asked about it no more: "
            f"logbook project --no-part {shlex.quote(path)}"
        )
    return lines


def _called(record: Record) -> str:
    return f"{kind_of(record).shown} {record.title}"


def _joined(project: Project, args: argparse.Namespace, part: Part, other: Part) -> int:
    draft = project.draft(terms.moment(args), args.build)
    differs = same_part(draft, part, other)
    told = list(_joined_words(draft, part, other, differs))
    subject = f"one part: {part.title} is {other.title}"
    return terms.save(project, draft, subject, args, tell=lambda _: told)


def _joined_words(
    draft: Draft, part: Part, other: Part, differs: Iterable[str]
) -> Iterator[str]:
    """Say what is whose now, and what was said differently of the two."""
    yield f"“{part.title}” is “{other.title}”: all that was said of it is of that part"
    yield from (f"  said differently: {text}" for text in differs)
    for before, piece in renumbered(draft):
        yield f"{before} is now {piece.title}  [{piece.id}]"
        for one in pieces_of(draft.snapshot, other):
            if one.build and piece.build and one.build.id == piece.build.id:
                both = shlex.join((one.title, piece.title))
                yield f"  if they are one piece: logbook settle --one-piece {both}"
    yield _BACK
