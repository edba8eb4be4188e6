"""A step is logged as done, once what it goes past was asked about."""

from __future__ import annotations

from textual import on

from logbook.advice.steps.going_past import GoingPast, going_past
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Question, asked_keys
from logbook.screens.ruled.asking_past import answer_past, past_question
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.rows import KeyStrip, Row
from logbook.screens.ruled.stating_sheet import StatingSheet
from logbook.screens.steps.step_jobs import AGAIN, LOOKED, done_job, looked_job
from logbook.screens.steps.step_times import time_typed


class DoingSteps(StatingSheet):
    """A list of steps of which one is done, with the questions that come before."""

    def __init__(self, desk: Desk) -> None:
        """Begin with nothing asked."""
        super().__init__(desk)
        self.question: Question | None = None
        self.past = GoingPast()

    @property
    def of_build(self) -> Build | None:
        """The build that is shown."""
        return self.desk.build or self.desk.glance.build

    @property
    def step(self) -> Step | None:
        """The step the arrow stands at."""
        return self.desk.snapshot.by_id(self.chosen, Step)

    def takes_time(self) -> bool:
        """Tell whether the line is a time, or nothing; refuse it beside the line."""
        try:
            self.time()
        except BadInput as refusal:
            self.tell(str(refusal), label="not taken")
            return False
        return True

    def time(self) -> Quantity | None:
        """Give the time that stands in the line.

        Raises:
            BadInput: it is none.
        """
        return time_typed(self.line.value)

    def begin(self, step: Step) -> None:
        """Find out what a step goes past, and ask about it; else log it."""
        draft = Draft(self.desk.snapshot, self.desk.now(), self.of_build)
        draft.step_done(step)
        self.past = going_past(draft, self.desk.advice.open)
        self._go_on(step)

    def _go_on(self, step: Step) -> None:
        """Ask what is still to be asked of a step, else log it."""
        question = past_question(self.past)
        if question is not None:
            self.ask(question)
            return
        self.asked_enough()
        self.desk.write(done_job(self.desk, step, self.time(), self.past))
        self.line.put("")

    def ask(self, question: Question) -> None:
        """Put a question below the list; the line takes its answer."""
        self.question, self.line.asking = question, True
        self.follow(anew=False)
        self._show_question()

    def _show_question(self) -> None:
        assert self.question is not None
        row = self.query_one("#question", Row)
        row.say(self.question.shown(), "?")
        row.set_class(True, "-asks")
        self.query_one(KeyStrip).tell(asked_keys(self.question))

    def asked_enough(self) -> None:
        """Take the question away."""
        self.question, self.line.asking = None, False
        self.query_one("#question", Row).set_class(False, "-asks")
        self.show_keys()
        self.follow(anew=False)

    @on(EntryLine.Key)
    def _answered(self, event: EntryLine.Key) -> None:
        step, question = self.step, self.question
        if question is None or step is None:
            return
        answer = question.press(event.key, event.sign)
        if answer.waits:
            self.line.put(answer.waits)
        if answer.words is None and not answer.dropped:
            self._show_question()
        elif question.about == AGAIN:
            self.asked_enough()
            if answer.words == LOOKED:
                self.desk.write(looked_job(self.desk, step))
            elif answer.words:
                self.begin(step)
        elif not_done := answer_past(self.past, question.about, answer.words):
            self.asked_enough()
            self.tell(f"“{step.title}”: {not_done}", label="not logged")
        else:
            self._go_on(step)

    @on(EntryLine.Pasted)
    def _pasted(self, event: EntryLine.Pasted) -> None:
        if self.question is not None:
            self.question.paste(event.words)
            self._show_question()
