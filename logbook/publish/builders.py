"""Who made each build, where they are several: pages of two shops say which is whose.

It is what the build's record says; where that names nobody, who put it into git.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from logbook.counting import so_many
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.whose_shop import same_builder
from logbook.store.git.repository import Repository
from logbook.store.git.whose import put_there_by, works_here


def builders(snapshot: Snapshot, root: Path, repository: Repository) -> dict[str, str]:
    """Give the builder's name of each build, by its id; nothing where there is one."""
    builds = snapshot.all(Build)
    if len(builds) < 2:
        return {}
    names = {one.id: one.builder for one in builds if one.builder}
    if len(names) < len(builds):
        put = _put_by(snapshot, root, repository)
        # One person of two names in git is one builder: by the address, the newest.
        called = {put[id_][1]: name for id_, name in names.items()}
        for one in builds:
            name, address = put[one.id]
            if one.id not in names and address:
                names[one.id] = called.setdefault(address, name)
    if len({same_builder(name) for name in names.values()}) < 2:
        return {}
    return {id_: name for id_, name in names.items() if name}


def _put_by(
    snapshot: Snapshot, root: Path, repository: Repository
) -> dict[str, tuple[str, str]]:
    """Give who put each build on record first, as name and address."""
    builds = snapshot.all(Build)
    paths = {one.id: repository.relative(root / snapshot.path(one)) for one in builds}
    folder = paths[builds[0].id].rsplit("/", 2)[0]
    put = put_there_by(repository, folder)
    here = works_here(repository)  # what git has not taken yet was logged here
    return {id_: put.get(path, here) for id_, path in paths.items()}


def whose_builds(snapshot: Snapshot, names: Mapping[str, str]) -> str:
    """Say which build is whose; empty where one builder made them all."""
    each: dict[str, list[str]] = {}
    for one in snapshot.all(Build):
        if one.id in names:
            each.setdefault(names[one.id], []).append(one.title)
    return ", ".join(f"{' and '.join(made)} by {who}" for who, made in each.items())


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
