"""What `logbook settle` makes one: a part, build, piece or size made in two clones."""

from __future__ import annotations

import argparse
import shlex
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.made_one import led_on, make_one
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.twins import (
    twin_builds,
    twin_issues,
    twin_parts,
    twin_pieces,
    twin_sizes,
)

Pairs = Iterable[tuple[Record, Record]]
Twin = Part | Build | Piece
TWINS: dict[str, tuple[type[Twin], Callable[[Snapshot], Pairs]]] = {
    "part": (Part, twin_parts),
    "build": (Build, twin_builds),
    "piece": (Piece, twin_pieces),
}
"""What is asked about, one or two, by its word: a part before the pieces of it."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare how it is said without a question that two records are of one thing."""
    for word, example in (
        ("piece", "base-2, or base-2 base-3"),
        ("part", "lid, or lid “lid 2”"),
        ("build", "“build 2”, or “build 2” “build 3”"),
    ):
        parser.add_argument(
            f"--one-{word}",
            nargs="+",
            action="append",
            default=[],
            metavar=word.upper(),
            help=f"these are one {word}, put on record in two clones ({example}): the "
            "later is joined to the older",
        )


def made_one(project: Project, args: argparse.Namespace) -> list[str]:
    """Join what is one thing, as said or answered; lead on what names the joined.

    Raises:
        BadInput: what is said to be one is one already, or pieces are of two parts.
    """
    done = []
    for word in TWINS:
        joined = _joined(project, list(_one(project, args, word)), args)
        if joined and word == "part":
            joined += _joined(project, twin_issues(project.snapshot), args)
        done += joined
    done += _joined(project, twin_sizes(project.snapshot), args)
    draft = project.draft(terms.moment(args))
    for record in led_on(project.snapshot):
        draft.amend(record)
    if draft.amended:
        subject = "settle: " + ", ".join(record.title for record in draft.amended)
        project.save(draft, subject, terms.moment(args))
        done += [f"{one.title}  [{one.id}]: led on" for one in draft.amended]
    return done


def if_one(record: Record) -> Iterator[str]:
    """Say how a record that was called anew is joined, where it was the same thing."""
    for word, (cls, _) in TWINS.items():
        if isinstance(record, cls):
            names = shlex.join((record.formerly[-1], record.title))
            yield f"  if it is the same {word}: logbook settle --one-{word} {names}"


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


def _one(project: Project, args: argparse.Namespace, word: str) -> Pairs:
    """Give the records said to be one, then those answered to be; the older first."""
    snapshot = project.snapshot
    said: set[str] = set()
    for names in getattr(args, f"one_{word}"):
        older, *others = _meant(snapshot, names, word)
        said |= {one.id for one in others}
        yield from ((older, later) for later in others)
    if args.json or not sys.stdin.isatty():
        return
    for older, later in TWINS[word][1](snapshot):
        if later.id not in said and _asked(snapshot, older, later, word):
            yield older, later


def _meant(snapshot: Snapshot, names: Sequence[str], word: str) -> list[Record]:
    cls = TWINS[word][0]
    found: dict[str, Record] = {}
    for name in names:
        called = snapshot.named(name, cls) or (snapshot.lookup(name, cls),)
        found |= {one.id: one for one in called}
    meant = sorted(found.values(), key=age)
    if len(meant) < 2:
        raise BadInput(
            f"--one-{word}: {' '.join(names)} is one {word} already; accepted: two "
            f"{word}s"
        )
    if len({one.part.id for one in meant if isinstance(one, Piece)}) > 1:
        raise BadInput(
            f"--one-piece: {' and '.join(one.title for one in meant)} are of two "
            "parts; accepted: pieces of one part"
        )
    return meant


def _asked(snapshot: Snapshot, older: Record, later: Record, word: str) -> bool:
    print(f"{older.title} is on record twice:")
    for one in (older, later):
        told = [entry.title for entry in snapshot.mentions(one)]
        more = f" and {len(told) - 3} more" if len(told) > 3 else ""
        shown = ", ".join(told[:3]) or "nothing logged on it"
        whose, at = _whose(snapshot, one), f"{one.when.astimezone():%d %b %H:%M}"
        print(f"  {one.id}, {at}{whose}: {shown}{more}")
    keys = {"1": "one", "2": "two"}
    asked = f"  1 one {word}, join them  2 two {word}s, the later gets another name "
    return terms.ask_key(asked, keys) == "one"


def _whose(snapshot: Snapshot, one: Record) -> str:
    """Say of which build a piece is, and in whose shop, where that is on record."""
    if isinstance(one, Build):
        return f" (of {one.builder})" if one.builder else ""
    build = snapshot.find(one.build, Build) if isinstance(one, Piece) else None
    if build is None:
        return ""
    return f" ({build.title} of {build.builder})" if build.builder else ""
