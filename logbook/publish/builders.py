"""Who made each build, where they are several: pages of two shops say which is whose.

It is told by who put the build's record into git.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from logbook.counting import so_many
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.repository import Repository
from logbook.store.git.whose import put_there_by, works_here


def builders(snapshot: Snapshot, root: Path, repository: Repository) -> dict[str, str]:
    """Give the builder's name of each build, by its id; nothing where there is one."""
    builds = snapshot.all(Build)
    if len(builds) < 2:
        return {}
    paths = {one.id: repository.relative(root / snapshot.path(one)) for one in builds}
    folder = paths[builds[0].id].rsplit("/", 2)[0]
    put = put_there_by(repository, folder)
    here = works_here(repository)  # what git has not taken yet was logged here
    known = {id_: put.get(path, here) for id_, path in paths.items()}
    if len({address for _, address in known.values() if address}) < 2:
        return {}
    return {id_: name for id_, (name, _) in known.items() if name}


def whose_builds(snapshot: Snapshot, names: Mapping[str, str]) -> str:
    """Say which build is whose; empty where one builder made them all."""
    told = [
        f"{one.title} by {names[one.id]}"
        for one in snapshot.all(Build)
        if one.id in names
    ]
    return ", ".join(told)


def record_of(names: Mapping[str, str]) -> str:
    """Say of how many builders this is the record."""
    number = len(set(names.values()))
    return f"the record of {so_many(number, 'builder')}" if number > 1 else ONE


ONE = "one builder's record"
"""What it is where nobody else put a build there."""


def defers(names: Mapping[str, str]) -> str:
    """Say whose record a page is, and what decides before it."""
    return (
        f"This is {record_of(names)}, not advice for your shop: local codes, the "
        "makers' instructions and licensed practice decide wherever they apply."
    )
