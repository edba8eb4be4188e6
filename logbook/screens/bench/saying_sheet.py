"""A line in plain words: understood at each key, asked about, and written."""

from __future__ import annotations

from collections import deque

from textual import on
from textual.content import Content
from textual.widgets import Input

from logbook.errors import LogbookError
from logbook.plain.told.build_begun import build_begun
from logbook.plain.told.file_unit import FileUnit
from logbook.plain.told.of_design import OfDesign, said_of_design
from logbook.plain.understanding import Understanding
from logbook.screens.bench.beginning import beginning, shown_begun
from logbook.screens.bench.beginning_sheet import BeginningSheet
from logbook.screens.bench.day_sheet import DaySheet, shown_day
from logbook.screens.bench.in_the_shell import in_the_shell, puts_out
from logbook.screens.bench.of_design import shown_of_design, unit_job
from logbook.screens.bench.saying import (
    Saying,
    careful,
    marked,
    piece_meant,
    shown,
    understood,
)
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.desk.slips import BENCH
from logbook.screens.ruled.asked import AskingSheet
from logbook.screens.ruled.asking import (
    Question,
    about_line,
    blame_of,
    whose_fault,
)
from logbook.screens.ruled.asking_past import answer_past, past_question
from logbook.screens.ruled.rows import Row

SENT = 50
"""So many jobs are known to come from a line; more are not under way at once."""
STAYS = "the line stays, Esc empties it"


class SayingSheet(AskingSheet, BeginningSheet, DaySheet):
    """A sheet whose line takes what happened, in plain words."""

    def __init__(self, desk: Desk) -> None:
        """Start with nothing said."""
        super().__init__(desk)
        self._asked_past: Saying | None = None
        self._sent: deque[Job] = deque(maxlen=SENT)

    def send(self, job: Job) -> None:
        """Have a job written that came from this line: refused, it comes back to it."""
        self._sent.append(job)
        super().send(job)

    def has_sent(self, job: Job) -> bool:
        """Tell whether a job came from this line."""
        return any(one is job for one in self._sent)

    # -- what this sheet does beside ---------------------------------------------

    def nothing_typed(self) -> tuple[Content, str]:
        """Give what stands in the row of what is understood while nothing is typed."""
        raise NotImplementedError

    def show_entries(self) -> None:
        """Show the entries, and what is still being written."""
        raise NotImplementedError

    @property
    def chooses(self) -> bool:
        """Tell whether the arrow stands at something that Enter opens."""
        return False

    def open_chosen(self) -> None:
        """Open what is chosen; nothing happens where nothing is."""
        raise NotImplementedError

    # -- the line ----------------------------------------------------------------

    def show_question(self) -> None:
        """Show the question in place of what is understood."""
        self.understand()

    def understand(self) -> None:
        """Show what is understood of the line as it stands, or the question of it."""
        row, line = self.query_one("#understood", Row), self.line
        row.set_class(self.question is not None, "-asks")
        self.set_class(self.question is not None, "-asking")
        if self.question is not None:
            row.say(self.question.shown(), "?")
        elif not line.value.strip():
            line.mark(())
            row.say(*self.nothing_typed())
        elif puts_out(line.value, self.desk.snapshot) is not None:
            line.mark(())
            row.say("Enter shows release and pages; nothing is saved yet", "understood")
        elif hint := in_the_shell(line.value, self.desk.snapshot):
            line.mark(())
            row.say(hint, "understood")
        elif of_design := said_of_design(line.value, self.desk.snapshot):
            line.mark(())
            row.say(shown_of_design(of_design), "understood")
        elif begun := build_begun(line.value, self.desk.snapshot, self.desk.now()):
            line.mark(())
            row.say(shown_begun(begun), "understood")
        elif self.ends_day(line.value):
            line.mark(())
            row.say("Enter: what is typed next is of now again", "understood")
        elif day := self.day_in(line.value):
            line.mark(())
            row.say(shown_day(day), "understood")
        else:
            found = self._understood(line.value)
            line.mark(marked(found))
            desk = self.desk
            of = (desk.snapshot, desk.build, desk.now())
            warned = careful(found, *of)
            row.say(shown(found, piece_meant(found, *of), warned), "understood")

    def _understood(self, text: str) -> Understanding:
        desk = self.desk
        now, snapshot = desk.now(), desk.snapshot
        return understood(text, desk.words, now, snapshot, desk.build)

    def action_take(self) -> None:
        """Take the line, as Enter does."""
        self._take()

    def take_words(self, words: str) -> None:
        """Take words typed elsewhere; what stands in the line comes back after it.

        Where the line has the same words already, they are said once.
        """
        if self.line.value.split() != words.split() and self.line.value:
            self.waiting.insert(0, self.line.value)
        self.line.put(words)
        self._take()

    @on(Input.Submitted, "#line")
    def _take(self) -> None:
        text = self.line.value.strip()
        if not text or self.chooses:
            self.open_chosen()
            return
        if self.desk.refusal is not None:
            self.keep_now(text, BENCH)
            self.tell(f"{self.not_open()} (the line is kept: `logbook drafts`)")
            return
        if not self.desk.is_open:
            self.tell("the records are still being read; Enter again in a moment")
            return
        if (label := puts_out(text, self.desk.snapshot)) is not None:
            self.line.put("")
            self.go("release", label)
            return
        if hint := in_the_shell(text, self.desk.snapshot):
            self.tell(f"{hint}; {STAYS}", label="not taken")
            return
        if of_design := said_of_design(text, self.desk.snapshot):
            self._take_of_design(of_design, text)
            return
        if begins := beginning(text, self.desk.snapshot, self.desk.now(), taken=True):
            self.begin_build(begins)
            return
        if self.take_day(text):
            self.line.put("")
            return
        now = self.desk.when()
        found = self._understood(text)
        self._go_on(Saying(found, self.desk.words, self.desk.build, now))

    def _take_of_design(self, said: OfDesign, text: str) -> None:
        """Do what a line says of a part or of files; ask what becomes of a part."""
        if isinstance(said, FileUnit):
            try:
                self.send(unit_job(said, text, self.desk.now()))
            except LogbookError as refusal:
                self.tell(f"{refusal}; {STAYS}", label="not taken")
                return
        elif said.other is None:
            self.go("no_part", said.part.id)
        else:
            self.go("same_part", said.part.id, said.other.id)
        self.line.put("")

    def _go_on(self, saying: Saying) -> None:
        """Ask what is still to be asked, else write the line."""

        def ask(question: Question) -> None:
            about = question.about
            self.ask(question, lambda said: self._go_on_with(saying, about, said.words))

        try:
            if saying.doubtful and saying.line.question is not None:
                ask(about_line(saying.line.question, saying.words))
            elif past := self._past(saying):
                self._asked_past = saying
                ask(past)
            elif saying.wants_blame(self.desk.snapshot):
                ask(whose_fault(saying.which_fits(self.desk.snapshot)))
            else:
                self._write(saying)
        except LogbookError as refusal:
            self.tell(str(refusal), label="not taken")

    def _past(self, saying: Saying) -> Question | None:
        """Give the question of what the line goes past, while there is one."""
        past = saying.goes_past(self.desk.snapshot, self.desk.advice.open)
        return past_question(past, "the line stays")

    def let_go_of_question(self) -> None:
        """Drop the question of a wait that was gone past meanwhile; the line stays."""
        saying, question = self._asked_past, self.question
        if saying is None or question is None or question.about != "past":
            return
        if saying.past is None or not saying.past.waits:
            return
        if not saying.waits(self.desk.snapshot, self.desk.advice.open):
            self.asked_enough()
            self.tell("gone past with its reason; Enter takes the line", label="waits")

    def _go_on_with(self, saying: Saying, about: str, words: str | None) -> None:
        """Take an answer, and ask what is to be asked after it; None dropped it."""
        if words is None:
            return
        if about == "whose":
            saying.blame = blame_of(words)
        elif saying.past is not None:
            if not_done := answer_past(saying.past, about, words):
                self.tell(f"{not_done}: {STAYS}", label="not taken")
                return
        else:
            saying.answer(words, self.desk.snapshot)
        self._go_on(saying)

    def _write(self, saying: Saying) -> None:
        self.line.put("")
        if remark := saying.remark(self.desk.snapshot):
            self.tell(remark)
        self.send(saying.job(self.desk.snapshot))
        self.show_entries()
