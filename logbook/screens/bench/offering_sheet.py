"""What an entry suggests to put on record: shown while nothing is typed, answered."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.content import Content

from logbook.errors import LogbookError
from logbook.screens.bench.offering import Listed, Offering, Offers, listed
from logbook.screens.bench.saying_sheet import SayingSheet
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asking import Answer


class OfferingSheet(SayingSheet):
    """A sheet whose line answers what an entry suggests."""

    def __init__(self, desk: Desk) -> None:
        """Start with nothing suggested."""
        super().__init__(desk)
        self._offering = Offering()

    def nothing_typed(self) -> tuple[Content, str]:
        """Offer what the last entry suggests."""
        if not self._offering.found and (of_day := self.of_day()) is not None:
            return of_day, "day"
        label = "could be" if self._offering.found else "understood"
        return self._offering.shown(verbs.shown_key(verbs.ANSWER.key)), label

    def show_offer(self, event: news.BroughtUp) -> None:
        """Show it, unless a question is just being answered."""
        if self.question is None:
            self._offering.found = event.found
            self.understand()

    def action_answer(self) -> None:
        """Answer what the last entry suggests, else choose among what is offered."""
        if self.question is not None:
            return
        if self._offering.found is not None:
            self._begin_answer()
        elif self.desk.is_open:
            snapshot = self.desk.snapshot
            post: Callable[[], object] = lambda: self.post_message(listed(snapshot))  # noqa: E731
            self.run_worker(post, thread=True, group="offered")

    def _begin_answer(self, typed: str = "") -> None:
        self.ask(self._offering.asked(typed), self._answer_offer)

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

    def _answer_offer(self, said: Answer) -> None:
        try:
            if said.words:
                build, now = self.desk.build, self.desk.now()
                snapshot = self.desk.snapshot
                self.desk.write(self._offering.job(said.words, snapshot, now, build))
            elif self._offering.found is not None:
                self._say_it_stays()
            self._offering.found = None
        except LogbookError as refusal:
            self._begin_answer(said.words or "")
            self.tell(str(refusal), label="not taken")
        self.understand()

    def _say_it_stays(self) -> None:
        """Say where what was put off is answered: the row that offered it goes."""
        key = self.mapped_keys()(verbs.ANSWER)
        self.tell(f"not answered yet; {key} lists what is offered", label="later")
