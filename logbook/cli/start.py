"""`logbook start`: begin a logbook beside the design files of a repository."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from logbook.advice.changes.file_units import SAY_SO
from logbook.cli import terms
from logbook.cli.design_files_told import told
from logbook.counting import so_many
from logbook.errors import BadInput, Refused
from logbook.project import Project
from logbook.records.kinds.design import Project as ProjectRecord
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.place import FOLDER
from logbook.store.designs.design_files import design_files
from logbook.store.designs.part_names import ProposedPart, propose_parts
from logbook.store.designs.proposals import take_proposed, unmade_parts
from logbook.store.designs.unsaid_units import unsaid_units
from logbook.store.disk.save import TEMPORARY
from logbook.store.git.repository import repository_of
from logbook.store.git.state import Ready, Refuses
from logbook.store.git.survey import state
from logbook.store.reading.designs_below import designs_below
from logbook.store.reading.find import is_project

KEPT_AS_IS = "# Records are kept byte for byte, as they were written.\n*.md -text\n"
UNSAVED = f"# What a save cut short may leave behind.\n{TEMPORARY}\n"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("--name", default="", help="what the design is called")
    parser.add_argument("--unit", choices=("mm", "in"), help="meant where none is said")
    parser.add_argument("--yes", action="store_true", help="take all proposed parts")
    parser.add_argument("--when", help=argparse.SUPPRESS)
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Start the logbook; only `as-built/` is added."""
    root = args.folder.resolve()
    repository = repository_of(root)
    if is_project(root / FOLDER):
        return _take_the_rest(args, root)
    project = Project(root, repository)
    standing = state(repository, project.folder)
    if isinstance(standing, Refuses):
        raise Refused(standing.sentence)
    ask = sys.stdin.isatty() and not args.yes and not args.json
    unit = args.unit or (_ask_unit() if ask else "mm")
    found, problems = design_files(root, own=True)
    offered = propose_parts(found, drawings=True)
    proposed = tuple(part for part in offered if not part.only_drawn)
    drawn = tuple(part for part in offered if part.only_drawn)
    for problem in problems:
        print(problem, file=sys.stderr)
    taken = proposed if args.yes else ()
    if ask:
        taken = (*_ask_parts(proposed), *_ask_parts(drawn, "drawings", every=False))
    _save(project, args, unit, taken)
    outcome = terms.committed(project)
    if args.json:
        terms.answer(
            folder=str(root / FOLDER),
            unit=unit,
            parts=[part.title for part in taken],
            proposed=[part.title for part in proposed],
            drawings=[part.title for part in drawn],
            **outcome,
        )
        return 0
    every = so_many(offered if ask else proposed, "part")
    print(f"{root / FOLDER}: unit {unit}, {len(taken)} of {every} taken")
    for line in (*_left_to_others(root), *told(found, offered, taken)):
        print(terms.folded(line))
    for note in _notes(root, unit, proposed, () if ask else taken):
        print(f"note: {note}")
    if proposed and not taken:
        print("parts come by themselves as you log; logbook start --yes takes all")
    if isinstance(standing, Ready) and standing.remark:
        print(f"note: {standing.remark}")
    print(outcome["git"])
    return 0


def _left_to_others(root: Path) -> Iterator[str]:
    """Say which designs lie below that keep their own files."""
    if below := designs_below(root):
        yield (
            f"designs below with a logbook of their own: {', '.join(below)}; their "
            "files are left to them"
        )


def _notes(
    root: Path,
    unit: str,
    proposed: Iterable[ProposedPart],
    unasked: Iterable[ProposedPart],
) -> Iterator[str]:
    """Say what is doubtful about parts taken unasked, and which files are tiny."""
    for part in unasked:
        for doubt in part.doubts:
            yield f"{part.title}: {doubt}"
    newest = [f.path for p in proposed for r in p.revisions[-1:] for f in r.files]
    say = SAY_SO.format(part="PART", unit="UNIT")
    for unsaid in unsaid_units(root, newest, unit):
        yield f"{unsaid} Say so once: {say}. Sizes are never taken from a file"


def _take_the_rest(args: argparse.Namespace, root: Path) -> int:
    """Take the parts of the design files that are none yet, with --yes.

    Raises:
        BadInput: it was not asked for, or all are parts already.
    """
    project = Project.open(root)
    unmade = {part.title for part in unmade_parts(root, project.snapshot)}
    found, _ = design_files(root, own=True) if unmade else ((), ())
    left = [part for part in propose_parts(found) if part.title in unmade]
    if not (args.yes and left):
        how = (
            f"start --yes, which takes the {so_many(left, 'part')} left" if left else ""
        )
        accepted = " or ".join(filter(None, (how, "another folder")))
        raise BadInput(f"{root / FOLDER} is a logbook already; accepted: {accepted}")
    at = terms.moment(args)
    draft = project.draft(at)
    for part in left:
        take_proposed(draft, part, root)
    project.save(draft, "take the parts of the design files", at)
    outcome = terms.committed(project)
    titles = [part.title for part in left]
    if args.json:
        terms.answer(folder=str(root / FOLDER), parts=titles, **outcome)
    else:
        print(f"{root / FOLDER}: parts taken: {', '.join(titles)}")
        print(outcome["git"])
    return 0


def _save(
    project: Project,
    args: argparse.Namespace,
    unit: str,
    taken: tuple[ProposedPart, ...],
) -> None:
    at = terms.moment(args)
    draft = project.draft(at)
    title = args.name or project.root.name
    draft.add(ProjectRecord(id=new_id(), title=title, unit=unit))
    for part in taken:
        take_proposed(draft, part, project.root)
    files = {
        f"{FOLDER}/.gitattributes": KEPT_AS_IS.encode(),
        f"{FOLDER}/.gitignore": UNSAVED.encode(),
    }
    project.save(draft, f"start the logbook of {title}", at, files)


# -- asking ----------------------------------------------------------------------


def _ask_unit() -> str:
    while True:
        said = terms.ask("Which unit is meant where none is said? mm or in [mm] ")
        if said in {"", "mm", "in"}:
            return said or "mm"
        print(f"found “{said}”; accepted: mm or in")


def _ask_parts(
    proposed: tuple[ProposedPart, ...], what: str = "", *, every: bool = True
) -> tuple[ProposedPart, ...]:
    """Ask which are parts; Enter takes `every` one, or none."""
    if not proposed:
        return ()
    for number, part in enumerate(proposed, 1):
        labels = [one.label for one in part.revisions if one.label]
        shown = f" ({', '.join(labels)})" if labels else ""
        print(f"{number:>3}  {part.title}{shown}  ←  {', '.join(part.paths)}")
        for doubt in part.doubts:
            print(f"     {doubt}")
    which, usual = f"which {what}" if what else "which", "all" if every else "none"
    while True:
        said = (
            terms.ask(f"Take {which} as parts? all, none, or numbers [{usual}] ")
            or usual
        )
        if said.casefold() == "all":
            return proposed
        if said.casefold() == "none":
            return ()
        words = said.replace(",", " ").split()
        if all(word.isdigit() and 1 <= int(word) <= len(proposed) for word in words):
            return tuple(proposed[int(word) - 1] for word in words)
        print(f"found “{said}”; accepted: all, none, or numbers 1–{len(proposed)}")
