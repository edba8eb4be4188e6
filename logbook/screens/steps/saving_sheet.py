"""A job sheet on its way to entries: what is asked before, and what comes of it.

A look left blank, a step done already, a step that waits: each is asked about as by any
other door, and the sheet stays as it is until it is answered.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual import on, work
from textual.message import Message

from logbook.advice.ground.advice import Advice
from logbook.counting import so_many
from logbook.errors import LogbookError
from logbook.publish.sheet.boxes import Box
from logbook.publish.sheet.saved_before import repeated_words
from logbook.publish.sheet.sheet_asked import blank_words
from logbook.publish.sheet.sheet_past import Asked, may_be_over, past_of_sheet
from logbook.publish.sheet.sheet_so_far import read_so_far
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asked import COMES_FIRST, AskingSheet
from logbook.screens.ruled.asking import Answer, Question, once_more_of
from logbook.screens.ruled.asking_past import answer_past, past_question
from logbook.screens.steps.sheet_saved import (
    build_of,
    clock_of,
    save_job,
    says_something,
    sheet_draft,
)


class SavingSheet(AskingSheet):
    """A sheet that saves what was typed in the boxes of a job sheet."""

    class GoesPast(Message):
        """What the ticked steps go past was worked out, of these rows typed."""

        def __init__(self, asked: Sequence[Asked], rows: str) -> None:
            """Carry it, step by step."""
            super().__init__()
            self.asked, self.rows = asked, rows

    def __init__(self, desk: Desk, typing: SheetTyping, build: str) -> None:
        """Save this sheet in the build with this id."""
        super().__init__(desk)
        self._typing, self._build = typing, build
        self._job: Job | None = None
        self._left_out = ""

    def follow_advice(self) -> None:
        """Hold what is made to suit to its gap, as it is advised now."""
        self._typing.advice = self.desk.advice.advice
        self._typing.build = build_of(self.desk, self._build)
        self.follow_readings()

    def follow_readings(self) -> None:
        """Ask what the readings typed so far mean for what is made to suit."""
        if not self._typing.may_move_a_gap(self.desk.snapshot):
            self._typing.so_far = None
            return
        draft = sheet_draft(self.desk, self._typing, self._build)
        rows, more = self._typing.rows(), read_so_far(draft)
        self.desk.advise_so_far(rows, more, draft.build())

    def take_so_far(self, told: news.AdvisedSoFar) -> None:
        """Hold what is made to suit to its gap as it is by the readings so far."""
        if told.rows == self._typing.rows():
            self._typing.so_far = told.advice

    def stay_at(self, box: Box) -> None:
        """Go to a box of the sheet."""
        raise NotImplementedError

    def action_save(self) -> None:
        """Save what was typed, as entries of the hour typed, else of this moment."""
        if self.question is not None:
            self.tell(COMES_FIRST)
            return
        if not self._typing.filled:
            self.tell(
                "nothing was typed; accepted: at least one box", label="not saved"
            )
            return
        if self._job is not None:
            return
        self._left_out = ""
        if self._typing.repeated:
            self._ask_repeated()
        else:
            self._ask_done_already()

    def _ask_repeated(self) -> None:
        """Ask whether what is on record from this sheet is to be logged once more."""
        typing = self._typing
        words = repeated_words(typing.repeated, typing.texts, typing.saved)

        def answered(said: Answer) -> None:
            if said.dropped:
                return
            if said.words:
                typing.log_twice()
            else:
                self._left_out = words.partition(" of this sheet")[0]
                self._leave_out()
            if typing.filled:
                self._ask_done_already()
            else:
                self.show()
                self.tell(f"{words}, and nothing else was typed", label="not saved")

        keys = {"l": ("log again", "again")}
        self.ask(Question(words, keys, "leave out, save the rest"), answered)

    def _leave_out(self) -> None:
        try:
            self._typing.leave_out(self.desk.project.root)
        except LogbookError as refusal:
            self.tell(str(refusal), label="careful")

    def show(self) -> None:
        """Show the boxes, and the one the arrow stands at."""
        raise NotImplementedError

    def _ask_done_already(self) -> None:
        """Ask about steps that are on record as done by another way."""
        snapshot, build = self.desk.snapshot, build_of(self.desk, self._build)
        if left := self._typing.blank(snapshot, build):
            self.stay_at(left)
            self.tell(blank_words(snapshot, left), label="not saved")
            return
        advice = self.desk.advice.advice
        if already := self._typing.done_already(snapshot, build, advice):
            self.ask(
                once_more_of([step.title for step in already], build.title),
                lambda said: self._again(already, said),
            )
        else:
            self._look_past()

    def _again(self, already: Sequence[Step], said: Answer) -> None:
        """Log steps that are done already once more, or leave them out."""
        if said.dropped:
            return
        again = {step.id for step in already} if said.words else set()
        self._typing.again |= again
        left = "" if again else ", ".join(step.title for step in already)
        self._left_out = ", ".join(filter(None, (self._left_out, left)))
        if says_something(self.desk, self._typing, self._build):
            self._look_past()
        else:
            nothing = "done already, and nothing else is on the sheet"
            self.tell(f"{self._left_out}: {nothing}", label="not saved")

    def _look_past(self) -> None:
        """Find out what the ticked steps go past; beside the keys where it is work."""
        self._typing.past.clear()
        draft = sheet_draft(self.desk, self._typing, self._build)
        now = self.desk.advice.open
        if may_be_over(draft, now):
            self._work_past_out(draft, now)
        else:
            self._ask_past([*past_of_sheet(draft, now, self._typing.whys)])

    @work(thread=True, exclusive=True, group="past")
    def _work_past_out(self, draft: Draft, now: Sequence[Advice]) -> None:
        rows, whys = self._typing.rows(), dict(self._typing.whys)
        self.post_message(self.GoesPast([*past_of_sheet(draft, now, whys)], rows))

    @on(GoesPast)
    def _worked_past_out(self, message: GoesPast) -> None:
        if message.rows != self._typing.rows():
            self._look_past()
        elif self._job is None and self.question is None:
            self._ask_past(message.asked)

    def _ask_past(self, asked: Sequence[Asked]) -> None:
        """Ask about each step that goes past something, then save."""
        if not asked:
            self._save()
            return
        (step, past), *others = asked
        question = past_question(past, "the sheet stays")
        if question is None:
            self._typing.goes_past(step, past)
            self._keep_answers()
            self._ask_past(others)
            return
        about = question.about
        named = f"“{step.title}”"
        if not question.words.startswith(named):
            question.words = f"{named}: {question.words}"

        def answered(said: Answer) -> None:
            if not_done := answer_past(past, about, said.words):
                self.stay_at(self._typing.not_done(step))
                self.tell(f"“{step.title}”: {not_done}", label="not saved")
            else:
                self._ask_past(asked)

        self.ask(question, answered)

    def _keep_answers(self) -> None:
        """Keep what was answered with what was typed; a full disk is said."""
        try:
            self._typing.keep(self.desk.project.root)
        except LogbookError as refusal:
            self.tell(str(refusal), label="careful")

    def _save(self) -> None:
        clock = clock_of(self._typing, self.desk.clock.on)
        counted = self.desk.clock.minutes(self.desk.now(), self.desk.entries)[0]
        self._job = save_job(self.desk, self._typing, self._build, clock, counted)
        if clock is not None:
            self.desk.clock.leave_to_log(clock)
        self.desk.write(self._job)

    def _saved(self, records: Sequence[Record]) -> None:
        said = f"{so_many(self._typing.filled, 'box', 'boxes')} saved"
        clock_said = self._job.told if self._job is not None else ""
        said += f"; {clock_said}" if clock_said else ""
        try:
            self._typing.settle(self.desk.project.root, records)
        except LogbookError as refusal:
            said += f"; {refusal}"
        left = self._left_out
        self.dismiss(
            f"{said}; done already, not logged again: {left}" if left else said
        )
