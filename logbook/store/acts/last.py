"""The last acts of this clone: what was saved together, so that it can be undone.

A journal of lines in the git directory. It is a convenience only: records are
the truth, and losing the journal loses nothing but the groups in which waiting
files are committed and what `undo` can take back.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from pathlib import Path

from logbook.store.disk.flushed import locked

PAGES = "as-built/published/"

KEPT = 200
"""Acts kept; older ones are in the history of the repository anyway."""


@dataclass(frozen=True, slots=True)
class Touched:
    """A file an act wrote: digests before and after, and the text it replaced.

    An empty digest means that there was, or is, no file.
    """

    path: str
    before: str
    after: str
    replaced: str = ""


@dataclass(frozen=True, slots=True)
class Act:
    """Files saved together under one subject line.

    `build` is the id of the build that was worked on; empty: none was, as by a move.
    One that `undoes` another names its instant by `of`; once it is `undone`, what it
    took back was brought back.
    """

    at: str
    subject: str
    files: tuple[Touched, ...]
    undone: bool = False
    undoes: bool = False
    build: str = ""
    of: str = ""

    @property
    def instant(self) -> datetime:
        """Give the instant the act was done."""
        return datetime.fromisoformat(self.at)


def read_acts(journal: Path) -> tuple[Act, ...]:
    """Read the journal, oldest first; what cannot be read is passed over."""
    try:
        lines = journal.read_text("utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return ()
    acts = []
    for line in lines:
        try:
            raw = json.loads(line)
            files = tuple(Touched(**touched) for touched in raw.pop("files"))
            acts.append(Act(files=files, **raw))
        except (ValueError, TypeError, KeyError, AttributeError):
            continue
    return tuple(acts)


def note_act(journal: Path, act: Act) -> None:
    """Add an act; the journal is cut to its newest acts now and then.

    Raises:
        Refused: another program did not let go of the journal.
    """
    with _alone(journal):
        acts = read_acts(journal)
        if len(acts) >= 2 * KEPT:
            _write(journal, [*acts[-KEPT:], act])
            return
        with journal.open("a", encoding="utf-8") as file:
            file.write(json.dumps(asdict(act), ensure_ascii=False) + "\n")


def note_undone(journal: Path, act: Act, undoing: Act) -> None:
    """Note what took an act back, so that the next one goes further back.

    Raises:
        Refused: another program did not let go of the journal.
    """
    with _alone(journal):
        before = read_acts(journal)
        acts = [replace(one, undone=True) if one == act else one for one in before]
        _write(journal, [*acts, undoing])


def _alone(journal: Path) -> AbstractContextManager[int | None]:
    """Keep other windows and verbs from the journal: none drops a line of another."""
    return locked(journal.with_suffix(".lock"))


def undoable_acts(journal: Path) -> list[Act]:
    """Give the acts that can still be undone, the newest first.

    Pages are made anew, not undone.
    """
    return [
        act
        for act in reversed(read_acts(journal))
        if not act.undone
        and not act.undoes
        and not all(PAGES in touched.path for touched in act.files)
    ]


def acts_taken_back(journal: Path) -> list[Act]:
    """Give the acts that took one back which was not brought back, the newest first."""
    acts = reversed(read_acts(journal))
    return [act for act in acts if act.undoes and not act.undone]


def grouped(
    waiting: Mapping[str, str], acts: Sequence[Act]
) -> list[tuple[str, datetime | None, tuple[str, ...]]]:
    """Group waiting files (path to digest) as they were saved together.

    Gives (subject, instant, paths) in the order of the acts; files no act knows
    come last, one by one, without a subject.
    """
    left = dict(waiting)
    newest: dict[str, int] = {}
    for number, act in enumerate(acts):
        for touched in act.files:
            newest[touched.path] = number
    groups: list[tuple[str, datetime | None, tuple[str, ...]]] = []
    for number, act in enumerate(acts):
        paths = tuple(
            touched.path
            for touched in act.files
            if touched.path in left
            and newest[touched.path] == number
            and left[touched.path] == touched.after
        )
        if paths:
            groups.append((act.subject, act.instant, paths))
            for path in paths:
                del left[path]
    groups += [("", None, (path,)) for path in sorted(left)]
    return groups


def _write(journal: Path, acts: Sequence[Act]) -> None:
    lines = [json.dumps(asdict(act), ensure_ascii=False) for act in acts]
    fresh = journal.with_suffix(".new")
    fresh.write_text("".join(line + "\n" for line in lines), "utf-8")
    fresh.replace(journal)
