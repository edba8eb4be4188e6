"""The bench: where you were, what is open, the last value, and the line to type on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.message import Message
from textual.widgets import Input

from logbook.errors import LogbookError, NoProject
from logbook.records.model import Record, StepDone
from logbook.screens import desk as news
from logbook.screens import verbs
from logbook.screens.asking import (
    DONE,
    Answer,
    Question,
    about_line,
    about_waits,
    blame_of,
    reason_of,
    whose_fault,
    why_past,
)
from logbook.screens.entry_line import EntryLine
from logbook.screens.facts import Glance, LastValue
from logbook.screens.figures import Figures
from logbook.screens.listing import Line
from logbook.screens.look import sentence
from logbook.screens.newest import Newest
from logbook.screens.offering import Listed, Offering, Offers, Suggested, listed
from logbook.screens.rows import Row
from logbook.screens.saying import Saying, marked, shown, understood
from logbook.screens.sheet import Sheet
from logbook.screens.slips import BENCH

TAKE = verbs.Verb(
    "take", "take it", "enter", "Take the line; on an empty one, open the entry chosen."
)
UP = verbs.Verb("earlier", "list", "up", "Choose an earlier entry.", in_strip=False)
DOWN = verbs.Verb("later", "later", "down", "Choose a later entry.", in_strip=False)
NAMED = 30
"""Titles named of those that wait or are undecided; no row has room for more."""
CLEAR = verbs.Verb("clear", "clear", "escape", "Empty the line.", in_strip=False)


class Bench(Sheet):
    """The first screen; the line is always ready."""

    CSS_PATH = "bench.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, UP, DOWN, verbs.KEYS, verbs.FIND, verbs.MEASURE, verbs.BUILD, verbs.UNDO,
        verbs.GO_ON, verbs.ANSWER, verbs.GRID, verbs.CLOCK, verbs.PHOTO, verbs.MOVE,
        verbs.SUMS, verbs.PART, verbs.GAPS, verbs.STEPS, verbs.REVISE,
        verbs.INBOX, verbs.REBUILD, verbs.LIGHT, CLEAR, verbs.LEAVE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: news.Desk) -> None:
        """Work on this desk."""
        super().__init__(desk)
        self._question: Question | None = None
        self._saying: Saying | None = None
        self._offered = False
        self._offering = Offering()

    def body(self) -> ComposeResult:
        """Lay the sheet out: what stands open above, what happened, the line."""
        for label, name in (
            ("where", "where"),
            ("waits", "waits"),
            ("undecided", "undecided"),
            ("no entry on", "bare"),
        ):
            yield Row(label, id=name)
        yield Row("last", Figures(id="figures"), id="last")
        yield Newest(id="newest")
        yield Row("understood", id="understood")
        yield Row(
            "say ›", EntryLine("what happened, in plain words", id="line"), id="say"
        )

    @property
    def line(self) -> EntryLine:
        """The line to type on."""
        return self.query_one(EntryLine)

    def on_mount(self) -> None:
        """Start with the line ready."""
        super().on_mount()
        self.line.focus()
        self.show_glance(self.desk.glance)

    def glimpse(self, lines: Sequence[Line]) -> None:
        """Show the newest entries until the records are read."""
        self.query_one(Newest).glimpse(lines)

    # -- what the desk tells -----------------------------------------------------

    def told(self, message: Message) -> None:
        """Show what the desk has done."""
        match message:
            case news.Opened():
                self._offer()
                self.show_entries()
            case news.Looked():
                self._look_for_offers(message)
                self.show_glance(message.glance)
                self._understand()
            case news.Advised():
                self.show_glance(self.desk.glance)
            case news.Written():
                self.show_entries()
                self.tell(_kept(message.saved.records), label="on disk")
            case news.NotWritten():
                self._give_back(message)
            case news.NotOpened():
                self.tell(str(message.refusal), label="not open")
                self.show_glance(self.desk.glance)
            case _:
                super().told(message)

    def _give_back(self, message: news.NotWritten) -> None:
        """Put a refused line back where it was typed, unless the next one stands."""
        self.show_entries()
        if not self.line.value:
            self.line.put(message.job.typed)
        self.tell(message.reason, label="not taken")

    def _offer(self) -> None:
        """Put back what was being typed when an earlier screen went away."""
        if self._offered or self.line.value:
            return
        self._offered = True
        draft = self.desk.left_over()
        if draft is not None:
            self.line.put(draft.text)
            when = f"{draft.when.astimezone():%d %b %H:%M}"
            self.tell(f"this was being typed on {when}; Esc clears it", label="kept")

    def show_glance(self, seen: Glance) -> None:
        """Show where the work stands."""
        self.show_band()
        where = sentence(
            "$what  [$quiet]$when[/]", what=seen.where, when=seen.where_when
        )
        reading = "nothing yet" if self.desk.is_open else "reading the records …"
        if self.desk.refusal is not None:
            reading = self._not_open()
        self.query_one("#where", Row).say(where if seen.where else reading)
        waits = tuple(wait.words for wait in seen.waits)
        self._counted("waits", waits, "nothing", "[$alarm]$n wait:[/] ")
        self._counted("undecided", seen.undecided, "nothing", "[$alarm]$n:[/] ")
        self._counted("bare", seen.bare, "none without", "$n: ")
        self._show_last(seen.last)
        self.show_entries()

    def _not_open(self) -> str:
        """Say why there are no records; without a logbook, how to begin one."""
        if isinstance(self.desk.refusal, NoProject):
            return "no logbook here; `logbook start` makes one"
        return str(self.desk.refusal)

    def _counted(
        self, name: str, titles: tuple[str, ...], nothing: str, count: str
    ) -> None:
        if not titles:
            self.query_one(f"#{name}", Row).say(sentence(f"[$quiet]{nothing}[/]"))
            return
        head = sentence(count, n=str(len(titles)))
        listed = sentence("$all", all=" · ".join(titles[:NAMED]))
        self.query_one(f"#{name}", Row).say(Content.assemble(head, listed))

    def _show_last(self, last: LastValue | None) -> None:
        figures, row = self.query_one(Figures), self.query_one("#last", Row)
        row.display = last is not None
        if last is None:
            return
        number, _, unit = last.value.text.rpartition(" ")
        if not number:
            number, unit = last.value.text, ""
        row.relabel(last.owner)
        figures.show(number, unit, last.what, last.drawn, last.verdict.upper())

    def show_entries(self) -> None:
        """Show the newest entries of the build, before them those of earlier ones."""
        newest = self.query_one(Newest)
        build = self.desk.build or self.desk.glance.build
        newest.show(self.desk.shown_entries, self.desk.pending, build)

    # -- the line ----------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        if not self.line.as_put:
            self.tell("")
        self._understand()
        if self.line.value:
            self.query_one(Newest).leave()
        self.keep_soon(self.line.value, BENCH)

    def _understand(self) -> None:
        row, line = self.query_one("#understood", Row), self.line
        if self._question is not None:
            row.say(self._question.shown(), "?")
            return
        if self._offering.question is not None:
            row.say(self._offering.question.shown(), "?")
            return
        if not line.value.strip():
            line.mark(())
            label = "could be" if self._offering.found else "understood"
            row.say(self._offering.shown(verbs.shown_key(verbs.ANSWER.key)), label)
            return
        found = understood(line.value, self.desk.words, self.desk.now())
        line.mark(marked(found))
        row.say(shown(found), "understood")

    @on(Input.Submitted, "#line")
    def _take(self) -> None:
        text = self.line.value.strip()
        if not text:
            self._open_chosen()
            return
        if self.desk.refusal is not None:
            self.keep_now(text, BENCH)
            self.tell(f"{self._not_open()} (the line is kept: `logbook drafts`)")
            return
        if not self.desk.is_open:
            self.tell("the records are still being read; Enter again in a moment")
            return
        now = self.desk.now()
        found = understood(text, self.desk.words, now)
        self._saying = Saying(found, self.desk.words, self.desk.build, now)
        self._go_on()

    def _go_on(self) -> None:
        """Ask what is still to be asked, else write the line."""
        saying = self._saying
        assert saying is not None
        try:
            if saying.doubtful and saying.line.question is not None:
                self._ask(about_line(saying.line.question))
            elif past := saying.goes_past(self.desk.snapshot, self.desk.advice.open):
                self._ask(about_waits([wait.statement for wait in past]))
            elif saying.wants_blame(self.desk.snapshot):
                self._ask(whose_fault())
            else:
                self._write(saying)
        except LogbookError as refusal:
            self._asked_enough()
            self.tell(str(refusal), label="not taken")

    def _write(self, saying: Saying) -> None:
        self._asked_enough()
        self.line.put("")
        if remark := saying.remark(self.desk.snapshot):
            self.tell(remark)
        self.desk.write(saying.job())
        self.show_entries()

    # -- the question ------------------------------------------------------------

    def _ask(self, question: Question) -> None:
        self._question, self.line.asking = question, True
        self._understand()

    def _asked_enough(self) -> None:
        self._question, self._saying, self.line.asking = None, None, False
        self._understand()

    @on(EntryLine.Key)
    def _answered(self, event: EntryLine.Key) -> None:
        if self._offering.question is not None:
            self._answer_offer(event)
            return
        if self._question is None or self._saying is None:
            return
        answer: Answer = self._question.press(event.key, event.sign)
        if answer.dropped:
            self._asked_enough()
        elif answer.words is None:
            self._understand()
        else:
            about = self._question.about
            self._question, self.line.asking = None, False
            self._go_on_with(self._saying, about, answer.words)
            if answer.typed_on:
                self.line.put(self.line.value + answer.typed_on)

    def _go_on_with(self, saying: Saying, about: str, words: str) -> None:
        """Take an answer, and ask what is to be asked after it."""
        if about == "past" and words == DONE:
            self._ask(why_past())
            return
        if about == "whose":
            saying.blame = blame_of(words)
        elif about == "why":
            saying.reason = reason_of(words)
        elif about == "past":
            saying.not_done()
        else:
            saying.answer(words)
        self._go_on()

    # -- what an entry suggests --------------------------------------------------

    def _look_for_offers(self, message: news.Looked) -> None:
        work = self._offering.looked(message.snapshot)
        if work is not None:
            post: Callable[[], object] = lambda: self.post_message(work())  # noqa: E731
            self.run_worker(post, thread=True, group="offers")

    @on(Suggested)
    def _show_offer(self, event: Suggested) -> None:
        """Show it, unless one is just being answered."""
        if self._offering.question is None:
            self._offering.found = event.found
            self._understand()

    def action_answer(self) -> None:
        """Answer what the last entry suggests, else choose among what is offered."""
        if self._question is not None:
            return
        if self._offering.found is not None:
            self._begin_answer()
        elif self.desk.is_open:
            snapshot = self.desk.snapshot
            post: Callable[[], object] = lambda: self.post_message(listed(snapshot))  # noqa: E731
            self.run_worker(post, thread=True, group="offered")

    def _begin_answer(self) -> None:
        self._offering.ask()
        self.line.asking = True
        self._understand()

    @on(Listed)
    def _choose_offer(self, event: Listed) -> None:
        """Show what is offered; the one chosen is answered or refused here."""
        if not event.found:
            self.tell("nothing is offered")
            return

        def begin(mark: str | None) -> None:
            chosen = [one for one in event.found if one.mark == mark]
            if chosen:
                self._offering.found = chosen[0]
                self._begin_answer()

        self.app.push_screen(Offers(self.desk, event.found), begin)

    def _answer_offer(self, event: EntryLine.Key) -> None:
        assert self._offering.question is not None
        answer = self._offering.question.press(event.key, event.sign)
        if answer.words is None and not answer.dropped:
            self._understand()
            return
        try:
            if answer.words:
                build, now = self.desk.build, self.desk.now()
                snapshot = self.desk.snapshot
                job = self._offering.job(answer.words, snapshot, now, build)
                self.desk.write(job)
            self._offering.drop()
            self.line.asking = False
        except LogbookError as refusal:
            self.tell(str(refusal), label="not taken")
        self._understand()

    def action_take(self) -> None:
        """Take the line, as Enter does."""
        self._take()

    # -- the list ----------------------------------------------------------------

    def action_earlier(self) -> None:
        """Choose an earlier entry."""
        self.query_one(Newest).move(-1)

    def action_later(self) -> None:
        """Choose a later entry."""
        self.query_one(Newest).move(1)

    def action_clear(self) -> None:
        """Empty the line, or let go of the chosen entry."""
        self.query_one(Newest).leave()
        self.line.put("")
        self.tell("")

    def _open_chosen(self) -> None:
        record: Record | None = self.query_one(Newest).chosen
        if record is not None:
            self.show_record(record.id)


def _kept(records: Sequence[Record]) -> str:
    """Name what is on disk, and the step of the order of work that was carried out."""
    done = [one for one in records if isinstance(one, StepDone) and one.step]
    steps = [f"step: {one.step.name}" for one in done if one.step]
    return " · ".join((records[-1].title, *steps))
