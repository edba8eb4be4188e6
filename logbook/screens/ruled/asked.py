"""A sheet that asks one question at a time; keys answer it, the line keeps its text.

What was typed at a question and is no answer waits, kept on disk with the line, and
comes to the line as soon as that is empty.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from textwrap import shorten
from typing import cast

from textual import on
from textual.message import Message
from textual.widgets import Input

from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.asking import Answer, Question
from logbook.screens.ruled.emptying import MOST_QUOTED
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.keys_in_order import KeysInOrder
from logbook.screens.ruled.one_question import OneQuestion
from logbook.screens.ruled.verbs import UNDO

WAITED = "this waited for the line; Enter takes it, Esc empties the line"
COMES_FIRST = "the question comes first; Esc drops it, the line stays"
REST_OF_YES = "es"
NOT_TAKEN = "not taken"
"""The margin word of what is said of a line that was refused."""


class AskingSheet(OneQuestion):
    """A sheet whose line keeps its text while a question about it stands."""

    def __init__(self, desk: Desk) -> None:
        """Start with nothing asked."""
        super().__init__(desk)
        self._refused = ""
        self._told = "", ""
        self.waiting: list[str] = []
        self._kept_as = ""
        self._by_sign = "", "", 0
        self._stays = "", frozenset[str](), 0

    @property
    def kept_as(self) -> str:
        """What the line is kept as on disk; empty where nothing was typed yet."""
        return self._kept_as

    def ask(self, question: Question, answered: Callable[[Answer], None]) -> None:
        """Ask; `answered` gets the answer, when the question is gone again.

        What was said of the line when it was not taken before is over by now.
        """
        if self._told[1] == NOT_TAKEN:
            self.tell("")
        super().ask(question, answered)

    def asked_enough(self) -> None:
        """Take the question away."""
        super().asked_enough()
        if self._told[0] == COMES_FIRST:
            self.tell("")

    def press(self, question: Question, event: EntryLine.Key) -> None:
        """Take one key; one that answers may turn out to begin what is typed next."""
        app = cast("KeysInOrder[None]", self.app)
        answer = question.press(event.key, event.sign, app.sign_behind)
        if answer.words is not None and event.sign and not answer.typed_on:
            meant = question.keys[event.sign.casefold()][0]
            self._by_sign = event.sign, meant, app.keys_let_in
        self.take_answer(answer)

    def take_answer(self, answer: Answer) -> None:
        """Do what was answered; without an answer the question stays."""
        self.waiting += [answer.waits] if answer.waits else []
        if answer.words is None and not answer.dropped:
            self.show_question()
            self.show_keys()
        else:
            answered, question = self._answered, self.question
            self.asked_enough()
            answered(answer)
            if not answer.dropped:  # who left it types on: nothing comes too late
                self._line_stays(question)
            if answer.typed_on:
                self.line.put(self.line.value + answer.typed_on)
            self.bring_waiting()
        if self._kept_as:
            self.keep_soon(self.line.value, self._kept_as)

    # -- what waits for the line -------------------------------------------------

    @on(Input.Changed, "#line")
    def _line_changed(self) -> None:
        if not self.line.value:
            self.bring_waiting()
        elif self.line.value == " ":
            self._give_figure_back()
        elif self.line.value == REST_OF_YES and self._answers_by("y", REST_OF_YES):
            self.line.put("")  # the first letter of it has answered
        else:
            self._let_stray_answer_go()

    def bring_waiting(self) -> None:
        """Put what waits into the line, where that is empty and nothing is asked."""
        if self.question is None and self.waiting and not self.line.value:
            self.line.put(self.waiting.pop(0), unasked=True)
            self.tell(WAITED, label="waits")

    @on(EntryLine.Overtaken)
    def _overtaken(self, event: EntryLine.Overtaken) -> None:
        """Let a line that came by itself go: another one was begun."""
        self.let_wait(event.text)

    def let_wait(self, text: str) -> None:
        """Let a line wait until the one that was begun in its place is taken."""
        self.waiting.insert(0, text)

    def take_more(self, rows: tuple[str, ...]) -> None:
        """Let the rows pasted behind a line wait: each is a line of its own."""
        self.waiting[:0] = rows
        self.tell_of_waiting()
        if self._kept_as:
            self.keep_soon(self.line.value, self._kept_as)

    def tell_of_waiting(self) -> None:
        """Say what waits for the line while another one is typed; else nothing."""
        if self.waiting:
            first = shorten(self.waiting[0], MOST_QUOTED, placeholder=" …")
            self.tell(f"“{first}” comes when the line is empty", label="waits")
        else:
            self.tell("")

    def _answers_by(self, sign: str, behind: str) -> bool:
        """Tell whether a sign has answered, and only these keys came behind it."""
        by, _, at = self._by_sign
        now = cast("KeysInOrder[None]", self.app).keys_let_in
        return by == sign and at + len(behind) == now

    def _give_figure_back(self) -> None:
        """See a line that counts something: its figure was taken for an answer."""
        sign, meant, _ = self._by_sign
        if sign.isdecimal() and self._answers_by(sign, " "):
            self.line.put(f"{sign} ")
            key = self.mapped_keys()(UNDO)
            self.tell_more(f"the {sign} answered “{meant}”; {key} takes that back")

    def _line_stays(self, question: Question | None) -> None:
        """Remember the line that stays behind a question, and what would answer it."""
        if self.question is None and question is not None:
            at = cast("KeysInOrder[None]", self.app).keys_let_in
            self._stays = self.line.value, frozenset({*question.keys, "y", "n"}), at

    def _let_stray_answer_go(self) -> None:
        """Let go of an answer that came when its question was over: it is no letter.

        Only right behind the question and right behind a word, where nobody types on.
        """
        line, answers, at = self._stays
        sign = self.line.value.removeprefix(line)
        now = cast("KeysInOrder[None]", self.app).keys_let_in
        late = len(sign) == 1 and sign.casefold() in answers and now == at + 1
        if line[-1:].isalnum() and line + sign == self.line.value and late:
            self._stays = line, answers, now
            self.line.put(line)
            self.tell(
                f"“{sign}” answers nothing any more; the line stays", label="waits"
            )

    def _with_waiting(self, text: str) -> str:
        """Give what is kept on disk of a line: behind it, row by row, what waits."""
        asked = self.question.typed.strip() if self.question else ""
        behind = [asked] if asked else []
        return "\n".join([text, *behind, *self.waiting]).rstrip("\n")

    def keep_soon(self, text: str, purpose: str) -> None:
        """Keep what stands in the line, and with it what waits for it."""
        self._kept_as = purpose
        super().keep_soon(self._with_waiting(text), purpose)

    def keep_now(self, text: str, purpose: str) -> None:
        """Keep it at once, and with it what waits for the line."""
        super().keep_now(self._with_waiting(text), purpose)

    def offer_kept(self, purpose: str) -> str:
        """Put back what was typed when the line went away; what waited waits again."""
        said = super().offer_kept(purpose)
        self.put_kept(self.line.value, unasked=True)
        return said

    def put_back(self, text: str, of: str) -> None:
        """Put the line back, with what waited for it."""
        del of
        self.put_kept(text)

    def put_kept(self, text: str, *, unasked: bool = False) -> None:
        """Put what was kept of a line back, with what waited for it."""
        first, *waited = text.split("\n")
        if first != self.line.value or unasked:
            self.line.put(first, unasked=unasked)
        self.waiting += waited

    # -- what is told ------------------------------------------------------------

    def tell(self, words: str, *, label: str = "") -> None:
        """Say one sentence; of a line that was not taken, remember that it stands."""
        super().tell(words, label=label)
        self._told = words, label
        if label == NOT_TAKEN:
            self._refused = self.line.value

    def told(self, message: Message) -> None:
        """Hear that a line is not kept, beside a refusal that stands."""
        if isinstance(message, news.Kept) and self._told[1] == NOT_TAKEN:
            self.tell_more(message.refusal)
        else:
            super().told(message)

    def tell_beside(self, words: str, *, label: str = "") -> None:
        """Say a sentence that was not asked for, beside the one that stands.

        One with the same label said how it was before: it is over.
        """
        if self._told[0] and self._told[1] != label:
            self.tell_more(words)
        else:
            self.tell(words, label=label)

    def tell_more(self, words: str) -> None:
        """Say a sentence beside the one that stands, which nobody may have read yet.

        The next one beside it takes its place.
        """
        before, label = told = self._told
        self.tell(" · ".join(filter(None, (before, words))), label=label)
        self._told = told

    # -- what waits for the answer -----------------------------------------------

    def _is_asked(self) -> bool:
        """Tell whether a question stands, and say that it comes first.

        The line it is about is not taken yet, so the last entry is another one.
        """
        if self.question is not None:
            self.tell(COMES_FIRST)
        return self.question is not None

    def _is_refused(self) -> bool:
        """Tell once that a refused line stands: it is none of what is on record."""
        refused, self._refused = self._refused, ""
        if not refused or self.line.value != refused:
            return False
        key = self.mapped_keys()(UNDO)
        self.tell(
            f"“{refused}” was not taken, it stands only on the line; {key} again takes "
            "back what is on record"
        )
        return True

    def action_undo(self) -> None:
        """Take back what was logged last, unless a question or refused line stands."""
        if not self._is_asked() and not self._is_refused():
            super().action_undo()

    def action_bring_back(self) -> None:
        """Bring back what was taken back last, unless a question stands."""
        if not self._is_asked():
            super().action_bring_back()

    def action_photo(self) -> None:
        """Link the newest photo, unless a question stands."""
        if not self._is_asked():
            super().action_photo()

    def action_to_build(self) -> None:
        """Move the last entry, unless a question stands."""
        if not self._is_asked():
            super().action_to_build()

    def action_next_build(self) -> None:
        """Go on with the next build, unless a question stands."""
        if not self._is_asked():
            super().action_next_build()

    def undo_only(self, nothing: str, ours: Callable[[], Collection[str]]) -> None:
        """Take back what touched these files last, unless a question stands."""
        if not (self._is_asked() or self.brings_back() or self._is_refused()):
            super().undo_only(nothing, ours)
