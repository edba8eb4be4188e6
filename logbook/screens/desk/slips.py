"""What stands in a line and is not taken yet, kept on disk until it is.

Each line has a purpose: the bench line, the run on one piece, the fact of one
record. What was being typed when a screen, a terminal or a machine went away is
offered when the line comes back. A line has one owner: what another window that is
open holds is left to it, unless it is taken over on purpose; then the other lets go.

What is wanted is noted at each key and costs nothing; writing it is for a thread.
A line that was taken stays on disk until everything that is being written is there.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Lock

from logbook.errors import ChangedMeanwhile, LogbookError, NotFound
from logbook.store.typed import drafts
from logbook.store.typed.windows import is_open

BENCH = "bench line"
EMPTIED = "emptied"
"""What a line that was emptied by hand is kept as, before its purpose."""
MOST_EMPTIED = 20
"""Of the emptied lines of a project the newest are kept."""
_OWNER = " of process "


@dataclass(frozen=True, slots=True)
class Slip:
    """A line on disk: its purpose, its draft, the process of the window that has it."""

    purpose: str
    draft: drafts.Draft
    owner: int = 0

    @classmethod
    def of(cls, draft: drafts.Draft) -> Slip:
        """Read what a draft says it is for; handed over, it has no owner."""
        purpose, held, owner = draft.for_what.rpartition(_OWNER)
        if not held or not owner.isdecimal():
            return cls(draft.for_what, draft)
        return cls(purpose, draft, int(owner))

    def free(self, root: Path) -> bool:
        """Tell whether no other window that is open has it."""
        return not self.owner or self.is_ours or not is_open(root, self.owner)

    @property
    def is_ours(self) -> bool:
        """Tell whether this process has it."""
        return self.owner == os.getpid()


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
        self._claimed: set[str] = set()
        self._gone: list[tuple[str, str]] = []
        self._handed_over = False
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
                if not self._handed_over:
                    self._keep_wanted(root)
                self._keep_emptied(root)
                self._let_go(root)
            except LogbookError as refusal:
                why = str(refusal).removeprefix(drafts.NOT_KEPT).strip()
                self._refuse(f"what is being typed is not kept: {why}")

    def hand_over(self, root: Path) -> None:
        """Bring all to the disk and own it no more: this window goes away.

        Nothing that is wanted later is written: somebody else may have the lines.
        """
        self.keep(root)
        with self._at_disk:
            self._handed_over = True
            with self._noting:
                left = {p: i for p, i in self._ids.items() if p in self._kept}
                texts = dict(self._kept)
            for purpose, held in left.items():
                with suppress(LogbookError):
                    drafts.keep_draft(root, texts[purpose], purpose, held, _is_ours)

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
                self._keep_one(root, purpose, text, held)
            except LogbookError:
                with self._noting:
                    self._kept.pop(purpose, None)
                raise

    def _keep_one(self, root: Path, purpose: str, text: str, held: str) -> None:
        """Keep one line; what another window took over is kept apart, typed on."""
        ours = f"{purpose}{_OWNER}{os.getpid()}"
        may = lambda draft: held in self._claimed or Slip.of(draft).free(root)  # noqa: E731
        try:
            drafts.keep_draft(root, text, ours, held, may)
        except ChangedMeanwhile:
            there = [one.text for one in drafts.drafts(root) if one.id == held]
            self._lose(purpose, held, typed_on=there != [text])
            if there != [text]:
                apart = drafts.keep_draft(root, text, ours)
                with self._noting:
                    self._ids.setdefault(purpose, apart.id)
                    self._kept[purpose] = text
        self._claimed.discard(held)

    def _lose(self, purpose: str, held: str, *, typed_on: bool) -> None:
        """Let go of a slip another window has."""
        with self._noting:
            if self._ids.get(purpose) == held:
                del self._ids[purpose]
                text = self._kept.pop(purpose, "")
                self._gone.append((purpose, "" if typed_on else text))

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

    # -- lines that come back, and lines that go to another window ------------------

    def left_over(self, root: Path, purpose: str) -> Slip | None:
        """Give the newest slip whose purpose begins with these words.

        It is ours from now on, on disk as soon as it is kept again, unless another
        window that is open has it.
        """
        found = drafts.drafts(root)
        elsewhere = None
        with self._noting:
            ours = {*self._ids.values()}
            for slip in map(Slip.of, found):
                if not f"{slip.purpose} ".startswith(f"{purpose} "):
                    continue
                if slip.draft.id in self._taken or self._typed_on(slip.purpose):
                    continue
                if slip.draft.id in ours or slip.free(root):
                    self._own(slip)
                    return Slip(slip.purpose, slip.draft)
                elsewhere = elsewhere or slip
        return elsewhere

    def _typed_on(self, purpose: str) -> bool:
        """Tell whether something is being typed there by now."""
        return self._wanted.get(purpose, "") != self._kept.get(purpose, "")

    def _own(self, slip: Slip) -> None:
        self._ids[slip.purpose] = slip.draft.id
        self._wanted[slip.purpose] = self._kept[slip.purpose] = slip.draft.text
        if not slip.is_ours:
            del self._kept[slip.purpose]  # its owner is written with the next keeping

    def take_over(self, root: Path, slip: Slip) -> Slip | None:
        """Take a slip another window has, as it is now; None where it is gone."""
        with suppress(NotFound), self._noting:
            now = Slip.of(drafts.take_back(root, slip.draft.id))
            self._claimed.add(now.draft.id)
            self._own(now)
            return Slip(now.purpose, now.draft)
        return None

    def is_elsewhere(self, root: Path, slip: Slip) -> bool:
        """Tell whether another window that is open still has a slip."""
        there = [one for one in drafts.drafts(root) if one.id == slip.draft.id]
        return any(not Slip.of(one).free(root) for one in there)

    def gone(self, root: Path) -> list[tuple[str, str]]:
        """Give the lines other windows have taken over since: purpose and text.

        Without a text: it was typed on here, and what stands here is kept apart.
        """
        with self._noting:
            held = {p: i for p, i in self._ids.items() if p in self._kept}
        known = {one.id: Slip.of(one) for one in drafts.drafts(root)} if held else {}
        for purpose, draft_id in held.items():
            slip = known.get(draft_id)
            if slip is not None and slip.owner and not slip.is_ours:
                self._lose(purpose, draft_id, typed_on=self._typed_on(purpose))
        with self._noting:
            gone, self._gone = self._gone, []
        return gone


def _is_ours(draft: drafts.Draft) -> bool:
    return Slip.of(draft).is_ours
