"""`logbook settle`: put in order what two clones did apart."""

from __future__ import annotations

import argparse
import shlex
import sys
from collections.abc import Iterator
from pathlib import Path

from logbook.cli import settle_gone, settle_labels, settle_twins, terms
from logbook.cli.pages import press_of
from logbook.counting import so_many
from logbook.errors import NeedsAnswer, Problem, ProblemsFound
from logbook.project import Project
from logbook.publish.page_files import PUBLISHED
from logbook.publish.page_files import differing as differing_on_disk
from logbook.records.kinds.made_public import Release
from logbook.records.making.joined_faults import joined_faults
from logbook.records.making.settling import (
    differing,
    joined,
    parts_released,
    read_sides,
    relabelled,
    sides,
    with_other_side,
)
from logbook.records.written.text import Parsed, write_record
from logbook.store.acts.released import anew
from logbook.store.git.history import unmerged

_SIDE_KEYS = {"o": "ours", "t": "theirs"}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "--take",
        choices=("ours", "theirs"),
        help="the side to take where a record was changed on both",
    )
    settle_twins.arguments(parser)
    settle_labels.arguments(parser)
    settle_gone.arguments(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Join what is one, relabel the later of two equal names, ask the rest.

    Published pages in conflict are written anew from the records that came of it.
    """
    project = terms.opened(args)
    done = [
        _conflict(project, problem, args)
        for problem in project.snapshot.problems
        if problem.found == "a merge conflict"
    ]
    project.reload()
    done += settle_twins.made_one(project, args)
    done += _relabelled(project, args)
    done += settle_labels.relabelled(project, args)
    done += _joined(project, args)
    done += settle_gone.brought_back(project, args)
    done += _republished(project, args)
    outcome = {} if args.later else terms.committed(project)
    unread = [f"to be mended by hand: {one}" for one in _unread(project)]
    left = [
        *unread,
        *settle_gone.still_gone(project),
        *settle_labels.left_to_say(project),
        *_left_to_do(project),
    ]
    code = ProblemsFound.exit_code if unread else 0
    if args.json:
        terms.answer(settled=done, left_to_do=left, **outcome)
        return code
    print("\n".join((*done, *left)) or "nothing to settle")
    if outcome and done:
        print(outcome["git"])
    return code


def _relabelled(project: Project, args: argparse.Namespace) -> list[str]:
    """Give the later of two records with one label a label of its own; say so."""
    draft = project.draft(terms.moment(args))
    for record in relabelled(project.snapshot):
        draft.amend(record)
    if not draft.amended:
        return []
    subject = "settle: " + ", ".join(record.title for record in draft.amended)
    went_out = parts_released(project.snapshot)
    project.save(draft, subject, terms.moment(args))
    done = []
    for one in draft.amended:
        done.append(f"{one.formerly[-1]} is now {one.title}  [{one.id}]")
        if held := went_out.get(one.id):
            done.append(f"  it went out as {one.formerly[-1]} in {', '.join(held)}")
        done += settle_twins.if_one(one)
    return done


def _joined(project: Project, args: argparse.Namespace) -> list[str]:
    """Join known faults that were saved of one entry; say what they say differently."""
    draft = project.draft(terms.moment(args))
    done = []
    for one in joined_faults(project.snapshot):
        for record in (one.kept, *one.later):
            draft.amend(record)
        others = ", ".join(record.id for record in one.later)
        done.append(f"{one.kept.title}  [{one.kept.id}]: {others} joined to it")
        done += [f"  said differently: {text}" for text in one.differs]
        if one.differs:
            done.append(f"  say it anew with: logbook erratum {one.kept.id} …")
    if done:
        titles = dict.fromkeys(record.title for record in draft.amended)
        project.save(draft, "settle: " + ", ".join(titles), terms.moment(args))
    return done


def _unread(project: Project) -> list[Problem]:
    """Give why records cannot be read at all: of those there is no side to take."""
    snapshot = project.snapshot
    read = {snapshot.path(record) for record in snapshot}
    return [one for one in snapshot.problems if one.line and one.file not in read]


def _republished(project: Project, args: argparse.Namespace) -> list[str]:
    """Write the pages anew that a merge left in conflict, or under another's label.

    They are no truth. Not while records cannot be read: the pages would leave them out.
    """
    held = set(unmerged(project.repository))
    moved = any(_moved(project))
    torn = {path for path in held if PUBLISHED in path}
    if not (moved or torn) or _unread(project):
        return []
    made = {
        path: data
        for _, files in press_of(project, args).every_page()
        for path, data in differing_on_disk(project.root, files).items()
    }
    if not moved and not held & {project.in_tree(path) for path in made}:
        return []
    project.write_files(made, "settle: pages written anew", terms.moment(args))
    return [f"{path}: written anew from the records" for path in made]


def _moved(project: Project) -> Iterator[Release]:
    """Give the releases whose pages lie in the folder of what they were called."""
    pages = project.root / PUBLISHED
    for release in project.snapshot.all(Release):
        former = [name.removeprefix("release ") for name in release.formerly]
        there = any((pages / label).is_dir() for label in former)
        if anew(release) and there and not (pages / release.label).is_dir():
            yield release


def _left_to_do(project: Project) -> list[str]:
    """Say what git still waits for before a merge is done: nothing is staged here."""
    paths = unmerged(project.repository)
    if not paths:
        return []
    top = project.repository.top
    marked = [path for path in paths if _is_marked(top / path)]
    held = f"git still holds {so_many(paths, 'file')} as in conflict"
    first = f"; first mend by hand: {', '.join(marked)}" if marked else ""
    then = f"{held}{first}; then: git add {shlex.join(paths)} && git commit"
    return [*settle_gone.removed_on_one_side(project), then]


def _is_marked(path: Path) -> bool:
    """Tell whether both sides of a conflict still stand in a file."""
    try:
        return sides(path.read_text("utf-8", errors="replace")) is not None
    except OSError:
        return False


def _conflict(project: Project, problem: Problem, args: argparse.Namespace) -> str:
    """Settle one file; it is for the user to mark it resolved in git."""
    path = problem.file
    data = (project.root / path).read_bytes()
    found = read_sides(data, path)
    if found is None:
        return f"{problem}"
    ours, theirs = found
    run_ = joined(ours, theirs)
    if run_ is not None:
        text, how = write_record(run_), "both sides' readings joined by their ids"
    else:
        text, how = _chosen(path, ours, theirs, args)
    project.write_files({path: text.encode()}, f"settle: {path}", terms.moment(args))
    return f"{path}: {how}"


def _chosen(
    path: str, ours: Parsed, theirs: Parsed, args: argparse.Namespace
) -> tuple[str, str]:
    side = args.take or _ask(path, ours, theirs, args)
    taken, left = (ours, theirs) if side == "ours" else (theirs, ours)
    if taken.record is None:
        raise NeedsAnswer(f"{taken.problems[0]}; mend it by hand", ("ours", "theirs"))
    kept = taken.record
    if left.record is not None:
        kept = with_other_side(kept, left.record)
    return write_record(kept), f"{side} taken, the other side kept in its prose"


def _ask(path: str, ours: Parsed, theirs: Parsed, args: argparse.Namespace) -> str:
    if not args.json:
        print("\n".join(_sides(path, ours, theirs)))
    if args.json or not sys.stdin.isatty():
        raise NeedsAnswer(
            f"{path} was changed on both sides; accepted: --take ours or --take theirs",
            ("ours", "theirs"),
        )
    return terms.ask_key("which side?  o ours / t theirs  ", _SIDE_KEYS)


def _sides(path: str, ours: Parsed, theirs: Parsed) -> Iterator[str]:
    """Give where two sides differ; of one that cannot be read why, and the other."""
    if ours.record and theirs.record:
        yield f"{ours.record.title}  [{ours.record.id}], changed here and there:"
        for one, other in differing(ours.record, theirs.record):
            yield f"  ours:   {one or '(nothing)'}"
            yield f"  theirs: {other or '(nothing)'}"
        yield (
            "all else is alike, or taken from both already; the side not taken is kept "
            f"in the prose of {path}"
        )
        return
    for name, side in (("ours", ours), ("theirs", theirs)):
        yield f"--- {name} ---"
        yield write_record(side.record) if side.record else str(side.problems[0])
