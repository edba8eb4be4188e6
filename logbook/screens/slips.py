"""What stands in a line and is not taken yet, kept on disk until it is.

Each line has a purpose: the bench line, the run on one piece, the fact of one
record. What was being typed when a screen, a terminal or a machine went away is
offered when the line comes back. A line another running screen holds is left.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from threading import Lock

from logbook.errors import LogbookError, NotFound
from logbook.store import drafts

BENCH = "bench line"
_OWNER = " of process "


class Slips:
    """The slips of one running app; what is refused is told once, until it goes."""

    def __init__(self, refuse: Callable[[str], None]) -> None:
        """Tell a refusal through `refuse`."""
        self._refuse = refuse
        self._ids: dict[str, str] = {}
        self._lock = Lock()
        self._told = False

    def keep(self, root: Path, purpose: str, text: str) -> None:
        """Keep what stands in the line of this purpose; nothing: let it go."""
        with self._lock:
            held = self._ids.get(purpose, "")
            try:
                if text.strip():
                    owned = f"{purpose}{_OWNER}{os.getpid()}"
                    self._ids[purpose] = drafts.keep_draft(root, text, owned, held).id
                elif held:
                    del self._ids[purpose]
                    drafts.delete_draft(root, held)
                self._told = False
            except NotFound:
                self._ids.pop(purpose, None)
            except LogbookError as refusal:
                if not self._told:
                    self._told = True
                    self._refuse(f"what is being typed is not kept: {refusal}")

    def left_over(self, root: Path, purpose: str) -> tuple[str, drafts.Draft] | None:
        """Give the newest slip whose purpose begins with these words, and its purpose.

        It is ours from now on.
        """
        with self._lock:
            for draft in drafts.drafts(root):
                said, _, owner = draft.for_what.rpartition(_OWNER)
                if not f"{said} ".startswith(f"{purpose} "):
                    continue
                if draft.id in self._ids.values() or not _runs(owner):
                    self._ids[said] = draft.id
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
