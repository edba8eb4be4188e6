"""A step is logged as done, once what it goes past was asked about."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from logbook.advice.steps.going_past import GoingPast, going_past
from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Answer, Question
from logbook.screens.ruled.asking_past import answer_past, past_question
from logbook.screens.ruled.one_question import OneQuestion
from logbook.screens.ruled.stating_sheet import StatingSheet
from logbook.screens.steps.step_jobs import (
    LOOKED,
    NOT_SO,
    done_job,
    looked_job,
    not_so_job,
)
from logbook.screens.steps.step_times import day_and_time, time_typed


class DoingSteps(StatingSheet, OneQuestion):
    """A list of steps of which one is done, with the questions that come before."""

    def __init__(self, desk: Desk) -> None:
        """Begin with nothing asked."""
        super().__init__(desk)
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
            self.line.select_all()  # what is typed next stands in its place
            return False
        return True

    def time(self) -> Quantity | None:
        """Give the time that stands in the line.

        Raises:
            BadInput: it is none.
        """
        return time_typed(day_and_time(self.line.value, self.desk.now())[1])

    def when(self) -> datetime:
        """Give when the step was done: on the day typed in the line, else now."""
        typed, _ = day_and_time(self.line.value, self.desk.now())
        return typed or self.desk.when()

    def begin(self, step: Step) -> None:
        """Find out what a step goes past, and ask about it; else log it."""
        draft = Draft(self.desk.snapshot, self.when(), self.of_build)
        draft.step_done(step)
        self.past = going_past(draft, self.desk.advice.open)
        self._go_on(step)

    def _go_on(self, step: Step) -> None:
        """Ask what is still to be asked of a step, else log it."""
        question = past_question(self.past)
        if question is not None:
            about = question.about
            self.ask(question, lambda said: self._past(step, about, said))
            return
        self.desk.write(done_job(self.desk, step, self.time(), self.when(), self.past))
        self.line.put("")

    def _past(self, step: Step, about: str, answer: Answer) -> None:
        """Take why a step goes past what it should have waited for, and ask on."""
        if not_done := answer_past(self.past, about, answer.words):
            self.tell(f"“{step.title}”: {not_done}", label="not logged")
        else:
            self._go_on(step)

    def ask(self, question: Question, answered: Callable[[Answer], None]) -> None:
        """Put a question below the list; the line takes its answer."""
        super().ask(question, answered)
        self.follow(anew=False)

    def asked_enough(self) -> None:
        """Take the question away."""
        super().asked_enough()
        self.follow(anew=False)

    def ask_again(self, question: Question) -> None:
        """Ask of a step that is done whether it was done once more, or looked at."""

        def answered(answer: Answer) -> None:
            step = self.step
            if step is not None and answer.words == LOOKED:
                self.desk.write(looked_job(self.desk, step))
            elif step is not None and answer.words == NOT_SO:
                left = question.words.removeprefix("look again: ")
                self.desk.write(not_so_job(self.desk, step, left))
            elif step is not None and answer.words:
                self.begin(step)

        self.ask(question, answered)
