"""The shop calculator: every sum as a form, made from its declaration."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.events import DescendantFocus
from textual.message import Message
from textual.widgets import Input, Static

from logbook.errors import LogbookError
from logbook.project import Project
from logbook.records.happenings import Note
from logbook.records.ids import new_id
from logbook.records.making import Draft
from logbook.screens import verbs
from logbook.screens.choosing import Choosing
from logbook.screens.desk import Desk
from logbook.screens.entry_line import EntryLine
from logbook.screens.listing import Line
from logbook.screens.look import paragraph, sentence
from logbook.screens.news import Job
from logbook.screens.passage import Passage, Say
from logbook.screens.rows import Row
from logbook.screens.sheet import Sheet
from logbook.shop.answers import Answer
from logbook.shop.given import Input as Asked
from logbook.shop.shown import answer_lines, split_values
from logbook.shop.sums import Sum, find_sum, sums_by_topic, work_out

WORK = verbs.Verb("work", "work it out", "enter", "Work the sum out.")
LOG = verbs.Verb("log", "log it", "ctrl+l", "Log the result with its inputs as a note.")
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

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the sums with every word typed in name, topic or title."""
        words = typed.casefold().split()
        return [
            Line(each.name, topic, each.title)
            for topic, sums in sums_by_topic().items()
            for each in sums
            if all(w in f"{topic} {each.name} {each.title}".casefold() for w in words)
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a sum needs and does."""
        return [*_said_of(find_sum(line.key))]


class SumSheet(Sheet):
    """One sum: its inputs as lines, and what it comes to."""

    CSS_PATH = "calculator.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        WORK, LOG, *SCROLL, NEXT, PREVIOUS, verbs.BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    class Worked(Message):
        """The sum was worked out, or refused with a sentence."""

        def __init__(self, answer: Answer | None, refusal: str = "") -> None:
            """Carry one of the two."""
            super().__init__()
            self.answer, self.refusal = answer, refusal

    def __init__(self, desk: Desk, name: str) -> None:
        """Show the sum of this name."""
        super().__init__(desk)
        self._sum: Sum = find_sum(name)
        self._answer: Answer | None = None

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
        yield VerticalScroll(Static("", id="answer", markup=False), id="answers")
        yield Passage(id="does")

    def on_mount(self) -> None:
        """Start at the first input."""
        super().on_mount()
        self.query(EntryLine).first().focus()
        self.query_one("#answers").display = False
        self.query_one(Passage).show([*_said_of(self._sum, with_inputs=False)])

    @on(DescendantFocus)
    @on(Input.Changed)
    def _hint(self) -> None:
        """Say what is accepted where the cursor stands."""
        for asked, line in zip(self._sum.inputs, self.query(EntryLine), strict=True):
            if line.has_focus:
                self.query_one("#accepted", Row).say(_accepted(asked), "accepted")

    @property
    def typed(self) -> dict[str, list[str]]:
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
        self._work(self.typed)

    @work(thread=True, exclusive=True, group="sum")
    def _work(self, typed: dict[str, list[str]]) -> None:
        try:
            answer = work_out(self._sum, typed)
        except LogbookError as refusal:
            self.post_message(self.Worked(None, str(refusal)))
        else:
            self.post_message(self.Worked(answer))

    @on(Worked)
    def _show(self, worked: Worked) -> None:
        self._answer = worked.answer
        if worked.refusal:
            said = sentence("[$alarm bold]$why[/]", why=worked.refusal)
            self.query_one("#accepted", Row).say(said, "not yet")
        if worked.answer is not None:
            shown = "\n".join(answer_lines(worked.answer))
            self.query_one("#answer", Static).update(paragraph(shown))
            self.query_one("#answers").display = True
            self.query_one(Passage).display = False

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
        """Log what the sum came to, with what went in."""
        if self._answer is None:
            self.tell("nothing is worked out yet; accepted: inputs, then Enter")
            return
        self.desk.write(_job(self._sum, self._answer))
        self.tell(f"{self._sum.title}: logged", label="note")


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


def _job(each: Sum, answer: Answer) -> Job:
    first = answer.results[0]
    title = f"{each.title}: {first.name.replace('_', ' ')} {first.shown}"
    inputs = ", ".join(f"{name} {value}" for name, value in answer.inputs.items())
    lines = "\n".join(answer_lines(answer))
    prose = f"From {inputs}.\n\n```\n{lines}\n```"

    def make(project: Project) -> Draft:
        from datetime import UTC, datetime

        draft = project.draft(datetime.now(UTC).astimezone())
        note = Note(id=new_id(), title=title, prose=prose, when=draft.when)
        draft.add(note)
        return draft

    return Job(f"note: {title}", make)
