"""What was told with a verb is on disk while a question stands, until it is answered.

A terminal may be closed at a question, or the machine go down: the words are then among
the drafts. A verb that asks nothing pays nothing for it.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from logbook.errors import LogbookError

HOW = "a question stood"


class _Held:
    """The words of the verb that runs, and where they are kept once it asks."""

    def __init__(self) -> None:
        """Hold nothing."""
        self.words: Sequence[str] = ()
        self.kept: tuple[Path, str] | None = None

    def let_go(self) -> None:
        """Delete what was kept, for its question was answered."""
        from logbook.store.typed.drafts import delete_draft

        kept, self.kept = self.kept, None
        if kept is not None:
            with suppress(LogbookError):
                delete_draft(*kept)


_NOW = _Held()


def question_stands() -> None:
    """Keep what was told with the verb that runs: it asks."""
    if _NOW.words and _NOW.kept is None:
        _NOW.kept = keep_told(_NOW.words, HOW)


@contextmanager
def held(words: Sequence[str]) -> Iterator[None]:
    """Hold these words while their verb runs; once it has done its work, let go."""
    _NOW.words, _NOW.kept = words, None
    try:
        yield
    finally:
        _NOW.words = ()
    _NOW.let_go()


def keep_refused(words: Sequence[str], how: str = "refused") -> str:
    """Keep a command that was refused or stopped; give the words that tell so.

    None where it cannot be kept.
    """
    return " (kept in logbook drafts)" if keep_told(words, how) else ""


def keep_told(words: Sequence[str], how: str) -> tuple[Path, str] | None:
    """Keep a command, once; give its project and its draft, where it can be kept."""
    from logbook.store.reading.find import find_project
    from logbook.store.typed.drafts import drafts, keep_draft

    folder = Path()
    if "--in" in words[:-1]:
        folder = Path(words[words.index("--in") + 1])
    try:
        root = find_project(folder).parent
        text = f"logbook {shlex.join(words)}"
        known = (one for one in drafts(root) if text == one.text)
        kept = next(known, None) or keep_draft(root, text, f"{words[0]}, {how}")
    except (LogbookError, OSError):
        return None
    return root, kept.id
