"""Going on past something that waits: which one, and why, at two keys."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from logbook.advice.steps.passing import (
    Reasons,
    Why,
    add_override,
    reasons_for,
    why_of,
)
from logbook.project import Project
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.glance import Wait
from logbook.screens.desk.news import Job
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import Answer
from logbook.screens.ruled.asking_past import why_past
from logbook.screens.ruled.choosing import CHOOSE, Choosing
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.one_question import OneQuestion
from logbook.screens.ruled.passage import Say
from logbook.screens.ruled.rows import Row

PAST = "Enter chooses it, one more key or words say why; going past it is an entry"

NOT_PAST = "no reason given, so nothing was gone past"

PURPOSE = "reason to go on"
"""What a reason that is being typed is kept as."""


class Waits(Choosing, OneQuestion):
    """What waits; a figure chooses, a letter gives the reason."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        CHOOSE, *MOVES, verbs.BACK, *verbs.IN_LISTS,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    ASKS = "a figure chooses at once; words are the reason"
    NOTHING = "nothing waits"
    MARGIN_WORD = "which ›"
    KEEPS = False

    def __init__(
        self, desk: Desk, heading: str = "", holds: Collection[str] = ()
    ) -> None:
        """Choose among everything that waits, or among the holds of these names."""
        super().__init__(desk, heading)
        self._holds = holds

    def body(self) -> ComposeResult:
        """Lay out the list, what the chosen one says in full, line and question."""
        yield from super().body()
        yield Row("", id="question")

    def on_mount(self) -> None:
        """Start with everything that waits."""
        self._wait: Wait | None = None
        waits = (
            self.desk.glance.waits
        )  # as listed: a figure means its row, whatever comes
        self._waits = [w for w in waits if not self._holds or w.hold in self._holds]
        super().on_mount()

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what waits and has what was typed in it; of words in none all of it.

        Those are the reason, typed before a row was chosen.
        """
        words = typed.casefold()
        rows = [
            Line(str(at), str(at + 1), wait.words)
            for at, wait in enumerate(self._waits)
        ]
        return [one for one in rows if words in one.words.casefold()] or rows

    def about(self, line: Line) -> Sequence[Say]:
        """Say in full what waits."""
        wait = self._waits[int(line.key)]
        step = [Say("in step", wait.step.name)] if wait.step else []
        return [Say("in full", wait.words), *step, Say("then", PAST)]

    @on(Input.Changed, "#line")
    def _figure(self, event: Input.Changed) -> None:
        waits = self._waits
        if event.value.isdecimal() and 1 <= int(event.value) <= min(len(waits), 9):
            self.choose(Line(str(int(event.value) - 1), "", ""))

    def choose(self, chosen: Line) -> None:
        """Ask why it may go on; words typed before that fit no row say why."""
        self._wait = self._waits[int(chosen.key)]
        question, said = why_past(self._reasons), self.line.value.strip()
        narrows = any(said.casefold() in one.words.casefold() for one in self._waits)
        if said and not said.isdecimal() and not narrows:
            question.typed = said
            self.line.put("")
        self.ask(question, self._go_past)

    @property
    def _reasons(self) -> Reasons:
        """The reasons that fit what was chosen."""
        assert self._wait is not None
        return reasons_for([self._wait.sort])

    def take_answer(self, answer: Answer) -> None:
        """Do what was answered; words of a reason are kept while they are typed."""
        super().take_answer(answer)
        if self.question is not None:
            self.keep_soon(self.question.typed, PURPOSE)

    def let_wait(self, text: str) -> None:
        """Keep what was typed at a question that goes: this list goes with it."""
        self.keep_now(text, PURPOSE)

    def _go_past(self, answer: Answer) -> None:
        if answer.words is None:
            if not answer.waits:
                self.keep_now("", PURPOSE)
            self.dismiss()
            return
        assert self._wait is not None
        why = why_of(answer.words, self._reasons)
        if why is not None:
            self.desk.write(override_job(self.desk, self._wait, why))
        self.keep_now("", PURPOSE)
        self.dismiss("" if why else NOT_PAST)


def override_job(desk: Desk, wait: Wait, why: Why) -> Job:
    """Make the work that logs going on past something that waits."""
    now, build = desk.now(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        add_override(draft, wait.hold, wait.step, why)
        return draft

    return Job(f"override: {wait.hold}", make)
