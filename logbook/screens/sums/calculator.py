"""The shop calculator: every sum as a form, made from its declaration."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.errors import LogbookError
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.long_work import LongWork
from logbook.screens.desk.news import Job
from logbook.screens.ruled import verbs
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Passage
from logbook.screens.ruled.rows import Row
from logbook.screens.sums.sum_form import ANEW, NEXT, PREVIOUS, SumForm, Typed
from logbook.screens.sums.sum_note import sum_job
from logbook.screens.sums.sum_words import answer_said, said_of
from logbook.shop.answers import Answer
from logbook.shop.sums import find_sum, work_out

WORK = verbs.Verb(
    "work", "next, work it out", "enter", "Go to the next input; then work the sum out."
)
LOG = verbs.Verb(
    "log", "log it", "ctrl+l", "Log the result of the inputs shown as a note."
)
SCROLL = (
    verbs.Verb("scroll(1)", "more", "pagedown", "Show more of the answer."),
    verbs.Verb("scroll(-1)", "less", "pageup", "Go back up.", in_strip=False),
)


class SumSheet(SumForm):
    """One sum: its inputs as lines, and what it comes to.

    An answer is of the inputs it was worked out from. Where others are typed by now
    it says so, and what is logged is worked out from what stands there. What is typed
    is kept until it is logged; a form that was left is filled in again.
    """

    CSS_PATH = Path(__file__).parent / "calculator.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        WORK, LOG, *SCROLL, ANEW, NEXT, PREVIOUS, verbs.BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    class Worked(Message):
        """The sum was worked out, or refused with a sentence."""

        def __init__(
            self, typed: Typed, answer: Answer | None, refusal: str, *, log: bool
        ) -> None:
            """Carry one of the two, of what was typed; `log` asks to log it too."""
            super().__init__()
            self.typed, self.answer, self.refusal = typed, answer, refusal
            self.log = log

    def __init__(self, desk: Desk, name: str) -> None:
        """Show the sum of this name."""
        super().__init__(desk, find_sum(name))
        self._answer: Answer | None = None
        self._of: Typed = {}
        self._logging: Job | None = None

    def body(self) -> ComposeResult:
        """Lay out a line for each input, and the answer under them."""
        yield from super().body()
        yield Row("old", id="old")
        yield Passage(id="answer")

    def on_mount(self) -> None:
        """Start at the first input."""
        super().on_mount()
        self.query_one("#old").display = False
        said = self.query_one(Passage)
        said.margin = self.margin
        said.show([*said_of(self._sum, with_inputs=False)])

    # -- what is said ------------------------------------------------------------

    @on(Input.Changed)
    def _show_age(self) -> None:
        """Say of an answer that it is not of the inputs shown."""
        row = self.query_one("#old", Row)
        row.display = self._answer is not None and self.typed != self._of
        of = ", ".join(
            f"{name.replace('_', ' ')} {' '.join(values)}"
            for name, values in self._of.items()
        )
        row.say(sentence("[$alarm]Enter works it out anew; below: of $of[/]", of=of))

    def told(self, message: Message) -> None:
        """Say that the result is on disk, or why it is not."""
        match message:
            case news.Written() if message.job is self._logging:
                self.settle()
                self.tell(message.saved.records[-1].title, label="logged")
            case news.NotWritten() if message.job is self._logging:
                self.tell(message.reason, label="not logged")
            case _:
                super().told(message)

    @on(Input.Submitted)
    def _enter(self) -> None:
        if not self.goes_on():
            self.action_work()

    def action_work(self) -> None:
        """Work the sum out; some need a moment, so it is done beside the keys."""
        self.tell("")
        self._work(self.typed, log=False)

    @work(thread=True, exclusive=True, group="sum")
    def _work(self, typed: Typed, *, log: bool) -> None:
        try:
            with self.desk.works.doing(LongWork(self._sum.title)) as work:
                answer = work_out(self._sum, typed)
                work.check()
        except LogbookError as refusal:
            self.post_message(self.Worked(typed, None, str(refusal), log=log))
        else:
            self.post_message(self.Worked(typed, answer, "", log=log))

    @on(Worked)
    def _show(self, worked: Worked) -> None:
        """Show an answer; where there is none, the one before stays with its age."""
        if worked.refusal:
            said = sentence("[$alarm bold]$why[/]", why=worked.refusal)
            self.query_one("#accepted", Row).say(said, "not yet")
            if worked.log:
                self.tell("nothing is logged: the inputs give no result")
        if worked.answer is not None:
            self._answer, self._of = worked.answer, worked.typed
            self.add_class("-worked")
            shown = self.query_one(Passage)
            shown.show([*answer_said(worked.answer, shown.width)])
            if worked.log:
                self._log(worked.answer)
        self._show_age()

    def action_scroll(self, by: int) -> None:
        """Scroll the answer by a page."""
        self.query_one(Passage).page(by)

    def action_log(self) -> None:
        """Log the result of the inputs shown as a note; others are worked out first."""
        typed = self.typed
        if self._answer is not None and typed == self._of:
            self._log(self._answer)
        elif typed:
            self._work(typed, log=True)
        else:
            self.tell("nothing is worked out yet; accepted: inputs, then Enter")

    def _log(self, answer: Answer) -> None:
        build = self.desk.build or self.desk.glance.build
        self._logging = sum_job(self._sum, answer, build, self.desk.now())
        self.desk.write(self._logging)
