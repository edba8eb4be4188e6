"""So many more of a thing that are to be made: cut 3 more crossbars, 2 spare gates."""

from __future__ import annotations

from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence

_MORE = frozenset({"more", "spare", "spares", "extra", "additional", "further"})
_LED_BY = frozenset({"i", "we", "i'll", "we'll", "will", "let's", "lets", "also", "to"})
_ALL = frozenset({"all", "up", "out", "off"})
_ENDS = frozenset({"preposition", "joiner", "because", "time:now", "is"})
_LONGEST = 3
_AT_ONCE = (
    "while ", "as long as ", "on one plate", "in one go", "at one go", "at once",
    "in one batch", "in one setup", "from the same ", "out of the same ", "from this ",
    "out of this ", "from the leftover ",
)  # fmt: skip
"""What tells that so many are to be made now, since now it can be done."""
_AHEAD = frozenset({"tonight", "tomorrow", "later"})
_WORK = frozenset({"coat", "layer", "turn", "passe", "pass", "cut", "time"})
"""What more of is work on a thing there is: mill 2 more passes."""
_NO_THING = frozenset(
    {"fastener", "structure", "defect", "fail", "material", "measures"}
)


def more_wanted(sentence: Sentence) -> tuple[int, list[int]] | None:
    """Give where a line asks for more of a thing, and where the thing is named.

    “Cut 3 more crossbars, 40 min” is done: a verb that has no other past is not read
    so where a time or a size stands in the line.
    """
    at = 0
    while at < len(sentence.words) - 2 and sentence.words[at].low in _LED_BY:
        at += 1
    tags = sentence.tags(at)
    verb = bool(tags & {"make:base", "close:base"}) and sentence.words[at].name is None
    count = at + 1 if verb else at
    while verb and count < len(sentence.words) and sentence.words[count].low in _ALL:
        count += 1
    if not _counts(sentence, count):
        return None
    thing = count + 1
    while thing < len(sentence.words) and sentence.words[thing].low in _MORE:
        thing += 1
    run = _noun(sentence, thing)
    if not run or sentence.words[run[-1]].low.removesuffix("s") in _WORK:
        return None
    more = thing > count + 1 or sentence.words[count].low == "another"
    behind = sentence.text[sentence.words[run[-1]].end :].strip(" ,").lower()
    more = more or behind.startswith("more than")
    if not verb:
        return (at, run) if more and _for_somebody(sentence, run) else None
    done_too = "make:past" in tags and at == 0
    at_once = behind.startswith(_AT_ONCE) and not done_too
    if not (more or at_once) or (done_too and _done_already(sentence, run)):
        return None
    return at, run


def _counts(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    if word is None or word.unit or "." in word.text:
        return False
    return word.low == "another" or word.whole is not None


def _noun(sentence: Sentence, start: int) -> list[int]:
    """Give the words of what is wanted, to the end of the clause or a preposition."""
    run = list[int]()
    for at in range(start, len(sentence.words)):
        word = sentence.words[at]
        ends = word.sort is not Sort.WORD or word.low in {*_MORE, *_AHEAD, "than"}
        if ends or (word.name is None and word.tags & _ENDS):
            break
        run.append(at)
    return run if len(run) <= _LONGEST else []


def _for_somebody(sentence: Sentence, run: list[int]) -> bool:
    """See “two more trowels for the fair”: no screws, no scratches, none left over."""
    led = sentence.word(run[-1] + 1)
    told = any(tag.endswith((":past", ":now")) or tag == "is"
               for word in sentence.words for tag in word.tags)  # fmt: skip
    for_it = led is not None and led.low == "for" and "article" in (
        sentence.tags(run[-1] + 2)
    )  # fmt: skip
    return for_it and not told and not sentence.tags(run[-1]) & _NO_THING


def _done_already(sentence: Sentence, run: list[int]) -> bool:
    """Tell whether the cut of “cut 3 more crossbars, 40 min” is a past."""
    last = sentence.words[run[-1]]
    if "structure" in last.tags and last.low not in sentence.lexicon.names["alone"]:
        return True
    return any(
        word.dimension == "time"
        or (word.sort in (Sort.WHEN, Sort.CLOCK) and word.low not in _AHEAD)
        or (word.sort in FIGURES and word.whole is None)
        for word in sentence.words
    )


def more_wanted_at(sentence: Sentence) -> int | None:
    """Give where a line asks for more of a thing, None where it does not."""
    found = more_wanted(sentence)
    return found[0] if found else None
