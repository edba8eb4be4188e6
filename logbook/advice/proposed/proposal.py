"""A proposal as a value: what is asked, what it would buy, and how it is taken.

Structure comes from use: a gap, a joint, a step is offered when the entries show
it, never demanded. What was taken is the record it became; only a refusal is
remembered for its own sake.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from logbook.errors import BadInput
from logbook.records.kinds.happenings import Declined
from logbook.records.kinds.ids import ALPHABET, Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.written.text import clean_title, digest

MARK_LENGTH = 5
YES = frozenset({"y", "yes", "ok", "true", "as is", "take it"})
"""Answers that take a proposal as it stands."""
NOT_WANTED = "not wanted"
NO = frozenset({"n", "no", NOT_WANTED, "never"})
"""Answers that refuse it for good."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """One thing that could be put on record; `key` stays the same for its records.

    `buys` goes on from “then”: what that would give; `accepts` what an answer
    looks like, `take` drafts the records an answer comes to (BadInput where it
    is none). `otherwise` is what is so where the answer is no: empty where a no
    only says that it is not wanted.
    """

    key: str
    topic: str
    about: Ref
    question: str
    buys: str
    accepts: str
    inputs: tuple[Ref, ...]
    take: Callable[[Draft, str], None] = field(compare=False, repr=False)
    otherwise: str = ""

    @property
    def no(self) -> str:
        """What a no says to it."""
        return self.otherwise or NOT_WANTED

    @property
    def mark(self) -> str:
        """The short name it is taken or refused by, drawn from its key."""
        bits = int(digest(self.key.encode())[:12], 16)
        return "".join(ALPHABET[bits >> 5 * at & 31] for at in range(MARK_LENGTH))

    @property
    def takes_yes(self) -> bool:
        """Tell whether a bare yes answers it."""
        return self.accepts.lstrip("“").startswith("yes")

    def subject(self, answer: str) -> str:
        """Say for git what an answer was about; a bare yes would not tell."""
        said = answer.strip()
        if is_no(said):
            return f"{self.no}: {self.question}"
        if len(said.split()) > 1 and self.topic == "known fault":
            return f"{self.topic}: {self.about.name}; {said}"
        if len(said.split()) > 1:
            return f"{self.topic}: {said}"
        return f"{self.topic}: {self.question} {'yes' if is_yes(said) else said}"


def decline(draft: Draft, offered: Proposal, because: str = "") -> Declined:
    """Remember that a proposal is not wanted; it is never made again."""
    return draft.add(
        Declined(
            id=new_id(),
            title=clean_title(f"{offered.no}: {offered.question}"),
            when=draft.when,
            proposal=offered.key,
            about=offered.inputs,
            because=because,
        )
    )


def put_answer(draft: Draft, offered: Proposal, answer: str) -> None:
    """Draft what an answer to a proposal comes to; a no is one as well.

    Raises:
        BadInput: it is no answer.
    """
    if is_no(answer):
        decline(draft, offered)
    else:
        offered.take(draft, answer)


def is_yes(answer: str) -> bool:
    """Tell whether an answer takes a proposal as it stands."""
    return answer.strip().casefold().rstrip(".!") in YES


def is_no(answer: str) -> bool:
    """Tell whether an answer refuses a proposal."""
    return answer.strip().casefold().rstrip(".!") in NO


def not_accepted(offered_as: str, found: str, accepts: str) -> BadInput:
    """Make the refusal of an answer that is none."""
    return BadInput(f"{offered_as}: found “{found[:60]}”; accepted: {accepts}")


def as_facts(offered: Proposal) -> dict[str, Any]:
    """Give a proposal as a program reads it."""
    return {
        "id": offered.mark,
        "key": offered.key,
        "topic": offered.topic,
        "about": str(offered.about),
        "asks": offered.question,
        "buys": offered.buys,
        "accepts": offered.accepts,
        "inputs": [str(ref) for ref in offered.inputs],
    }
