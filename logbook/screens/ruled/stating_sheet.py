"""A list whose line takes a step, a hold or a gap as the shell does, shown first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from textual import on
from textual.message import Message
from textual.widgets import Input

from logbook.errors import BadInput, LogbookError
from logbook.plain.stated.examples import example
from logbook.plain.stated.said_back import said_back
from logbook.plain.stated.typed_line import (
    Stated,
    begins_with,
    read_stated,
    told_behind,
)
from logbook.project import Project
from logbook.records.making.drafts import Draft
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.facing import Facing
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say
from logbook.screens.ruled.rows import Row


class StatingSheet(Facing):
    """What is typed behind one of its verbs is said back, and written by Enter."""

    STATES: ClassVar[tuple[str, ...]] = ()

    def __init__(self, desk: Desk) -> None:
        """Start with nothing stated."""
        super().__init__(desk)
        self._said_back = False
        self.stated_job: Job | None = None

    @property
    def stating(self) -> bool:
        """Tell whether the line begins with one of the verbs."""
        return begins_with(self.line.value, self.STATES)

    def examples(self) -> Iterator[Say]:
        """Give what may be typed here, of the project's own parts."""
        if self.desk.is_open:
            for verb in self.STATES:
                yield Say(verb, f"“{example(verb, self.desk.snapshot)}”")
            for verb in self.STATES:
                yield Say(f"{verb}; …", ", ".join(told_behind(verb)))

    def told(self, message: Message) -> None:
        """Say that it is on disk, or give the line back where it was refused."""
        if isinstance(message, news.Written) and message.job is self.stated_job:
            self.forget_emptied()
            self.tell(message.job.told, label="on disk")
            return
        super().told(message)
        if not isinstance(message, news.NotWritten) or self.line.value:
            return
        if message.job is self.stated_job:
            self.line.put(message.job.typed)

    @on(Input.Changed, "#line")
    def _say_back(self) -> None:
        """Show what would be written, or what is missing yet."""
        if self.line.asking:
            return
        row = self.query_one("#question", Row)
        if self.stating:
            try:
                said = " · ".join(self._drafted()[-1])
                words = sentence("[$mark]$said[/] · Enter writes it", said=said)
            except LogbookError as refusal:
                words = sentence("[$quiet]not yet: $why[/]", why=str(refusal))
            row.say(words, "understood")
        if self.stating or self._said_back:
            row.set_class(self.stating, "-asks")
            self._said_back = self.stating

    def _drafted(self) -> tuple[Stated, str, tuple[str, ...]]:
        """Read the line and draft it on the records as they are now.

        Raises:
            LogbookError: it cannot be read, or what it names cannot be.
        """
        stated = read_stated(self.line.value, self.desk.snapshot, self.STATES)
        if stated is None:
            shown = example(self.STATES[0], self.desk.snapshot)
            raise BadInput(f"found “{self.line.value}”; accepted: {shown}")
        draft = Draft(self.desk.snapshot, self.desk.now(), self.desk.build)
        record = stated.put(draft)
        return stated, record.title, said_back(draft, record)

    def take_stated(self) -> bool:
        """Write what the line states; a refusal stands beside it. Tell if it states."""
        if not self.stating:
            return False
        if not self.desk.is_open:
            self.tell(self.not_read(), label="not taken")
            return True
        try:
            stated, title, said = self._drafted()
        except LogbookError as refusal:
            self.tell(str(refusal), label="not taken")
            return True
        now, build = self.desk.now(), self.desk.build

        def make(project: Project) -> Draft:
            draft = Draft(project.snapshot, now, build)
            stated.put(draft)
            return draft

        told = " · ".join(said)
        self.stated_job = Job(
            f"{stated.verb}: {title}", make, typed=stated.line, said=told
        )
        self.desk.write(self.stated_job)
        self.line.put("")
        return True
