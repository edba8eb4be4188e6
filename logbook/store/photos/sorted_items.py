"""What items of the inbox became; remembered outside the repository.

Beside the id of the record stands the digest of its file as it was saved with the
item: whoever takes that save back lets the item wait again.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from logbook.errors import ChangedMeanwhile, LogbookError
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.last import Act
from logbook.store.disk.own_files import keep_own_file, own_file

FILE = "inbox.json"
THROWN = "thrown away"


def sorted_items(root: Path, snapshot: Snapshot) -> dict[str, str]:
    """Give what items became, by their identities: a record's id, or `THROWN`.

    Those whose record is not there any more are not among them.

    Raises:
        Refused: the state folder cannot be read.
    """
    found = {}
    for identity, said in _kept(root).items():
        became = said if said == THROWN else said.partition(" ")[0]
        if became == THROWN or became in snapshot:
            found[identity] = became
    return found


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
    with suppress(LogbookError):
        try:
            _wait_again(root, undone)
        except ChangedMeanwhile:  # another program at its own item: once more
            _wait_again(root, undone)


def _wait_again(root: Path, undone: Act) -> None:
    before = own_file(root, FILE)
    saved = {touched.after for touched in undone.files if touched.after}
    held = _kept(root)
    left = {k: said for k, said in held.items() if said.partition(" ")[2] not in saved}
    if left != held:
        _keep(root, left, before)


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
