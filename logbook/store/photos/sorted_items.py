"""What items of the inbox became; remembered outside the repository.

Beside the id of the record stands the digest of its file as it was saved with the
item: whoever takes that save back lets the item wait again, until it is brought back.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path

from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.last import Act
from logbook.store.disk.own_files import keep_own_file, own_file
from logbook.store.git.repository import Repository
from logbook.store.reading.designs_below import designs_below, has_own_logbook

FILE = "inbox.json"
THROWN = "thrown away"
_WAITS = "waits"
"""Behind the digest of a save: it was taken back."""
_HERE = "waits here"
"""Of an item that another design of the repository has: here it waits all the same."""


def sorted_items(root: Path, snapshot: Snapshot) -> dict[str, str]:
    """Give what items became, by their identities: a record's id, or `THROWN`.

    Those whose record is not there any more are not among them.

    Raises:
        Refused: the state folder cannot be read.
    """
    found = {}
    for identity, said in _kept(root).items():
        became = said if said == THROWN else said.partition(" ")[0]
        if said.endswith(f" {_WAITS}") or said == _HERE:
            continue
        if became == THROWN or became in snapshot:
            found[identity] = became
    return found


def sorted_by_sisters(repository: Repository, root: Path) -> dict[str, str]:
    """Give what another design of the repository has, with that design's folder.

    What only was thrown away there may be of this one; what was said to wait here does.

    Raises:
        Refused: the state folder cannot be read.
    """
    top = repository.top
    others = [*designs_below(top), *(["."] if has_own_logbook(top) else [])]
    here = {one for one, said in _kept(root).items() if said == _HERE}
    found: dict[str, str] = {}
    for name in others:
        if (top / name).resolve() == root.resolve():
            continue
        for identity, said in _kept(top / name).items():
            own = said not in {THROWN, _HERE} and not said.endswith(f" {_WAITS}")
            if own and identity not in here:
                found.setdefault(identity, name)
    return found


def wait_here(root: Path, identity: str) -> None:
    """Let an item wait here, whatever became of it here or in another design.

    Raises:
        Refused: the state folder cannot be written.
        ChangedMeanwhile: another program wrote it at this moment.
    """
    remember(root, identity, _HERE)


def remember(root: Path, identity: str, became: str, saved: str = "") -> None:
    """Remember what an item became: a record's id, or that it was thrown away.

    `saved` is the digest of the record's file then; an empty `became` lets the item
    wait again.

    Raises:
        Refused: the state folder cannot be written.
        ChangedMeanwhile: another program wrote it at this moment.
    """
    before = own_file(root, FILE)
    held = {**_kept(root), identity: f"{became} {saved}".strip()}
    if not became:
        del held[identity]
    _keep(root, held, before)


def wait_again(root: Path, undone: Act) -> None:
    """Let the items wait again that an act had sorted, which was taken back.

    The act is taken back already, so what cannot be written here is let be: the item
    stays off the list, and `logbook inbox --again` brings it back.
    """
    saved = {touched.after for touched in undone.files if touched.after}
    _say_again(root, lambda said: f"{said} {_WAITS}" if _save(said) in saved else said)


def sorted_again(root: Path, undoing: Act) -> None:
    """Let the items be sorted again by what this act took back and was brought back."""
    befores = (touched.before for touched in undoing.files if touched.before)
    saved = {f"{before} {_WAITS}" for before in befores}
    _say_again(
        root,
        lambda said: said.removesuffix(f" {_WAITS}") if _save(said) in saved else said,
    )


def _save(said: str) -> str:
    """Give what stands behind the id: the digest of the save, and whether it waits."""
    return said.partition(" ")[2]


def _say_again(root: Path, say: Callable[[str], str]) -> None:
    with suppress(LogbookError):
        try:
            _change(root, say)
        except ChangedMeanwhile:  # another program at its own item: once more
            _change(root, say)


def _change(root: Path, say: Callable[[str], str]) -> None:
    before = own_file(root, FILE)
    held = _kept(root)
    changed = {identity: say(said) for identity, said in held.items()}
    if changed != held:
        _keep(root, changed, before)


def _kept(root: Path) -> Mapping[str, str]:
    data = own_file(root, FILE)
    if data is None:
        return {}
    try:
        said = json.loads(data)
    except ValueError:
        return {}
    return {str(k): str(v) for k, v in said.items()} if isinstance(said, dict) else {}


def _keep(root: Path, held: Mapping[str, str], before: bytes | None) -> None:
    data = json.dumps(held, indent=1, sort_keys=True).encode()
    keep_own_file(root, FILE, data, before)
