"""A sheet that asks one question at a time: while it stands, keys answer it."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar, cast

from textual import on

from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Answer, Question, asked_keys
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.keys_in_order import KeysInOrder
from logbook.screens.ruled.rows import KeyStrip, Row


class OneQuestion(EmptyingSheet):
    """A sheet with a line and at most one open question."""

    KEYS_AT_REST: ClassVar[bool] = False
    """Whether letters are keys of the sheet where nothing is asked."""

    def __init__(self, desk: Desk) -> None:
        """Start with nothing asked."""
        super().__init__(desk)
        self.question: Question | None = None
        self._answered: Callable[[Answer], None] = lambda _: None

    @property
    def line(self) -> EntryLine:
        """The line to type on."""
        return self.query_one(EntryLine)

    def ask(self, question: Question, answered: Callable[[Answer], None]) -> None:
        """Ask; `answered` gets the answer, when the question is gone again."""
        self.question, self._answered = question, answered
        self.line.asking = True
        self.show_question()
        self.show_keys()

    def asked_enough(self) -> None:
        """Take the question away."""
        self.question, self.line.asking = None, self.KEYS_AT_REST
        self.show_question()
        self.show_keys()

    def show_keys(self) -> None:
        """Show the keys that work: while a question stands, those that end it."""
        if self.question is None:
            super().show_keys()
        else:
            self.query_one(KeyStrip).tell(asked_keys(self.question))

    def show_question(self) -> None:
        """Show the question, or take its row away."""
        row = self.query_one("#question", Row)
        row.set_class(self.question is not None, "-asks")
        if self.question is not None:
            row.say(self.question.shown(), "?")

    @on(EntryLine.Key)
    def _key_of_question(self, event: EntryLine.Key) -> None:
        if self.question is not None:
            self.press(self.question, event)

    @on(EntryLine.Pasted)
    def _pasted_at_question(self, event: EntryLine.Pasted) -> None:
        if self.question is not None:
            self.take_answer(self.question.paste(event.words))

    def press(self, question: Question, event: EntryLine.Key) -> None:
        """Take one key as an answer, knowing what is typed right behind it."""
        behind = cast("KeysInOrder[None]", self.app).sign_behind
        self.take_answer(question.press(event.key, event.sign, behind))

    def take_answer(self, answer: Answer) -> None:
        """Do what was answered; without an answer the question stays."""
        if answer.waits:
            self.let_wait(answer.waits)
        if answer.words is None and not answer.dropped:
            self.show_question()
            self.show_keys()
        else:
            answered = self._answered
            self.asked_enough()
            answered(answer)

    def let_wait(self, text: str) -> None:
        """Put what was typed as an answer, and is none, into the line."""
        self.line.put(text)
