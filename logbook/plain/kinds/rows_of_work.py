"""Work told of a part in a row of verbs: primed, rubbed down and painted."""

from __future__ import annotations

from logbook.plain.kinds.verbs import adjectival
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named

_WORK = frozenset({"make:past", "close:past", "step"})
_TOO = frozenset({"take_back:past", "rework:past", "order_done:past"})
_JOINS = frozenset({",", "and", "then", "&", "+", "and then"})
_LED = frozenset(
    {"is", "was", "has been", "are", "were", "been", "now", "also", "first"}
)
_OTHERWISE = frozenset(
    {"scrap", "repair", "give_back", "negative", "negation", "too_bad", "because",
     "as_is", "decide", "hypothetical", "conditional", "guess", "defect", "order_done",
     "planned", "todo", "fit", "adverse", "off_strong"}
)  # fmt: skip
"""Words that make more of a row of verbs than work that was done."""
_MENDS = frozenset({"rework:past", "repair:past"})
_TWO = 2


def row_of_work(sentence: Sentence) -> int | None:
    """Give the first of several verbs of work that are told of one part.

    Some of them may tell of a failure by themselves: diffuser peeled, wiped and put
    in. Not where one of them is what is done with a piece, or anything else is told.
    """
    named = parts_named(sentence)
    if not named or any(word.tags & _OTHERWISE for word in sentence.words):
        return None
    before = sentence.words[: named[0]]
    if any("article" not in word.tags for word in before):
        return None
    at = named[0] + 1
    while sentence.word(at) is not None and sentence.words[at].low in _LED | {":"}:
        at += 1
    verbs = [
        at,
        *(one for one in range(at + 1, len(sentence.words)) if _led(sentence, one)),
    ]
    verbs = [one for one in verbs if _is_verb(sentence, one)]
    if not verbs or verbs[0] != at or not _all_told(sentence, verbs):
        return None
    plain = [one for one in verbs if sentence.tags(one) & _WORK]
    first = sentence.tags(verbs[0])
    mends = [one for one in verbs if sentence.tags(one) & _MENDS]
    reworked = bool(mends) and (verbs[0] in mends or len(verbs) == _TWO)
    if not sentence.tags(verbs[-1]) & (_WORK | _TOO):
        return None  # Stuck to the gate and tore.
    enough = 1 if first & _WORK else _TWO
    several = len(verbs) >= _TWO and len(plain) >= enough
    return at if several and not reworked else None


def _led(sentence: Sentence, at: int) -> bool:
    """Tell whether a word stands where the next verb of a row does."""
    return sentence.words[at - 1].low in _JOINS


def _is_verb(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    if word is None or word.sort is not Sort.WORD or word.name is not None:
        return False
    if word.tags & (_WORK | _TOO):
        return not adjectival(sentence, at)
    meant = {"fail:past", "on_purpose"} <= word.tags
    unheard = not word.tags and word.low.endswith("ed") and len(word.low) > _SHORT
    return meant or unheard


_SHORT = 4


def _all_told(sentence: Sentence, verbs: list[int]) -> bool:
    """Tell whether every joiner leads to a verb, and nothing else failed between."""
    for at in range(verbs[0], len(sentence.words)):
        word = sentence.words[at]
        if at not in verbs and word.tags & {"fail:past", "fail:now", "plain_verb"}:
            return False
        stop = word.low in (",", ";") and at + 1 < len(sentence.words)
        then = sentence.words[at + 1] if stop else None
        if then is not None and at + 1 not in verbs and then.low not in _JOINS:
            return False
    return True


_IS_DONE = frozenset({"is", "are", "has been", "have been"})
_BY_ITSELF = frozenset(
    {"bent", "twisted", "stuck", "stripped", "rounded", "moved", "pulled", "cut",
     "stretched", "turned", "shut", "closed", "broken", "lost", "locked", "bound"}
)  # fmt: skip
"""What a thing may be without anybody's doing: the lid is bent."""


def done_to_it(sentence: Sentence) -> int | None:
    """Give the verb of “bracket is painted on one side”, and no more is told."""
    first = 1 if "article" in sentence.tags(0) else 0
    named, led = sentence.word(first), sentence.word(first + 1)
    verb = sentence.word(first + 2)
    if named is None or named.name is None or led is None or verb is None:
        return None
    plain = "make:past" in verb.tags and verb.low not in _BY_ITSELF
    rest = sentence.words[first + 2 :]
    more = any(word.tags & (_OTHERWISE | {"fail"}) or word.low == "," for word in rest)
    told = led.low in _IS_DONE and plain and "fail" not in verb.tags
    return first + 2 if told and not more and len(rest) <= _SHORT_TAIL else None


_SHORT_TAIL = 5


_LEADS = frozenset({"i", "we", "have", "just", "finally", "also", "then", "now"})
_VAGUE = frozenset({"vague_verb", "fail", "use", "hold", "measure"})
_BETWEEN = frozenset(
    {
        "up",
        "down",
        "out",
        "off",
        "in",
        "back",
        "together",
        "over",
        "of",
        "and",
        "on",
        "into",
        "onto",
        "to",
        "from",
        "through",
        "with",
    }
)


def work_told_first(sentence: Sentence) -> int | None:
    """Give the verb of “shot-blasted both brackets”: no more than that is told."""
    at = 0
    while sentence.word(at) is not None and sentence.words[at].low in _LEADS:
        at += 1
    verb = sentence.word(at)
    if verb is None or not verb.tags & _WORK or verb.tags & _VAGUE:
        return None
    if any(tag.endswith(":base") for tag in verb.tags):
        return None  # Cut the bar last: may be still to do.
    sized = bool(sentence.sorts(*FIGURES)) or sentence.has("rework_sense")
    if sized and "take_back" in verb.tags:
        return None  # Filed the bar down to 178.3: a piece was put right.
    near = sentence.words[at + 1 : at + _FAR]
    led = near[:1] and (
        near[0].low in _BETWEEN
        or "article" in near[0].tags
        or near[0].sort in (Sort.COUNT, Sort.NUMBER)
    )
    if not led and sentence.sorts(*FIGURES):
        return None  # Tapered end of the collar 7.98: that is what was measured.
    part = next((one for one in near if not _leads(one)), None)
    if part is None or part.name is None:
        return None
    more = sentence.has("fail", "instead", "is", "measures", *_OTHERWISE)
    return None if more or "?" in sentence.text else at


_FAR = 7
_OF_A_PART = frozenset({"article", "adjective", "structure", "fastener", "material"})


def _leads(word: Word) -> bool:
    """Tell what may stand between a verb and its part: the two holes in the."""
    return word.name is None and (word.low in _BETWEEN or bool(word.tags & _OF_A_PART))
