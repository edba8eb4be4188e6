"""The one question of a line, and what a key answers to it.

At most one question is asked, always in the row above the line, while the line
keeps its text. A figure answers it; words can be typed where they are an answer.
Where they are not, a key answers nothing: the question stays, and says which
keys it takes. Only what may stay unanswered, whose fault it is, gives way to who
types on without looking up: the line is taken, and the next one begins. Where lines
begin with words figures answer; where they begin with numbers, as a caliper types
them, letters do, so that no number is ever half an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from textwrap import shorten

from textual.content import Content

from logbook.advice.passing import REASONS
from logbook.errors import NeedsAnswer
from logbook.plain.understanding import Doubt
from logbook.records.expected import Slip
from logbook.records.words import Blame
from logbook.screens.look import sentence

WOULD_MEET = "would another builder meet this?"
AS_SOLD = "(1 if it is what is sold: he would buy the same; 2 if it was this once)"
"""What to answer of stock that comes otherwise than drawn."""
BLAMES = {
    "1": ("the drawing is wrong", Blame.DRAWING),
    "2": ("only this piece", Blame.PIECE),
    "3": ("my machine does this", Blame.MACHINE),
}

LETTERS = {"1": "d", "2": "p", "3": "m"}
"""What answers whose fault it is where numbers are typed: drawing, piece, machine."""

AS_MEANT, AS_TYPED = "as meant", "as typed"
OTHER = "another reason"
DONE = "done"
NOT_DONE = "not done"
MOST_SAID = 280
"""Signs of what waits in a question; more would push its answers off a low screen."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered: nothing yet, words, or that the question was dropped.

    `typed_on` is the sign that answered nothing: the next line begins with it.
    """

    words: str | None = None
    dropped: bool = False
    typed_on: str = ""


@dataclass(slots=True)
class Question:
    """A question with its answers by key; `resting` is what Enter means.

    `about` tells the questions of one line from each other; `missed` is the last
    sign that answered nothing. The question goes, unanswered, at a sign that
    `gives_way` says begins the next line.
    """

    words: str
    keys: dict[str, tuple[str, str]]
    resting: str
    typed: str = ""
    open_ended: bool = False
    about: str = ""
    missed: str = ""
    gives_way: Callable[[str], bool] | None = None
    _in_number: bool = False

    def shown(self) -> Content:
        """Give the question with its keys."""
        made = [sentence("[b]$words[/b]", words=self.words)]
        made += [
            sentence("[$mark][b]$key[/b][/] $answer", key=key, answer=label)
            for key, (label, _) in self.keys.items()
        ]
        made.append(sentence("[$mark][b]Enter[/b][/] $rest", rest=self.resting))
        if self.typed:
            made.append(sentence("› $typed", typed=self.typed))
        elif self.open_ended:
            made.append(sentence("[$quiet]or type it[/]"))
        if self.missed:
            made.append(
                sentence(
                    "[$alarm]“$missed” is no answer; accepted: $keys[/]",
                    missed=self.missed,
                    keys=", ".join((*self.keys, "Enter, Esc")),
                )
            )
        return Content("  ").join(made)

    @property
    def _closed(self) -> bool:
        """Tell whether nothing but its keys can be typed at it."""
        return not self.open_ended and self.gives_way is None

    def press(self, key: str, sign: str, behind: str = "") -> Answer:
        """Take one key; `behind` is what the key types that came right behind it.

        A figure with more of a number behind it is no answer: a caliper types so.
        """
        more = sign.isdecimal() and number_goes_on(behind)
        if self._in_number or (more and self._closed):
            self.missed = f"{self.missed if self._in_number else ''}{sign}"
            self._in_number = bool(sign) and (number_goes_on(behind) or behind == "\r")
            return Answer()
        self.missed = ""
        if key == "escape":
            return Answer(dropped=True)
        if key == "enter":
            return Answer(self.typed)
        if key == "backspace":
            self.typed = self.typed[:-1]
        elif sign and not self.typed and not more and sign.casefold() in self.keys:
            return Answer(self.keys[sign.casefold()][1])
        elif sign and self.open_ended:
            self.typed += sign
        elif sign and self.gives_way and (more or self.gives_way(sign)):
            return Answer("", typed_on=sign)
        elif sign:
            self.missed = sign
        return Answer()


def number_goes_on(sign: str) -> bool:
    """Tell whether a number goes on with this sign."""
    return sign.isdecimal() or sign in {".", ","}


def asked_keys(question: Question) -> tuple[tuple[str, str], ...]:
    """Give the keys that end a question, with what each then means."""
    enter = "take these words" if question.typed else question.resting
    return ("Enter", enter), ("Esc", "drop the question")


def whose_fault(*, bought: bool = False) -> Question:
    """Ask whether another builder would meet this; of what is bought, say who would."""
    keys = {key: (label, blame.value) for key, (label, blame) in BLAMES.items()}
    words = f"{WOULD_MEET} {AS_SOLD}" if bought else WOULD_MEET
    return Question(words, keys, "not known yet", about="whose", gives_way=begins_words)


def whose_fault_of(reading: str) -> Question:
    """Ask it of a reading, where the next thing typed is a number."""
    keys = {
        LETTERS[key]: (label, blame.value) for key, (label, blame) in BLAMES.items()
    }
    words = f"{reading}: {WOULD_MEET}"
    return Question(words, keys, "not known yet", gives_way=begins_number)


def which_number(unsure: NeedsAnswer) -> Question:
    """Ask which of its meanings a number has."""
    keys = dict(zip("abcdefgh", ((one, one) for one in unsure.choices), strict=False))
    words = str(unsure).partition(";")[0]
    return Question(words, keys, "type it again", gives_way=begins_number)


def which_of_slip(slip: Slip) -> Question:
    """Ask of a reading that looks like a slip what was meant."""
    keys = {
        "m": (f"{slip.meant} was meant", AS_MEANT),
        "t": (f"{slip.value} as typed", AS_TYPED),
    }
    return Question(slip.question, keys, "type it again", gives_way=begins_number)


def begins_words(sign: str) -> bool:
    """Tell whether a line of words begins with this sign: a figure may be a slip."""
    return not sign.isdecimal()


def begins_number(sign: str) -> bool:
    """Tell whether a line of a run begins with this sign, be it its place or value."""
    return not sign.isalpha() and not sign.isspace()


def blame_of(words: str) -> Blame:
    """Give the answer as the record has it."""
    return Blame(words) if words else Blame.UNKNOWN


def about_line(doubt: Doubt) -> Question:
    """Ask what is doubtful about a line; of a number, by letters."""
    signs = "mt"[-len(doubt.choices) :] if doubt.about == "slip" else "123456789"
    keys = {key: (one, one) for key, one in zip(signs, doubt.choices, strict=False)}
    return Question(
        doubt.question, keys, "keep it as a note", open_ended=True, about="line"
    )


def about_waits(statements: Sequence[str]) -> Question:
    """Ask whether it was done past what waits."""
    keys = {"1": ("it was done all the same", DONE), "2": ("not done yet", NOT_DONE)}
    most = MOST_SAID // max(len(statements), 1)
    said = " · ".join(shorten(one, most, placeholder=" …") for one in statements)
    return Question(said, keys, "not done yet; the line stays", about="past")


def why_past() -> Question:
    """Ask why it may go on past what waits; another reason may be typed."""
    keys = {key: (shown, reason.value) for key, (reason, shown) in REASONS.items()}
    return Question("why?", keys, OTHER, open_ended=True, about="why")
