"""A build is put on record with who makes it: whoever works here, as git knows him.

So each shop keeps its own figures when clones are merged. Builds from before that was
kept get the name too, where the same person put them on record: his figures go on.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from logbook.errors import Refused
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.store.git.repository import Repository
from logbook.store.git.whose import put_there_by, works_here


def sign_builds(draft: Draft, root: Path, repository: Repository) -> None:
    """Name who makes the builds a draft begins, where no other was named.

    Where git does not know who works here, or cannot be asked, that stays open: what
    was logged is saved all the same.
    """
    begun = [one for one in draft.made(Build) if not one.builder]
    if not begun:
        return
    try:
        name, address = works_here(repository)
        older = _his(draft, root, repository, address) if name else []
    except Refused:
        return
    for one in (*begun, *older) if name else ():
        draft.amend(replace(one, builder=name))
    for one in older:
        draft.remarks.append(
            f"{one.title} is on record as made by {name} too, who put it there; "
            f"“logbook build NAME --builder NAME” says otherwise"
        )


def _his(draft: Draft, root: Path, repository: Repository, address: str) -> list[Build]:
    """Give the builds of no named builder that this person put on record."""
    snapshot = draft.snapshot
    older = [one for one in snapshot.all(Build) if not one.builder]
    if not older or not address:
        return []
    paths = {one.id: repository.relative(root / snapshot.path(one)) for one in older}
    folder = paths[older[0].id].rsplit("/", 2)[0]
    put = put_there_by(repository, folder)
    return [one for one in older if put.get(paths[one.id], ("", ""))[1] == address]
