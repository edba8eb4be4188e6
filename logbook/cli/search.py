"""`logbook search`: what was logged, by words and by sizes, newest first."""

from __future__ import annotations

import argparse
import sys
from dataclasses import asdict, replace
from datetime import UTC, date, datetime, time, timedelta

from logbook.cli import terms
from logbook.errors import BadInput, NotFound
from logbook.index.catalogue import Index
from logbook.index.query import Filter, Line
from logbook.project import Project
from logbook.records.kinds.table import KINDS
from logbook.store.git.repository import repository_of
from logbook.store.reading.find import find_project

SHOWN = 20
SILENT = 2000
"""Records that are read without a word of progress."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.description = (
        "Find records. A word is found by its beginning, letter case, accents and\n"
        "quotes aside; a number by its value: 86.42 finds 86.420 and 86,42, and\n"
        "3/16 in finds 4.7625 mm; so does what a caliper shows of it, 4.76.\n"
        "A day finds what happened on it: 2026-03-14, 14.3.2026, “14 mar”.\n"
        "Without words, the newest that fit are listed."
    )
    parser.add_argument("words", nargs="*", help="words and sizes; all must be there")
    parser.add_argument("--part", default="", help="about this part")
    parser.add_argument("--kind", default="", help="one kind of record, as “failure”")
    parser.add_argument(
        "--since", default="", help="from then on, as 2026-03-14 or “14 mar”"
    )
    parser.add_argument("--until", default="", help="up to then, that day included")
    parser.add_argument("--build", default="", help="of this build")
    parser.add_argument(
        "--ranked", action="store_true", help="what answers best first, not the newest"
    )
    parser.add_argument(
        "--most", type=int, default=SHOWN, help=f"show at most so many ({SHOWN})"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Find and list."""
    if args.most < 1:
        raise BadInput(f"--most: found {args.most}; accepted: 1 or more")
    typed = " ".join(args.words)
    index = _index(args)
    try:
        wanted = _filter(index, args)
        ask = index.ranked if args.ranked else index.search
        found = ask(typed, wanted, args.most + 1)
        if not found and not (args.since or args.until) and (day := _day(typed)):
            found = ask("", _of_day(wanted, day), args.most + 1)
    finally:
        index.close()
    lines, more = found[: args.most], len(found) > args.most
    if args.json:
        terms.answer(found=[asdict(line) for line in lines], more=more)
        return 0
    for line in lines:
        print(told(line))
    if more:
        print(f"more answer; --most {2 * args.most} shows twice as many")
    if not lines:
        print(_nothing(args, typed))
    return 0


def told(line: Line) -> str:
    """Give a hit as one line: when, what kind, title, id and file."""
    kind = KINDS[line.kind].shown
    return f"{line.when:%Y-%m-%d %H:%M}  {kind}: {line.title}  [{line.id}]  {line.path}"


def _nothing(args: argparse.Namespace, typed: str) -> str:
    within = [
        f"--{name} {getattr(args, name)}"
        for name in ("part", "kind", "since", "until", "build")
        if getattr(args, name)
    ]
    meant = f"“{typed}”" if typed.strip() else "this"
    return " ".join([f"nothing on record answers {meant}", *within])


def _index(args: argparse.Namespace) -> Index:
    """Open the index of the project and bring it up to date."""
    root = find_project(args.folder).parent
    project = Project(root, repository_of(root))
    index = Index.open(root, project.own("index.sqlite"), _tell)
    try:
        index.bring_up_to_date()
    except BaseException:
        index.close()
        raise
    return index


def _tell(done: int, total: int) -> None:
    """Say on a terminal how far a new index is; small ones are there at once."""
    if sys.stderr.isatty() and total > SILENT:
        print(f"\rreading {done} of {total} records", end="", file=sys.stderr)
        if done == total:
            print(file=sys.stderr)


# -- what is asked for -----------------------------------------------------------


def _filter(index: Index, args: argparse.Namespace) -> Filter:
    return Filter(
        kind=_kind(args.kind),
        part=_called(index, args.part, "part"),
        build=_called(index, args.build, "build"),
        since=_instant("--since", args.since, last=False),
        until=_instant("--until", args.until, last=True),
    )


def _kind(typed: str) -> str:
    asked = typed.casefold().replace("-", " ").strip()
    for kind in KINDS.values():
        if asked in {kind.word, kind.shown}:
            return kind.word
    if not asked:
        return ""
    accepted = ", ".join(kind.shown for kind in KINDS.values())
    raise BadInput(f"--kind: found “{typed}”; accepted: {accepted}")


def _called(index: Index, name: str, kind: str) -> str:
    """Give the id of the one record of a kind that is called so."""
    if not name:
        return ""
    found = index.called(name, kind)
    if len(found) == 1:
        return found[0].id
    if found:
        which = ", ".join(f"{line.title} {line.id}" for line in found[:6])
        raise NotFound(f"“{name}” can mean {which}; accepted: one of these ids")
    known = ", ".join(line.title for line in index.newest(12, Filter(kind=kind)))
    accepted = known or "none; there is none on record"
    raise NotFound(f"no {kind} is called “{name}”; accepted: {accepted}")


def _instant(option: str, typed: str, *, last: bool) -> datetime | None:
    """Read a date, or a date and time, as the first or the last instant of it."""
    if not typed:
        return None
    try:
        day = _day(typed)
        return _end_of(day, last=last) if day else _moment(option, typed)
    except (OverflowError, ValueError):
        raise _no_date(option, typed) from None


def _end_of(day: date, *, last: bool) -> datetime:
    """Give the first or the last instant of a day here."""
    if not last:
        return datetime.combine(day, time()).astimezone()
    midnight = datetime.combine(day + timedelta(days=1), time()).astimezone()
    return midnight - timedelta(microseconds=1)


def _of_day(wanted: Filter, day: date) -> Filter:
    since, until = _end_of(day, last=False), _end_of(day, last=True)
    return replace(wanted, since=since, until=until)


def _day(typed: str) -> date | None:
    """Give the day that is typed and nothing else: in ISO form, or as it is said."""
    from logbook.plain.when.dated import day_alone
    from logbook.plain.words.vocabulary import Vocabulary

    try:
        return date.fromisoformat(typed)
    except ValueError:
        told = day_alone(typed, Vocabulary(now=datetime.now(UTC).astimezone()))
        return told.at.date() if told and not told.exact else None


def _moment(option: str, typed: str) -> datetime:
    try:
        when = datetime.fromisoformat(typed)
        return when if when.tzinfo else when.astimezone()
    except (OverflowError, ValueError):
        raise _no_date(option, typed) from None


def _no_date(option: str, typed: str) -> BadInput:
    accepted = "a day, 2026-03-14 or “14 mar”, or with its time, 2026-03-14T16:00"
    return BadInput(f"{option}: found “{typed}”; accepted: {accepted}")
