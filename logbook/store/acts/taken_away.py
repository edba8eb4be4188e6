"""Saved files that wait for git, and those that are gone: taken back, or away."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import Refused
from logbook.records.kinds.place import FOLDER
from logbook.records.written.text import digest
from logbook.store.acts.last import grouped, read_acts
from logbook.store.acts.ledger import Ledger
from logbook.store.acts.taken_back import all_taken_back
from logbook.store.git.repository import Repository

if TYPE_CHECKING:
    from logbook.store.git.message import Change
    from logbook.store.git.waiting import Lost


@dataclass(frozen=True, slots=True)
class TakenAway:
    """What git keeps of files of the project in `root` and HEAD does not have."""

    root: Path
    repository: Repository
    ledger: Ledger

    def ours(self, paths: Iterable[str]) -> list[str]:
        """Give those of git's paths that are in this project, as the project does."""
        places = (self.repository.top / path for path in paths)
        inside = (place for place in places if place.is_relative_to(self.root))
        return [place.relative_to(self.root).as_posix() for place in inside]

    def in_head(self, paths: Iterable[str]) -> set[str]:
        """Give those of these paths that HEAD has, whatever they hold there."""
        from logbook.store.git.standing import tree

        places = [self.repository.relative(self.root / path) for path in paths]
        if not places:
            return set()
        return set(self.ours(tree(self.repository, self.repository.head(), places)))

    def committed(self, path: str) -> str:
        """Give the digest of what HEAD has of a path; empty where it has none.

        Raises:
            Refused: git cannot give it.
        """
        from logbook.store.git.standing import tree
        from logbook.store.git.waiting import Lost, text_of

        place = self.repository.relative(self.root / path)
        blob = tree(self.repository, self.repository.head(), [place]).get(place)
        if blob is None:
            return ""
        return digest(text_of(self.repository, Lost(place, blob.id)))

    def standing(self) -> dict[str, str]:
        """Give the digest of each file git has not taken; empty: taken back.

        Raises:
            Refused: git cannot tell; the sentence says what keeps it from it.
        """
        from logbook.store.git.survey import why_unanswered
        from logbook.store.git.waiting import differing

        folder = self.repository.relative(self.root / FOLDER)
        try:
            found = differing(self.repository, folder)
        except Refused as said:
            why = why_unanswered(self.repository, folder, said)
            raise Refused(why) from None
        return self.ledger.standing(self.ours(found.saved), self.ours(found.gone))

    def by_hand(self) -> tuple[str, ...]:
        """Give the files that were deleted by hand and that git still has.

        Nothing is committed of them: who deletes a file may want it back.

        Raises:
            Refused: git cannot tell.
        """
        from logbook.store.git.waiting import differing

        folder = self.repository.relative(self.root / FOLDER)
        gone = self.ours(differing(self.repository, folder).gone)
        away = [path for path in gone if not (self.root / path).exists()]
        return tuple(sorted({*away} - self.ledger.standing((), away).keys()))

    def waiting_changes(self, called: Callable[[str], str]) -> list[Change]:
        """Give all that waits as changes for git; see `changes` and `standing`."""
        standing = self.standing()
        return self.changes(self.taken_back() | standing, called)

    def changes(
        self, standing: Mapping[str, str], called: Callable[[str], str]
    ) -> list[Change]:
        """Give what waits as changes for git, one for each act, in their order.

        `standing` are the digests of the files, empty for one that is gone. What no
        act here wrote is `called` by its path: edited by hand, where git has it.
        """
        from logbook.store.git.message import Change

        acts = read_acts(self.ledger.journal)
        groups = grouped(standing, acts)
        strange = [paths[0] for subject, _, paths in groups if not subject]
        corrected = self.in_head(strange)

        def by_hand(path: str) -> str:
            name = called(path)
            edited = "edited by hand, " if path in corrected else ""
            return f"{edited}{name}" if name else f"as built: {Path(path).name}"

        def in_tree(path: str) -> str:
            return self.repository.relative(self.root / path)

        folder = self.repository.relative(self.root)
        design = "" if folder == "." else f"{folder}: "  # whose it is, of several

        return [
            Change(
                paths=tuple(in_tree(path) for path in paths if standing[path]),
                removed=tuple(in_tree(path) for path in paths if not standing[path]),
                subject=design
                + (
                    all_taken_back(subject, paths, acts, self.committed)
                    or by_hand(paths[0])
                ),
                when=instant,
            )
            for subject, instant, paths in groups
        ]

    def taken_back(self) -> dict[str, str]:
        """Give the digest of each file that is as the last act here left it."""
        from logbook.store.git.waiting import held_paths

        return self.ledger.as_left(self.ours(held_paths(self.repository)))

    def lost(self) -> tuple[Lost, ...]:
        """Give the files git clean, stash or reset took."""
        from logbook.store.git.waiting import lost

        known = self.taken_back()
        return tuple(
            one
            for one in lost(self.repository)
            if not known.keys() & {*self.ours([one.path])}
        )

    def bring_back(self, at: datetime) -> tuple[str, ...]:
        """Write what was lost where it stood, as one act; give the paths.

        Raises:
            Refused: git has it no more, or the disk refused.
        """
        from logbook.store.git.waiting import text_of

        found = [(one, path) for one in self.lost() for path in self.ours([one.path])]
        files = {path: text_of(self.repository, one) for one, path in found}
        self.ledger.replace(files, "brought back", at)
        return tuple(files)

    def let_go(self) -> tuple[str, ...]:
        """Let git keep no longer what was lost; give git's paths."""
        from logbook.store.git.message import Change
        from logbook.store.git.route import commit

        paths = tuple(one.path for one in self.lost())
        if paths:
            commit(self.repository, [Change((), "let go", removed=paths)])
        return paths
