"""What goes back to who sold or made it: tuners go back to the shop, wrong post size.

Not what only goes back to its place: the lid goes back on, the bar goes back to 178.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

_SENDS = frozenset(
    {"send", "sent", "sending", "sends", "ship", "shipped", "shipping", "post",
     "posted", "posting", "mail", "mailed", "mailing", "took", "taking", "taken",
     "brought", "bringing", "drove", "carried", "handed", "handing", "gave", "giving"}
)  # fmt: skip
_GOES = frozenset(
    {"goes", "go", "going", "went", "gone", "sent", "shipped", "posted", "mailed",
     "taken", "handed"}
)  # fmt: skip
_BEFORE_IT = frozenset(
    {"is", "are", "was", "were", "has", "have", "had", "be", "being", "been", "will",
     "must", "can", "to", "all", "both", "now", "straight", "right", "got", "so"}
)  # fmt: skip
_LED_BY = frozenset({"i", "we", "i'm", "we're", "am", "and", "so", "then", "just"})
_IT = frozenset({"it", "them", "that", "those", "they"})
_TO = frozenset({"to", "at", "with"})
_FOR = frozenset({"refund", "new", "exchange", "credit", "another", "swap"})
_TO_BE = ["to", "be", "returned"]
_VERBS = frozenset({"is", "measure:past", "plain_verb", "negative"})
_MOST = 5
_NOT_ORDERED = re.compile(
    r"\W*(?:the |it's |its )?wrong\b|.*\b(?:came|they sent|instead of|ordered)\b"
)
"""What is told behind what goes back, where another thing came than was ordered."""


@dataclass(frozen=True, slots=True)
class GivenBack:
    """The word that tells of it, and the places of what goes back, none for “it”."""

    at: int
    what: tuple[int, ...]


def given_back(sentence: Sentence) -> GivenBack | None:
    """Give where a line tells that something goes back, and what does."""
    for start, end in clauses(sentence):
        told = [
            (low, at)
            for at in range(start, end)
            for low in sentence.words[at].low.split(" ")
        ]
        for place, (low, at) in enumerate(told):
            back = low == "back" and _ends_there(sentence, told[place + 1 :])
            to_be = [low for low, _ in told[: place + 1]][-3:] == _TO_BE
            if not (back or to_be):
                continue
            to_whom = told[place + 1 : place + 2]
            bare = to_be or any(low in _TO for low, _ in to_whom)
            what = _what(sentence, told[:place], start, bare=bare)
            if what is not None:
                return GivenBack(told[0][1] if told[0][0] in _SENDS else at, what)
        if (what := _returned(sentence, told)) is not None:
            return GivenBack(start, what)
    return None


def given_back_at(sentence: Sentence) -> int | None:
    """Give where a line tells that something goes back, None where none does."""
    found = given_back(sentence)
    return found.at if found else None


def bought_so(sentence: Sentence) -> bool:
    """Tell whether what goes back was bought, and is no part: the wrong one came."""
    found = given_back(sentence)
    if found is None:
        return False
    words = [sentence.words[at] for at in found.what]
    if any(word.name is not None for word in words):
        return False
    if not words or "material" in words[-1].tags:
        return True
    whole = sentence.words[max(found.at, found.what[-1])].end
    behind = sentence.text[whole:].lower().partition(",")[2]
    return bool(_NOT_ORDERED.match(behind))


def _returned(
    sentence: Sentence, told: Sequence[tuple[str, int]]
) -> tuple[int, ...] | None:
    """Give the velvet of “returned the velvet, wrong red”."""
    led = len(told) > 1 and "article" in sentence.tags(told[1][1])
    if not led or told[0][0] not in ("returned", "returning"):
        return None
    behind = [at for _, at in told[2:]]
    end = next((at for at in behind if sentence.tags(at) & {"preposition"}), None)
    what = tuple(at for at in behind if end is None or at < end)
    plain = what and not any(_tells(sentence.words[at]) for at in what)
    return what if plain else None


def _ends_there(sentence: Sentence, behind: Sequence[tuple[str, int]]) -> bool:
    """Tell “back to the shop” and “back, wrong thread” from “back on”, “back to 3”."""
    if not behind:
        return True
    (first, at), rest = behind[0], behind[1:]
    if sentence.words[at].sort is Sort.WHEN:
        return True
    if first == "for":
        return bool(_FOR & {low for low, _ in rest[:3]})
    whom = [one for _, one in behind[:5] if sentence.words[one].name is None]
    away = any(sentence.tags(one) & {"outside_work", "others_did"} for one in whom)
    room = any(low in ("room", "shelf", "rack", "cupboard") for low, _ in rest)
    return first in _TO and away and not room


def _what(
    sentence: Sentence,
    before: Sequence[tuple[str, int]],
    start: int,
    *,
    bare: bool,
) -> tuple[int, ...] | None:
    """Give the places of what goes back; none for it, None where nothing does."""
    told = [*before]
    while told and (
        told[0][0] in _LED_BY or sentence.words[told[0][1]].sort is Sort.WHEN
    ):
        told.pop(0)
    if told and told[0][0] in _SENDS:
        told.pop(0)
        goes = True
    else:
        goes = False
        while told and (told[-1][0] in _GOES or told[-1][0] in _BEFORE_IT):
            goes = goes or told[-1][0] in _GOES
            told.pop()
        named = bool(told) and sentence.words[told[-1][1]].name is not None
        goes = goes or (bare and (named or len(told) < len(before)))
    places = dict.fromkeys(at for _, at in told)
    words = [sentence.words[at] for at in places]
    it = {low for low, _ in told}
    if not goes or len(places) > _MOST or any(map(_tells, words)):
        return None
    if it <= _IT:
        return () if start or it else None
    return tuple(at for at in places if "article" not in sentence.tags(at)) or None


def _tells(word: Word) -> bool:
    """Tell a word that is no part of the name of a thing."""
    if word.name is not None:
        return False
    denies = word.low in ("not", "no", "never")
    return denies or word.sort in (*FIGURES, Sort.MARK) or bool(word.tags & _VERBS)
