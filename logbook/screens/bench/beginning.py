"""Beginning a build from the line: asked once, answered by one key."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from textual.content import Content

from logbook.advice.faults.warned_of import counted
from logbook.plain.told.build_begun import BuildBegun, build_begun
from logbook.project import Project
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asking import Question
from logbook.screens.ruled.look import sentence

BEGIN, GO_ON = "begin", "go on"
_KEYS = "23456789"
"""Keys of the releases it may be begun by, the newest first; 1: as the parts are."""
NO_BUILD = "begin none; what is typed stays"
AS_TYPED = "begin it, as 1 does"


class Beginning:
    """A build to begin, from the question to the work that writes it."""

    def __init__(
        self, line: str, begun: BuildBegun, snapshot: Snapshot, *, taken: bool
    ) -> None:
        """Ask about what a line begins; releases are offered with it, as keys go.

        Where the line was `taken`, and no key pressed, Enter begins what it says.
        """
        self._snapshot = snapshot
        releases = snapshot.all(Release)[::-1]
        self.line, self.begun, self._taken = line, begun, taken
        offered = releases if begun.release is None else ()
        self._offered = dict(zip(_KEYS, offered, strict=False))
        self.question = self._asked()

    def _asked(self) -> Question:
        if self.begun.known is not None:
            keys = {"1": ("go on with it", GO_ON)}
            words = f"{self.begun.known.title} is begun already"
            return Question(words, keys, NO_BUILD, about=BEGIN)
        release = self.begun.release
        by = (
            f"{release.title}, as published" if release else "the parts as they are now"
        )
        keys = {"1": (f"begin it by {by}", BEGIN)}
        for key, one in self._offered.items():
            keys[key] = (f"begin it by {one.title}, as published", one.id)
        words = f"begin {self.begun.words}?"
        if release and (told := counted(self._snapshot, release)):
            words = f"{words} {told}"
        resting = AS_TYPED if self._taken else NO_BUILD
        return Question(words, keys, resting, about=BEGIN)

    def answer(self, words: str | None) -> str:
        """Give what was answered; nothing where no build begins."""
        enters = words == "" and self.question.resting == AS_TYPED
        return BEGIN if enters else words or ""

    def job(self, answer: str, now: datetime) -> Job:
        """Give the work that begins it, as answered."""
        begun = self.begun
        for one in self._offered.values():
            begun = begun.of(one) if one.id == answer else begun

        def make(project: Project) -> Draft:
            draft = project.draft(begun.when or now)
            begun.draft(draft)
            return draft

        release = f", from {begun.release.title}" if begun.release else ""
        said = f"{begun.name} is begun{release}"
        if begun.release and (told := counted(self._snapshot, begun.release)):
            said = f"{said} · {told}"
        return Job(f"build: {begun.name}", make, typed=self.line, said=said)


def beginning(
    line: str, snapshot: Snapshot, now: datetime, *, taken: bool = False
) -> Beginning | None:
    """Give the build a line begins; None where it says something else."""
    begun = build_begun(line, snapshot, now)
    if begun is None:
        return None
    return Beginning(line, begun, snapshot, taken=taken)


def shown_begun(begun: BuildBegun) -> Content:
    """Say what was understood of a line that begins a build."""
    kind = "build begun already" if begun.known else "begins a build"
    return sentence("[$mark][b]$kind[/b][/] · $words", kind=kind, words=begun.words)


def begun_by(saved: Iterable[object]) -> Build | None:
    """Give the build that was saved, if one was."""
    return next((one for one in saved if isinstance(one, Build)), None)
