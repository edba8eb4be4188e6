"""What an entry suggests: shown while the line is empty, answered at one key.

It never takes a key from the line: who types on passes it over, and it stays in
the list of `logbook offered`. Only after its own key do keys answer it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from textual.content import Content
from textual.message import Message

from logbook.advice.proposals import offered, proposals
from logbook.advice.proposed.proposal import NOT_WANTED, Proposal, put_answer
from logbook.project import Project
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asking import Question
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say

YES = "yes"


@dataclass
class Listed(Message):
    """Everything that is offered now, found beside the keys."""

    found: Sequence[Proposal]


def listed(snapshot: Snapshot) -> Listed:
    """Find everything that could be put on record."""
    return Listed(proposals(snapshot))


class Offers(Choosing):
    """What is offered, as `logbook offered` lists it; the one chosen is answered."""

    NOTHING = "nothing offered has that in it"
    MARGIN_WORD = "which ›"

    def __init__(self, desk: Desk, found: Sequence[Proposal]) -> None:
        """Choose among these."""
        super().__init__(desk, "offered: answer or refuse one")
        self._offered = found

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what has the words typed in it."""
        words = typed.casefold()
        return [
            Line(one.mark, one.topic, f"{one.question} then {one.buys}")
            for one in self._offered
            if words in f"{one.mark} {one.question} {one.buys}".casefold()
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say in full what is asked, and what an answer would buy."""
        for one in self._offered:
            if one.mark == line.key:
                return [
                    Say(one.topic, one.question),
                    Say("then", one.buys),
                    Say("in a shell", f"logbook offered take {one.mark} ANSWER"),
                ]
        return ()


@dataclass(slots=True)
class Offering:
    """At most one proposal: what the newest entries suggest."""

    found: Proposal | None = None

    def shown(self, key: str) -> Content:
        """Say the key that answers, the question, and what an answer would buy."""
        if self.found is None:
            return Content("")
        return sentence(
            "[$mark][b]$key[/b][/] [b]$asks[/b] [$quiet]then $buys[/]",
            asks=self.found.question,
            buys=self.found.buys,
            key=key,
        )

    def asked(self, typed: str = "") -> Question:
        """Give its question: what is typed from now on is the answer."""
        assert self.found is not None
        keys = {YES[0]: (YES, YES)} if self.found.takes_yes else {}
        keys["n" if self.found.otherwise else "x"] = (self.found.no, NOT_WANTED)
        words = f"{self.found.question} accepted: {self.found.accepts}"
        return Question(words, keys, "later", typed, open_ended=True)

    def job(
        self, words: str, snapshot: Snapshot, now: datetime, build: Build | None
    ) -> Job:
        """Give the work that writes the answer.

        Raises:
            LogbookError: the words are no answer; nothing is to be written.
        """
        found = self.found
        assert found is not None
        mark = found.mark

        def make(project: Project) -> Draft:
            return _answered(project.snapshot, mark, words, now, build)

        _answered(snapshot, mark, words, now, build)
        said = found.subject(words)
        return Job(said, make, said=said)


def _answered(
    snapshot: Snapshot, mark: str, words: str, now: datetime, build: Build | None
) -> Draft:
    draft = Draft(snapshot, now, build)
    meant = offered(snapshot, mark)
    put_answer(draft, meant, words)
    return draft
