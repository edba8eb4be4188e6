"""What stands in a line and is not taken yet, kept on disk until it is.

Each line has a purpose: the bench line, the run on one piece, the fact of one
record. What was being typed when a screen, a terminal or a machine went away is
offered when the line comes back. A line another running screen holds is left.

What is wanted is noted at each key and costs nothing; writing it is for a thread.
A line that was taken stays on disk until everything that is being written is there.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Lock

from logbook.errors import LogbookError, NotFound
from logbook.store import drafts

BENCH = "bench line"
EMPTIED = "emptied"
"""What a line that was emptied by hand is kept as, before its purpose."""
MOST_EMPTIED = 20
"""Of the emptied lines of a project the newest are kept."""
_OWNER = " of process "


class Slips:
    """The slips of one running app."""

    def __init__(
        self, refuse: Callable[[str], None], writing: Callable[[], bool] = lambda: False
    ) -> None:
        """Tell each refusal through `refuse`; ask `writing` if a taken line may go."""
        self._refuse, self._writing = refuse, writing
        self._wanted: dict[str, str] = {}
        self._kept: dict[str, str] = {}
        self._ids: dict[str, str] = {}
        self._taken: list[str] = []
        self._emptied: list[tuple[str, str]] = []
        self._noting, self._at_disk = Lock(), Lock()

    # -- noted at a key ----------------------------------------------------------

    def want(self, purpose: str, text: str) -> None:
        """Note what stands in the line of this purpose; nothing: it was taken."""
        with self._noting:
            self._wanted[purpose] = text if text.strip() else ""
            if not self._wanted[purpose] and purpose in self._ids:
                self._taken.append(self._ids.pop(purpose))
                self._kept.pop(purpose, None)

    def empty(self, purpose: str, text: str) -> None:
        """Note a line that was emptied by hand: it stays among the drafts."""
        if text.strip():
            with self._noting:
                self._emptied.append((f"{EMPTIED} {purpose}", text))

    # -- done in a thread --------------------------------------------------------

    def keep(self, root: Path) -> None:
        """Bring what is wanted to the disk, and let go what was taken."""
        with self._at_disk:
            try:
                self._keep_wanted(root)
                self._keep_emptied(root)
                self._let_go(root)
            except LogbookError as refusal:
                self._refuse(f"what is being typed is not kept: {refusal}")

    def _keep_wanted(self, root: Path) -> None:
        with self._noting:
            due = [
                (purpose, text, self._ids.setdefault(purpose, drafts.new_draft_id()))
                for purpose, text in self._wanted.items()
                if text and text != self._kept.get(purpose)
            ]
            self._kept |= {purpose: text for purpose, text, _ in due}
        for purpose, text, held in due:
            try:
                drafts.keep_draft(root, text, f"{purpose}{_OWNER}{os.getpid()}", held)
            except LogbookError:
                with self._noting:
                    self._kept.pop(purpose, None)
                raise

    def _keep_emptied(self, root: Path) -> None:
        with self._noting:
            emptied, self._emptied = self._emptied, []
        for purpose, text in emptied:
            drafts.keep_draft(root, text, purpose)
        if emptied:
            old = [d for d in drafts.drafts(root) if d.for_what.startswith(EMPTIED)]
            for draft in old[MOST_EMPTIED:]:
                drafts.delete_draft(root, draft.id)

    def _let_go(self, root: Path) -> None:
        while self._taken and not self._writing():
            with suppress(NotFound):  # never came so far, or deleted in the shell
                drafts.delete_draft(root, self._taken[0])
            del self._taken[0]

    def left_over(self, root: Path, purpose: str) -> tuple[str, drafts.Draft] | None:
        """Give the newest slip whose purpose begins with these words, and its purpose.

        It is ours from now on.
        """
        found = drafts.drafts(root)
        with self._noting:
            ours = {*self._ids.values()}
            for draft in found:
                said, _, owner = draft.for_what.rpartition(_OWNER)
                if not f"{said} ".startswith(f"{purpose} ") or draft.id in self._taken:
                    continue
                if draft.id in ours or not _runs(owner):
                    self._ids[said] = draft.id
                    self._wanted[said] = self._kept[said] = draft.text
                    return said, draft
        return None


def _runs(process: str) -> bool:
    """Tell whether a process, ours included, still runs."""
    if not process.isdigit() or int(process) == os.getpid():
        return process.isdigit()
    try:
        os.kill(int(process), 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
