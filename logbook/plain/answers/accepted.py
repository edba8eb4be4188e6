"""Whether what was typed at a question can be its answer, or is a line of its own.

Who types on without looking up types the next line at a question. It must not become
the answer: its facts would go on record under another sentence, and its words nowhere.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.answers.which_pieces import how_many, numbers_of
from logbook.plain.lines import understand
from logbook.plain.understanding import Doubt, Kind, Verdict
from logbook.plain.when.moments import read_moment
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.spoken import spoken
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import parse_quantity
from logbook.units import is_unit

NOTE_ANSWERS = frozenset({"only a note", "one note", "to do", "still to do"})
"""Answers that make a note of the line."""
NOT_TAKING = "n"
"""Not to take the line, whatever a choice begins with: so it is at every question."""
_FIGURE = re.compile(r"(\d+)[.)]?")
_HOUR = re.compile(r"([01]?\d|2[0-3])(?::([0-5]\d))?")
_STOPS = re.compile(r"[;!?]|[,.:](?:\s|$)")
_LONGEST_NAME = 5
_LONGEST_SURE_NAME = 2
"""Words of a name that is believed though it reads like work: a folded bracket."""
_OF_SENTENCES = frozenset({
    "is", "was", "were", "are", "be", "it", "i", "we", "my", "they", "because", "since",
    "but", "so", "not", "no", "then", "again", "still", "should", "held", "holds",
    "did", "does", "do", "has", "had", "have", "to", "than", "now", "came", "after",
    "before", "enough", "too", "them", "this", "that", "with",
})  # fmt: skip
"""Words that stand in sentences and hardly ever in the name of a thing."""


def picked(choices: Sequence[str], said: str) -> str:
    """Give the choice that was meant by its figure or its beginning, else nothing."""
    low = said.strip().casefold()
    if low == NOT_TAKING:
        return ""
    if match := _FIGURE.fullmatch(low):
        at = int(match[1])
        return choices[at - 1] if 1 <= at <= len(choices) else ""
    begun = [one for one in choices if low and one.casefold().startswith(low)]
    alike = [one for one in begun if one.casefold() == low] or begun
    return alike[0] if len(alike) == 1 else ""


def closed(doubt: Doubt) -> bool:
    """Tell whether nothing but its choices answers a doubt."""
    return doubt.about not in _FREE


def resting(doubt: Doubt) -> str:
    """Say what a doubt that is not answered comes to."""
    return doubt.choices[-1] if doubt.spares else "keep as a note"


def unfit(
    doubt: Doubt, said: str, words: Vocabulary, keys: Collection[str] = ()
) -> str:
    """Say what is accepted instead, where these words are no answer to a doubt.

    `keys` are what its choices are answered by where those are no figures. Nothing
    where they may be one. One of the choices always is, by its figure, its
    words or how it begins; so is what makes a note of the line.
    """
    said = " ".join(said.split())
    if not said or said.casefold() in NOTE_ANSWERS or picked(doubt.choices, said):
        return ""
    fits, accepted = _FREE.get(doubt.about, (_never, ""))
    if fits(said, words):
        return ""
    figures = [str(at) for at, _ in enumerate(doubt.choices, 1)]
    return ", ".join(
        [*(keys or figures), *([accepted] if accepted else []), "or Enter"]
    )


def _tells(said: str, words: Vocabulary) -> bool:
    line = understand(said, words)
    return line.verdict is not Verdict.KEPT and line.kind is not Kind.NOTE


# -- what may be typed freely ----------------------------------------------------------


def _never(said: str, words: Vocabulary) -> bool:
    del said, words
    return False


def _number(said: str, words: Vocabulary) -> bool:
    try:
        parse_quantity(said, words.unit)
    except (BadInput, NeedsAnswer):
        return False
    return True


def _unit(said: str, words: Vocabulary) -> bool:
    del words
    return is_unit(said)


def _hour(said: str, words: Vocabulary) -> bool:
    del words
    return _HOUR.fullmatch(said) is not None


def _moment(said: str, words: Vocabulary) -> bool:
    return not isinstance(read_moment(said, words.now), str | None)


def _name(said: str, words: Vocabulary) -> bool:
    """Tell whether a thing can be called so: a few words, no figures alone, no verb."""
    known = {*words.parts, *words.proposed}
    if said.casefold() in {name.casefold() for name in known}:
        return True
    row = spoken(said)
    if _STOPS.search(said) or len(row) > _LONGEST_NAME:
        return False
    if not any(sign.isalpha() for sign in said) or len(said) == 1:
        return False
    if _OF_SENTENCES & {*row}:
        return False
    sure = len(row) <= _LONGEST_SURE_NAME or len(words.containing(row)) == 1
    sure = sure or _part_and_size(row, words)
    return sure or not _tells(said, words)


def _part_and_size(row: Sequence[str], words: Vocabulary) -> bool:
    """Tell whether a part is named with one of its sizes: heddle motor plate bore."""
    found = words.longest(row, 0) if row else None
    if found is None or found[1].role != "part" or found[0] == len(row):
        return False
    size = read_sentence(" ".join(row[found[0] :]), words).words
    return all(
        one.name or one.tags & {"measures", "structure", "place"} for one in size
    )


def _count(said: str, words: Vocabulary) -> bool:
    del words
    return how_many(said) > 0


def _pieces(said: str, words: Vocabulary) -> bool:
    del words
    return bool(numbers_of(said))


_FREE: dict[str, tuple[Callable[[str, Vocabulary], bool], str]] = {
    "part": (_name, "the name of a part"),
    "it": (_name, "the name of a part"),
    "what": (_name, "the name of a part or a size"),
    "size": (_name, "the name of a size"),
    "counted": (_name, "the name of a part"),
    "fastener": (_name, "a fastener"),
    "value": (_number, "a number"),
    "slip": (_number, "a number"),
    "unit": (_unit, "a unit"),
    "hour": (_hour, "an hour as 16 or 16:30"),
    "pieces": (_count, "how many"),
    "which pieces": (_pieces, "their names as leg-1 and leg-3"),
    "when": (_moment, "a time as “yesterday 16:00”"),
}
"""What a doubt takes besides its choices, by what it is about, and how that is told."""
