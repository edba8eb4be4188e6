"""The order of work: do a step, tick what it closes over, go on past what waits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.advice.ground.advice import Advice
from logbook.advice.steps.going_past import GoingPast
from logbook.advice.steps.looking_again import look_words, to_look_at
from logbook.plain.drafts.order_of_work import logged_before
from logbook.plain.stated.typed_line import HOLD, STEP
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.record import Record
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.steps.doing_steps import DoingSteps
from logbook.screens.steps.step_jobs import done_job, look_again, once_more
from logbook.screens.steps.step_times import number_and_time
from logbook.screens.steps.step_words import (
    LOOK,
    WEIGHTS,
    fault_mark,
    holds_of,
    said_of,
    state_of,
    steps_of,
)

DO = verbs.Verb(
    "do",
    "it is done",
    "enter",
    "Log the step as done; a figure on the line goes to a step, 25 min is its time.",
)
APART = verbs.Verb("apart", "taken apart", "f6", "Log that it was taken apart again.")
RECORD = verbs.Verb("record", "record", "f5", "Open the record of the step.", False)
GO_ON = verbs.Verb("go_on", "go on past", "ctrl+g", "Go on past what waits for it.")


HOW_TO_TICK = "Enter asks for each of these; y ticks it"
_ENTER_DOES = {
    "waits": "it waits; Enter asks whether it was done all the same",
    "check first": "Enter asks for what is to be seen first",
    "done": "it is done; Enter asks whether it was done once more",
    LOOK: "it is done; Enter asks whether what it closed over was seen since",
    "dropped": "it is dropped",
}
"""What may be done at a step that was gone to; else Enter logs it."""


class Steps(DoingSteps):
    """Every step with its state, and all that is known of the one chosen."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        DO, GO_ON, APART, *MOVES, RECORD, verbs.UNDO, verbs.BACK, *verbs.EVERYWHERE,
        verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "no step yet; type here what is done first"
    STATES = (STEP, HOLD)
    ASKS = "2 goes to step 2; 25 min, 8 nov: its time; step …, hold …: new"
    MARGIN_WORD = "took ›"
    WAY = "steps"

    def __init__(self, desk: Desk) -> None:
        """Show the steps, nothing asked yet."""
        super().__init__(desk)
        self._promised = False

    @property
    def heading(self) -> str:
        """Say what is looked at."""
        return "order of work"

    def told(self, message: Message) -> None:
        """Follow the records and their advice."""
        match message:
            case news.Looked() | news.Advised():
                self.show_band()
                self.show()
            case news.Written() if message.job is not self.stated_job:
                self.forget_emptied()
                said = message.job.told or message.saved.records[-1].title, message.also
                self.tell(" · ".join(filter(None, said)), label="on disk")
            case news.Written():
                super().told(message)
                self._say_logged_before(message.saved.records)
            case _:
                super().told(message)

    def _say_logged_before(self, stated: Sequence[Record]) -> None:
        """Say which work logged before a step that was just put in may have been it."""
        for step in stated:
            if not isinstance(step, Step):
                continue
            entry = logged_before(self.desk.snapshot, step, self.of_build)
            if entry is not None:
                day = f"{entry.when.astimezone():%d %b}"
                asked = f"if it was this step, go to it and type {day}"
                said = f"“{entry.title}” was logged on {day}; {asked}"
                self.tell_beside(said, label="logged")

    def on_mount(self) -> None:
        """Stand at the first step that is still to do."""
        super().on_mount()
        for at, step in enumerate(steps_of(self.desk.snapshot)):
            if self._state(step) not in {"done", "dropped"}:
                self.action_move(at)
                break

    # -- what is shown -----------------------------------------------------------

    def _state(self, step: Step) -> str:
        advice = self.desk.advice.advice
        return state_of(self.desk.snapshot, step, self.of_build, advice)

    def _unseen(self, step: Step) -> Advice | None:
        """Give what a step closed over unseen and nobody has looked at since."""
        return next(iter(to_look_at(self._holds(step))), None)

    def _shown(self, step: Step) -> str:
        """Say in a word or two how a step is called in the list."""
        return LOOK if self._unseen(step) else self._state(step)

    def _holds(self, step: Step) -> list[Advice]:
        return holds_of(self.desk.snapshot, step, self.desk.advice.advice)

    @property
    def _number_typed(self) -> str:
        """The number of a step, alone in the line or behind its word; else nothing."""
        typed = self.line.value.casefold().strip().removeprefix(STEP).strip()
        return typed if typed.isdecimal() else ""

    @property
    def stating(self) -> bool:
        """Tell whether the line states one; “step 2” goes to that step."""
        return super().stating and not self._number_typed

    def lines(self) -> Sequence[Line]:
        """Give the steps in the order of work, each with its state in a word."""
        return [
            Line(
                step.id,
                "–" if self._state(step) == "dropped" else str(step.number),
                f"{fault_mark(self.desk.snapshot, step, self.of_build)}"
                f"{step.title}{' (closes)' if step.closes else ''}",
                self._shown(step).ljust(11),
                WEIGHTS.get(self._shown(step), "$ink bold"),
            )
            for step in steps_of(self.desk.snapshot)
        ]

    def known(self, key: str) -> Sequence[Say]:
        """Give all that is known of a step."""
        step = self.desk.snapshot.by_id(key, Step)
        if step is None:
            return () if key else [*self.examples()]
        advice = self.desk.advice.advice
        asked = self.past if self.question is not None else GoingPast()
        told = said_of(
            self.desk.snapshot, step, self.of_build, advice, HOW_TO_TICK, asked
        )
        return [*told]

    # -- doing it ----------------------------------------------------------------

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        step = self.step
        if self.take_stated() or step is None or self._went_to_a_step():
            return
        state = self._state(step)
        if state == "dropped":
            self.tell(f"“{step.title}” is dropped", label="nothing to do")
        elif self.takes_time():
            self.tell("")
            self.past = GoingPast()
            if left := self._unseen(step):
                self.ask_again(look_again(look_words(left)))
            elif state == "done":
                self.ask_again(once_more(step.title, self.mapped_keys()(APART)))
            else:
                self.begin(step)

    def _went_to_a_step(self) -> bool:
        """Go to the step whose number is typed: a bare figure is no time.

        The time typed behind it stays in the line: “2 25 min”.
        """
        typed, time = self._number_typed, ""
        if not typed and (both := number_and_time(self.line.value)):
            typed, time = both
        if not typed:
            return False
        steps = steps_of(self.desk.snapshot)
        found = [at for at, one in enumerate(steps) if one.number == int(typed)]
        # Of several with one number the next, where the arrow stands at one of them.
        found = [at for at in found if at > self.listing.at] + found
        if not found:
            self.tell(
                f"there is no step {typed}; accepted: the number of one, or a time "
                "with its unit: 25 min",
                label="not taken",
            )
            self.line.select_all()
            return True
        self.line.put(time)
        self.action_move(found[0] - self.listing.at)
        does = _ENTER_DOES.get(self._shown(steps[found[0]]), "Enter logs it as done")
        said = f"step {typed}, {time}" if time else f"step {typed}"
        self.tell(f"{said}; {does}", label="step")
        self._promised = True
        return True

    def action_do(self) -> None:
        """Log the step as done, as Enter does."""
        self._enter()

    def action_move(self, by: int) -> None:
        """Move the arrow; what is asked of a step is dropped with it."""
        if self.question is not None:
            self.asked_enough()
        if self._promised:
            # It was said of the step that was gone to, not of the next.
            self._promised = False
            self.tell("")
        super().action_move(by)

    def action_apart(self) -> None:
        """Log that the step was taken apart again."""
        if self._number_typed:  # the step of that number is meant
            self._went_to_a_step()
        step = self.step
        if step is None or self._number_typed:
            return
        if self._state(step) != "done":
            self.tell(f"“{step.title}” is not done", label="not done")
        elif self.takes_time():
            if self.question is not None:  # this answers it
                self.asked_enough()
            self.desk.write(
                done_job(self.desk, step, self.time(), self.when(), undone=True)
            )
            self.line.put("")

    def action_go_on(self) -> None:
        """Go on past what this step waits for, with the reason."""
        step = self.step
        holds = (
            {one.about.name for one in self._holds(step) if one.open} if step else set()
        )
        if not holds:
            self.tell("this step waits for nothing", label="waits")
            return
        if self.question is not None:
            self.asked_enough()
        self.go("waits", holds)

    def action_record(self) -> None:
        """Open the record of the step."""
        if self.chosen:
            self.show_record(self.chosen)
