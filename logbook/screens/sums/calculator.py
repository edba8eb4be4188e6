"""The shop calculator: every sum as a form, made from its declaration."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.events import DescendantFocus
from textual.message import Message
from textual.widgets import Input, Static

from logbook.errors import LogbookError
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.look import paragraph, sentence
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.passage import Passage, Say
from logbook.screens.ruled.rows import Row
from logbook.screens.ruled.sheet import Sheet
from logbook.screens.sums.sum_note import sum_job
from logbook.shop.answers import Answer
from logbook.shop.given import Input as Asked
from logbook.shop.shown import answer_lines, split_values
from logbook.shop.sums import Sum, find_sum, sums_by_topic, work_out

WORK = verbs.Verb("work", "work it out", "enter", "Work the sum out.")
LOG = verbs.Verb(
    "log", "log it", "ctrl+l", "Log the result of the inputs shown as a note."
)
NEXT = verbs.Verb("next(1)", "next", "down", "Go to the next input.", in_strip=False)
PREVIOUS = verbs.Verb(
    "next(-1)", "previous", "up", "Go to the input before.", in_strip=False
)

SCROLL = (
    verbs.Verb("scroll(1)", "more", "pagedown", "Show more of the answer."),
    verbs.Verb("scroll(-1)", "less", "pageup", "Go back up.", in_strip=False),
)


class Sums(Choosing):
    """All sums; words of name and title narrow them."""

    NOTHING = "no sum is called that"
    MARGIN_WORD = "sum ›"
    BROAD = 160

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the sums with every word typed in name, topic or title."""
        words = typed.casefold().split()
        return [
            Line(each.name, margin_word(topic), each.title)
            for topic, sums in sums_by_topic().items()
            for each in sums
            if all(w in f"{topic} {each.name} {each.title}".casefold() for w in words)
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a sum needs and does."""
        return [*_said_of(find_sum(line.key))]


Typed = dict[str, list[str]]
"""What was typed for the inputs, by their names."""


class SumSheet(Sheet):
    """One sum: its inputs as lines, and what it comes to.

    An answer is of the inputs it was worked out from. Where others are typed by now
    it says so, and what is logged is worked out from what stands there.
    """

    CSS_PATH = Path(__file__).parent / "calculator.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        WORK, LOG, *SCROLL, NEXT, PREVIOUS, verbs.BACK, *verbs.EVERYWHERE,
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
        super().__init__(desk)
        self._sum: Sum = find_sum(name)
        self._answer: Answer | None = None
        self._of: Typed = {}
        self._logging: Job | None = None

    @property
    def heading(self) -> str:
        """What is worked out here."""
        return self._sum.title

    def body(self) -> ComposeResult:
        """Lay out a line for each input, and the answer under them."""
        with VerticalScroll(id="inputs"):
            for number, asked in enumerate(self._sum.inputs):
                line = EntryLine(_meaning(asked), id=f"input-{number}")
                yield Row(asked.name.replace("_", " "), line)
        yield Row("accepted", id="accepted")
        yield Row("old", id="old")
        yield VerticalScroll(Static("", id="answer", markup=False), id="answers")
        yield Passage(id="does")

    def on_mount(self) -> None:
        """Start at the first input."""
        super().on_mount()
        self.query(EntryLine).first().focus()
        self.query_one("#answers").display = self.query_one("#old").display = False
        self.query_one(Passage).show([*_said_of(self._sum, with_inputs=False)])

    @on(DescendantFocus)
    @on(Input.Changed)
    def _hint(self) -> None:
        """Say what is accepted where the cursor stands."""
        for asked, line in zip(self._sum.inputs, self.query(EntryLine), strict=True):
            if line.has_focus:
                self.query_one("#accepted", Row).say(_accepted(asked), "accepted")
        self._show_age()

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
                self.tell(message.saved.records[-1].title, label="logged")
            case news.NotWritten() if message.job is self._logging:
                self.tell(message.reason, label="not logged")
            case _:
                super().told(message)

    @property
    def typed(self) -> Typed:
        """What was typed, by the name of the input."""
        lines = zip(self._sum.inputs, self.query(EntryLine), strict=True)
        return {
            asked.name: split_values(line.value, asked) if asked.many else [line.value]
            for asked, line in lines
            if line.value.strip()
        }

    @on(Input.Submitted)
    def _enter(self) -> None:
        self.action_work()

    def action_work(self) -> None:
        """Work the sum out; some need a moment, so it is done beside the keys."""
        self.tell("")
        self._work(self.typed, log=False)

    @work(thread=True, exclusive=True, group="sum")
    def _work(self, typed: Typed, *, log: bool) -> None:
        try:
            answer = work_out(self._sum, typed)
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
            shown = "\n".join(answer_lines(worked.answer))
            self.query_one("#answer", Static).update(paragraph(shown))
            self.query_one("#answers").display = True
            self.query_one(Passage).display = False
            if worked.log:
                self._log(worked.answer)
        self._show_age()

    def action_next(self, by: int) -> None:
        """Go to another input."""
        lines = list(self.query(EntryLine))
        here = [line.has_focus for line in lines]
        at = here.index(True) if True in here else 0
        lines[(at + by) % len(lines)].focus()

    def action_scroll(self, by: int) -> None:
        """Scroll the answer by a page."""
        answers = self.query_one("#answers", VerticalScroll)
        answers.scroll_relative(y=by * max(answers.size.height - 1, 1), animate=False)

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


def _meaning(asked: Asked) -> str:
    """Say in the empty line what it is, and what holds if nothing is typed."""
    if asked.default:
        return f"{asked.meaning} [{asked.default}]"
    return asked.meaning if asked.required else f"{asked.meaning} (may be left out)"


def _accepted(asked: Asked) -> str:
    """Say what an input is and what it accepts, in full."""
    without = f"; if not given: {asked.default}" if asked.default else ""
    needed = "" if asked.default or not asked.required else " (needed)"
    accepted = (
        "" if asked.accepted == asked.meaning else f"; accepted: {asked.accepted}"
    )
    return f"{asked.meaning}{needed}{accepted}{without}"


def _said_of(each: Sum, *, with_inputs: bool = True) -> Iterator[Say]:
    """Say what a sum does, what it needs, and where it comes from."""
    yield Say("does", each.title)
    for at, asked in enumerate(each.inputs if with_inputs else ()):
        yield Say(
            "" if at else "from", f"{asked.name.replace('_', ' ')}: {asked.meaning}"
        )
    yield Say("formula", each.formula)
    yield Say("source", each.source)
    if each.caution:
        yield Say("mind", each.caution)
    for name, typed in each.example.items():
        words = typed if isinstance(typed, str) else "  ".join(typed)
        yield Say(
            "example" if name == next(iter(each.example)) else "",
            f"{name.replace('_', ' ')} {words}",
        )
