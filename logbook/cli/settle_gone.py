"""What `logbook settle` says and does of records that are gone and still named.

One clone took an entry back, another amended it: git leaves the file standing, while
what was made with it is gone.
"""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Iterator
from pathlib import PurePosixPath

from logbook.cli import terms
from logbook.project import Project
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.together.refs_held import refs_in
from logbook.records.together.twins import joined_to
from logbook.store.git.history import content_at, removals, unmerged_removals


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare how records that are gone are brought back."""
    parser.add_argument(
        "--bring-back",
        action="store_true",
        help="write again from git what is gone and still named by a record",
    )


def brought_back(project: Project, args: argparse.Namespace) -> list[str]:
    """Write again what is gone and named, and what that names; nothing unless told."""
    done: list[str] = []
    while args.bring_back and (found := _contents(project)):
        names = ", ".join(ref.name for ref, _ in found.values())
        files = {path: data for path, (_, data) in found.items()}
        project.write_files(files, f"settle: brought back {names}", terms.moment(args))
        project.reload()
        done += [f"{ref.name}  [{ref.id}]: brought back" for ref, _ in found.values()]
    return done


def still_gone(project: Project) -> Iterator[str]:
    """Say of each record what it names that is gone, and whether git has it."""
    kept = {ref.id for ref, _ in _in_git(project).values()}
    for record, ref in _dead(project):
        how = "git has it nowhere on this branch"
        if ref.id in kept:
            how = "logbook settle --bring-back writes it again"
        yield f"“{record.title}”  [{record.id}] names “{ref}”, which is gone: {how}"


def removed_on_one_side(project: Project) -> Iterator[str]:
    """Say what keeps each file that one side removed and the other amended."""
    for path, here in unmerged_removals(project.repository).items():
        sides = ("here", "there") if here else ("there", "here")
        stands = (project.repository.top / path).exists()
        kept = "it stands as amended" if stands else "it is gone"
        name = shlex.quote(path)
        yield (
            f"{path}: removed {sides[0]}, amended {sides[1]}; {kept}: git add {name} "
            f"keeps it so, git rm {name} takes it away"
        )


def _dead(project: Project) -> Iterator[tuple[Record, Ref]]:
    snapshot = project.snapshot
    for record in snapshot:
        for ref in dict.fromkeys(refs_in(record)):
            if ref.id and ref.id not in snapshot and not joined_to(snapshot, ref):
                yield record, ref


def _in_git(project: Project) -> dict[str, tuple[Ref, str]]:
    """Give what git has of records that are gone and named: path, name and commit.

    The commit is the one that removed it; the one before has it.
    """
    dead = {ref.id: ref for _, ref in _dead(project)}
    if not dead:
        return {}
    gone = removals(project.repository, project.folder)
    begun = {path: PurePosixPath(path).name.partition("-")[0] for path in gone}
    return {
        path: (dead[begun[path]], commit)
        for path, commit in gone.items()
        if begun[path] in dead and not (project.repository.top / path).exists()
    }


def _contents(project: Project) -> dict[str, tuple[Ref, bytes]]:
    """Give the last content of what is gone and named, by its path in the project."""
    found: dict[str, tuple[Ref, bytes]] = {}
    for path, (ref, commit) in _in_git(project).items():
        data = content_at(project.repository, f"{commit}^", path)
        if data is not None:
            place = project.repository.top / path
            found[place.relative_to(project.root).as_posix()] = (ref, data)
    return found
