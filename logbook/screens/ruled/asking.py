"""The one question of a line, and what a key answers to it.

At most one question is asked, always in the row above the line, while the line
keeps its text. A figure answers it; words can be typed where they are an answer.
Where they are not, as a sentence never is that begins the next line, the question
stays and says what it takes, and the words wait for the line. Only what may stay
unanswered, whose fault it is, gives way to who types on without looking up: the line
is taken, and the next one begins. Where lines begin with words figures answer; where
they begin with numbers, as a caliper types them, letters do, so that no number is
ever half an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.content import Content

from logbook.errors import NeedsAnswer
from logbook.plain.answers.accepted import closed, resting, unfit
from logbook.plain.answers.no_answer import no_answer
from logbook.plain.understanding import Doubt
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.words import Blame
from logbook.records.sizes.slips import Slip
from logbook.screens.ruled.cutting import together
from logbook.screens.ruled.look import sentence

WOULD_MEET = "would another builder meet this?"
BLAMES = {
    "1": ("the drawing is wrong", Blame.DRAWING),
    "2": ("only this piece", Blame.PIECE),
    "3": ("my machine does this", Blame.MACHINE),
}

LETTERS = {"1": "d", "2": "p", "3": "m"}
"""What answers whose fault it is where numbers are typed: drawing, piece, machine."""

AS_MEANT, AS_TYPED = "as meant", "as typed"
ONE_PART = "one part"
LET_WAIT = "keep it for the line"
"""What Enter does with words that are no answer."""
COMES = "It is kept: it comes into the line once this is answered or dropped"
"""What becomes of words that are no answer."""
SENTENCE = 4
"""From so many words on what was typed at a question that is dropped is kept."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered: nothing yet, words, or that the question was dropped.

    `typed_on` answered nothing: the next line begins with it. `waits` are words that
    were typed as an answer and are none: they come to the line behind the question.
    """

    words: str | None = None
    dropped: bool = False
    typed_on: str = ""
    waits: str = ""


@dataclass(slots=True)
class Question:
    """A question with its answers by key; `resting` is what Enter means.

    `about` tells the questions of one line from each other. Where it is `open_ended`
    words answer it, unless `refuses` says what is accepted instead of them. `missed`
    says of what was typed last that it answers nothing. The question goes,
    unanswered, where `gives_way` says that the next line begins with what was typed.
    """

    words: str
    keys: dict[str, tuple[str, str]]
    resting: str
    typed: str = ""
    open_ended: bool = False
    about: str = ""
    missed: str = ""
    gives_way: Callable[[str], str] | None = None
    refuses: Callable[[str], str] | None = None

    def shown(self) -> Content:
        """Give the question with its keys."""
        made = [sentence("[b]$words[/b]", words=self.words)]
        made += [
            together(sentence("[$mark][b]$key[/b][/] $answer", key=key, answer=label))
            for key, (label, _) in self.keys.items()
        ]
        rest = sentence("[$mark][b]Enter[/b][/] $rest", rest=self.resting)
        made.append(together(rest))
        if self.typed:
            made.append(sentence("› $typed", typed=self.typed))
        elif self.open_ended:
            made.append(sentence("[$quiet]or type it[/]"))
        if self.missed:
            made.append(sentence("[$alarm]$missed[/]", missed=self.missed))
        return Content("  ").join(made)

    def press(self, key: str, sign: str, behind: str = "") -> Answer:
        """Take one key; `behind` is what the key types that came right behind it.

        A figure with more of a number behind it is no answer: a caliper types so. Nor
        is one with a blank behind it: so begins a line that counts something. Nor is,
        where words answer too, a letter with another behind it.
        """
        more = sign.isdecimal() and goes_on(behind)
        more = more or (self.open_ended and sign.isalpha() and behind.isalpha())
        self.missed = ""
        if key == "escape":
            return Answer(dropped=True, waits=self._left())
        if key == "enter":
            return self._entered()
        if key == "backspace":
            self.typed = self.typed[:-1]
        elif sign and not more and self._answers(sign):
            return Answer(self.keys[sign.casefold()][1])
        elif sign and self.gives_way and (next_line := self._next_line(sign, more)):
            return Answer("", typed_on=next_line)
        elif sign:
            self.typed += sign
            if len(self.typed) == 1 and not self.open_ended:
                self.missed = no_answer(sign, self._keys_only())
        return Answer()

    def paste(self, words: str) -> Answer:
        """Take what was pasted: it answers once Enter says so, or is the next line."""
        next_line = self.gives_way(words) if self.gives_way and not self.typed else ""
        if next_line:
            return Answer("", typed_on=words)
        self.typed += words
        return Answer()

    def _answers(self, sign: str) -> bool:
        """Tell whether a sign is one of the keys, and not one of a word.

        One wrong sign says nothing: at a closed question a figure behind it answers.
        """
        stray = len(self.typed) == 1 and not self.open_ended and sign.isdecimal()
        return (not self.typed or stray) and sign.casefold() in self.keys

    def _next_line(self, sign: str, more: bool) -> str:  # noqa: FBT001
        """Give what the next line begins with; nothing where this begins none."""
        assert self.gives_way is not None
        if more and not self.typed:
            return sign
        return self.gives_way(self.typed + sign)

    def _entered(self) -> Answer:
        said = self.typed.strip()
        accepted = self.refused(said) if said else ""
        if not accepted:
            return Answer(said)
        self.typed = ""
        if len(said) == 1:
            self.missed = no_answer(said, accepted)
            return Answer()
        self.missed = no_answer(said, accepted, COMES)
        return Answer(waits=said)

    def _left(self) -> str:
        """Give what was typed and is no answer, when the question is dropped."""
        said = self.typed.strip()
        sentence_begun = len(said.split()) >= SENTENCE
        none = len(said) > 1 and (sentence_begun or bool(self.refused(said)))
        return said if none else ""

    def refused(self, said: str) -> str:
        """Say what is accepted instead of these words; nothing where they are."""
        if self.refuses is not None:
            return self.refuses(said)
        return "" if self.open_ended else self._keys_only()

    def _keys_only(self) -> str:
        return ", ".join((*self.keys, "Enter, Esc"))


def goes_on(sign: str) -> bool:
    """Tell whether what begins with a figure goes on with this sign."""
    return number_goes_on(sign) or sign == " "


def number_goes_on(sign: str) -> bool:
    """Tell whether a number goes on with this sign."""
    return sign.isdecimal() or sign in {".", ","}


def asked_keys(question: Question) -> tuple[tuple[str, str], ...]:
    """Give the keys that end a question, with what each then means."""
    said = question.typed.strip()
    taken = LET_WAIT if question.refused(said) else "take these words"
    enter = taken if said else question.resting
    return ("Enter", enter), ("Esc", "drop the question")


def whose_fault(fits: str = "") -> Question:
    """Ask whether another builder would meet this; `fits` says which answer when."""
    keys = {key: (label, blame.value) for key, (label, blame) in BLAMES.items()}
    words = f"{WOULD_MEET} ({fits})" if fits else WOULD_MEET
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
    keys = {"t": (f"{slip.value} as typed", AS_TYPED)}
    if slip.meant is not None:
        keys = {"m": (f"{slip.meant} was meant", AS_MEANT), **keys}
    return Question(slip.question, keys, "type it again", gives_way=begins_number)


def one_part(name: str, other: str) -> Question:
    """Ask of a part that is given the name of another whether they are one."""
    keys = {"o": (f"one part: {name} is {other} under a second name", ONE_PART)}
    words = f"“{other}” is a part already: are these one part?"
    return Question(words, keys, "type another name")


def once_more_of(steps: Sequence[str], build: str) -> Question:
    """Ask whether steps that are on record as done are to be logged a second time."""
    verb = "is" if len(steps) == 1 else "are"
    words = f"{' · '.join(steps)} {verb} on record as done on {build} already"
    return Question(
        words, {"l": ("log it again", "again")}, "leave it out, save the rest"
    )


def begins_words(typed: str) -> str:
    """Give what a line of words begins with: a figure alone may be a slip."""
    return "" if typed.isdecimal() else typed


def begins_number(typed: str) -> str:
    """Give what a line of a run begins with, be it its place or value.

    A lone sign before it was a slip; more of them are words.
    """
    sign = typed[-1:]
    begins = len(typed) <= 2 and not sign.isalpha() and not sign.isspace()
    return sign if begins else ""


def blame_of(words: str) -> Blame:
    """Give the answer as the record has it."""
    return Blame(words) if words else Blame.UNKNOWN


def about_line(doubt: Doubt, words: Vocabulary) -> Question:
    """Ask what is doubtful about a line; of a number, by letters."""
    signs = "mt"[-len(doubt.choices) :] if doubt.about == "slip" else "123456789"
    keys = {key: (one, one) for key, one in zip(signs, doubt.choices, strict=False)}
    return Question(
        doubt.question,
        keys,
        resting(doubt),
        open_ended=not closed(doubt),
        about="line",
        refuses=lambda said: unfit(doubt, said, words, keys),
    )
