"""Questions on the terminal; what is typed at one and is no answer waits, and is kept.

A sentence typed at a question begins the next line. It is put aside on disk at once,
and taken in its turn, when the question is answered.
"""

from __future__ import annotations

import shlex
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from logbook.advice.steps.going_past import Ask, GoingPast
from logbook.cli import terms
from logbook.errors import LogbookError
from logbook.plain.answers.accepted import (
    NOT_TAKING,
    closed,
    picked,
    resting,
    unfit,
)
from logbook.plain.answers.no_answer import no_answer
from logbook.plain.understanding import Doubt
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.words import Blame
from logbook.store.typed.drafts import Draft, delete_draft, keep_draft

_SAY = ("logbook", "say")
_NOT_TAKEN = "not taken; nothing was saved (the line is kept in logbook drafts)"
KEPT = "It is kept in logbook drafts"
_LINE = 3
"""From so many words on, what is no answer is taken for a line of its own."""
_DONE_OR_NOT = "1 it was done all the same / 2 not done yet  [Enter: not done yet] "
_TICK = "  y yes, tick it / n no  [Enter: not yet] "


class Asking:
    """The questions of one verb, and the lines that wait until they are answered."""

    def __init__(self, root: Path) -> None:
        """Keep what waits for the project of this folder."""
        self._root = root
        self._waiting: list[tuple[str, Draft | None]] = []

    def ask(self, prompt: str, refuses: Callable[[str], str]) -> str:
        """Ask until the words are an answer: `refuses` says what is accepted instead.

        Raises:
            NeedsAnswer: nobody is there to answer.
        """
        while True:
            said = terms.ask(prompt)
            accepted = refuses(said) if said else ""
            if not accepted:
                return said
            print(no_answer(said, accepted, self.aside(said)))

    def key(self, prompt: str, keys: Mapping[str, str]) -> str:
        """Ask until one of these keys is answered; give what it stands for.

        Raises:
            NeedsAnswer: nobody is there to answer.
        """
        return terms.ask_key(prompt, keys, self.aside)

    # -- the questions of a line -----------------------------------------------------

    def doubt(self, doubt: Doubt, words: Vocabulary) -> str | None:
        """Ask what is doubtful about a line; nothing keeps it as a note.

        None where the line is not to be taken.
        """
        shown = " / ".join(f"{n} {choice}" for n, choice in enumerate(doubt.choices, 1))
        typed = "or type it; " if doubt.choices else "type it; "
        typed = "" if closed(doubt) else typed
        n = "n: do not take the line"
        prompt = f"{doubt.question}  {shown}  [{typed}Enter: {resting(doubt)}, {n}] "

        def refuses(said: str) -> str:
            return "" if said == NOT_TAKING else unfit(doubt, said, words)

        said = self.ask(prompt, refuses)
        if said == NOT_TAKING:  # Whatever a choice begins with: n is that everywhere.
            return None
        return picked(doubt.choices, said) or said

    def past(self, past: GoingPast) -> bool:
        """Ask about all that an act goes past; tell whether it was done.

        Raises:
            NeedsAnswer: nobody is there to answer.
        """
        while (ask := past.asks) is not Ask.NOTHING:
            if ask is Ask.TICK:
                past.looked_at.append(self._ticked(past))
            elif ask is Ask.WHETHER:
                print("\n".join(past.against))
                keys = {"": "", "1": "done", "2": ""}
                past.done = self.key(_DONE_OR_NOT, keys) == "done"
                if not past.done:
                    return False
            elif not past.reasoned(self._why(past)):
                print("no reason given, so it is not done yet")
                return False
        return True

    def _ticked(self, past: GoingPast) -> bool:
        at, every = len(past.looked_at), past.ticks
        asked = f"{at + 1} of {len(every)}  {every[at].question}{_TICK}"
        return bool(self.key(asked, {"": "", "y": "seen", "n": ""}))

    def _why(self, past: GoingPast) -> str:
        keys = " / ".join(f"{key} {words}" for key, (words, _) in past.reasons.items())
        return terms.ask(f"why?  {keys}  [or type it; Enter: no reason, not yet] ")

    def whose(self, fits: str = "") -> Blame | None:
        """Ask whose fault it is; None where what it is about is not to be taken.

        `fits` says which answer fits, where that is not plain.
        """
        keys = {**terms.BLAME_KEYS, "n": ""}
        if fits:
            print(fits)
        asked = f"{terms.BLAME_ASKED}[Enter: not known yet, n: do not take the line] "
        return terms.BLAMES.get(self.key(asked, keys))

    def taking(self) -> bool:
        """Ask whether what was shown is to be taken; only a yes or Enter takes it."""
        keys = {"": "yes", "y": "yes", "n": ""}
        return bool(self.key("take it? [Enter: yes, n: no] ", keys))

    # -- what waits for its turn -----------------------------------------------------

    def aside(self, said: str) -> str:
        """Put a line aside until its turn; give the words that say so.

        A word or two, or another command, are no line to take and only kept; a single
        sign says nothing and is let go.
        """
        if len(said) < 2:
            return ""
        line = _spoken(said)
        words = sum(one.isalpha() for one in line.split())
        if line.startswith("logbook ") or words < _LINE:
            kept = self._kept(line, "typed at a question")
            return KEPT if kept else ""
        self._waiting.append((line, self._kept(line, "say, waits for its turn")))
        return "It is kept, and taken next, once this is answered"

    def no_answer(self, said: str, command: str) -> str:
        """Keep what an offer does not take: a line waits, other words stay in drafts.

        `command` is what would give the answer again.
        """
        if sum(one.isalpha() for one in said.split()) > _LINE:
            return self.aside(said)
        return KEPT if self._kept(command, "refused") else ""

    def waits(self) -> str:
        """Give the next line that waits; nothing where none does.

        Its draft stays until `taken`.
        """
        return self._waiting[0][0] if self._waiting else ""

    def taken(self) -> None:
        """Let go of the line that waited longest: it is on record."""
        _, draft = self._waiting.pop(0)
        if draft is not None:
            delete_draft(self._root, draft.id)

    def left(self) -> None:
        """Leave the line that waited longest where it is kept."""
        self._waiting.pop(0)
        print(_NOT_TAKEN)

    def keep_back(self, line: str) -> None:
        """Keep a line that was not taken, and say so."""
        self._kept(line, "say, not taken")
        print(_NOT_TAKEN)

    def _kept(self, line: str, why: str) -> Draft | None:
        try:
            return keep_draft(self._root, line, why)
        except LogbookError as refusal:
            print(f"careful: {refusal}", file=sys.stderr)
            return None


def _spoken(said: str) -> str:
    """Give what a whole command, pasted at a question, says."""
    if not said.startswith(" ".join(_SAY)):
        return said
    try:
        words = shlex.split(said)
    except ValueError:
        return said
    plain = words[len(_SAY) :]
    return said if any(one.startswith("-") for one in plain) else " ".join(plain)
