"""`logbook errata`: the known faults that apply to a release, as pages or as JSON."""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Iterable, Iterator
from pathlib import Path

from logbook.advice.faults.held_newest import clear_words, newer_words, unknown_words
from logbook.advice.faults.held_release import came_with, release_words, released_as
from logbook.advice.faults.holding import (
    Held,
    held_by_build,
    held_by_files,
    holding_advice,
    standings,
)
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.unplaced import unplaced
from logbook.advice.faults.warned_of import says
from logbook.advice.faults.withdrawn_release import recalled
from logbook.advice.ground.advice import as_facts
from logbook.cli import terms
from logbook.cli.fault_called import numbered_fault
from logbook.cli.guide import named
from logbook.cli.pages import paper, press_of, stale_of
from logbook.errors import BadInput, NoProject, NotFound, Refused
from logbook.project import Project
from logbook.publish.errata.errata import errata_facts, readme_line
from logbook.publish.errata.record_ends import ends_words
from logbook.publish.faults.worded import days_of
from logbook.records.kinds.design import DesignFile, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build
from logbook.records.making.not_met import Known, steady_id, steady_name
from logbook.store.designs.design_files import design_files, hashed
from logbook.store.git.repository import Repository


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "release",
        nargs="?",
        default="",
        help="which, else the newest; “fault 2”: that one of its page",
    )
    parser.add_argument("--all", action="store_true", help="of all releases together")
    parser.add_argument(
        "--revision", default="", help="of what is made to this revision"
    )
    parser.add_argument(
        "--files",
        nargs="+",
        default=[],
        type=Path,
        help="of who holds these files, or the design files of a folder",
    )
    parser.add_argument("--build", default="", help="of what this build is made of")
    parser.add_argument("--print", action="store_true", help="print, write no file")
    paper(parser)
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Write the known faults, or with --json give them as data and write nothing."""
    project = _opened(args)
    if args.all and args.release:
        raise BadInput(f"found --all and {args.release}; accepted: one of the two")
    if (fault := numbered_fault(project, args, args.release)) is not None:
        return _one(project, args, fault)
    if args.revision or args.files or args.build:
        return _held(project, args)
    releases = (
        project.snapshot.all(Release) if args.all else (named(project.snapshot, args),)
    )
    snapshot = project.snapshot
    days = days_of(snapshot, project.root, project.repository)
    if args.json:
        terms.answer(**errata_facts(snapshot, releases, every=args.all, days=days))
        return 0
    text, files = press_of(project, args).errata(releases, every=args.all)
    if args.print:
        print(text, end="")
        return 0
    label = "all" if args.all else releases[-1].label
    project.write_files(files, f"known faults of {label}", terms.moment(args))
    outcome = terms.committed(project)
    said = [*files, outcome["git"]]
    if not args.all:
        path = next(iter(files))
        line = readme_line(project.snapshot, releases[-1], path)
        said.append(f"for the README: {line}")
    said += unplaced(project.snapshot)
    said += stale_of(project)
    print("\n".join(said))
    return 0


def _one(project: Project, args: argparse.Namespace, fault: Known) -> int:
    """Say of one fault what it is called in every edition, and what to do now."""
    snapshot = project.snapshot
    own = steady_id(fault)
    found = next(one for one in known_faults(snapshot) if steady_id(one) == own)
    name = steady_name(snapshot, found)
    if args.json:
        terms.answer(name=name, title=fault.title, says=says(snapshot, found))
    else:
        print(f"{says(snapshot, found)}\nin every edition: fault {name}")
    return 0


def _opened(args: argparse.Namespace) -> Project:
    """Open the project.

    Raises:
        NoProject: there is none; who only holds files is told where to ask of them.
    """
    try:
        return terms.opened(args)
    except (NoProject, Refused) as refusal:
        outside = isinstance(refusal, NoProject) or not Repository.find(args.folder)
        if not args.files or not outside:
            raise
        paths = shlex.join(str(path.absolute()) for path in args.files)
        raise NoProject(
            "what is known of files stands in a clone of their design, and this folder "
            "is in none (what was unpacked knows nothing newer); accepted, in such a "
            f"clone: logbook errata --files {paths}"
        ) from refusal


def _held(project: Project, args: argparse.Namespace) -> int:
    """Say what concerns who holds a revision, some files or a build; write nothing."""
    snapshot = project.snapshot
    held: list[Held] = []
    build = snapshot.lookup(args.build, Build) if args.build else None
    if args.revision:
        revision = snapshot.lookup(args.revision, Revision)
        held.append(Held((revision,), revision.title))
    files = dict(_files(args.files))
    found, unknown = held_by_files(snapshot, files)
    releases = released_as(snapshot, files.values())
    held += (*found, *came_with(snapshot, releases, found))
    held += held_by_build(snapshot, build) if build else ()
    stands = standings(snapshot, held, build)
    told = list(holding_advice(snapshot, stands))
    told.sort(key=lambda one: list(Grade).index(one.grade))
    newer = [*filter(None, (newer_words(snapshot, one) for one in held))]
    clear = list(clear_words(snapshot, found, stands))
    ends = ends_words(snapshot, project.root, project.repository)
    if args.json:
        terms.answer(
            held=[
                {"what": one.because, "revisions": [r.title for r in one.revisions]}
                for one in held
            ],
            releases=[one.label for one in releases],
            withdrawn=[*filter(None, (recalled(snapshot, one) for one in releases))],
            newer=newer,
            clear=clear,
            unknown=list(unknown),
            advice=[as_facts(one) for one in told],
            record_ends=ends,
        )
        return 0
    if said := release_words(snapshot, releases):
        print(said)
    for one in told:
        print(f"{one.grade.value}: {one.statement}")
    for line in (*newer, *clear):
        print(line)
    for path in unknown:
        print(unknown_words(path))
    if told:
        print("from the records of this logbook")
    elif held and not clear:
        print(f"no known fault concerns {'the rest' if unknown else 'it'}")
    print(ends)
    named_ones = {path.as_posix() for path in args.files}
    return NotFound.exit_code if named_ones & set(unknown) else 0


def _files(places: Iterable[Path]) -> Iterator[tuple[str, DesignFile]]:
    """Give each file as a revision would record it; of a folder its design files.

    Raises:
        BadInput: one cannot be read, or there is none in a folder.
    """
    for place in places:
        if not place.is_dir():
            yield place.as_posix(), hashed(place)
            continue
        inside = [path for one in design_files(place)[0] for path in one.paths]
        if not inside:
            raise BadInput(
                f"{place}: found no design file in it; accepted: a folder with .stl, "
                ".step, .dxf or the like, or a file by its name"
            )
        for path in sorted(inside):
            yield (place / path).as_posix(), hashed(place / path)
