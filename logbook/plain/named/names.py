"""Rows of words that can name a part: unknown ones, and known ones that go on a name.

“lens board”, “hood back plate”, “tip rack cover”: known words are told by the lists
of `[names]` in the word file.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import of_one

LEADS = frozenset({"article", "adjective", "ordinal"})
"""What may stand before a name."""
TOOLS = frozenset({"tool", "instrument"})
_NO_PLURAL = ("ss", "us", "is", "lens")
"""Endings with which a word is no plural: brass, bus, chassis, lens."""
_HISSING = ("ches", "shes", "sses", "boxes")
"""Endings of several things, of which one is two letters shorter: pouch, brush."""
_NO_PART = frozenset({"never_part", "tool", "instrument", "not_bench"})


def name_run(sentence: Sentence, start: int) -> list[int]:
    """Give the places of the words that together may name a part."""
    if start and sentence.tags(start - 1) & _NO_PART:
        return []
    names = sentence.lexicon.names
    at, places = start, list[int]()
    while (word := sentence.word(at)) is not None:
        following = sentence.word(at + 1)
        leads = not places and (
            word.low in names["leads"] or _noun_before(sentence, at)
        )
        leads = leads and (_can_follow(sentence, following) or _on_axis(sentence, at))
        if names_part(sentence, at) or leads:
            places.append(at)
        elif not places or not (
            _ends_name(sentence, at, places) or _between(sentence, at)
        ):
            break
        else:
            places.append(at)
        at += 1
    behind = sentence.word(places[-1] + 1) if places else None
    if behind is not None and behind.tags & TOOLS and behind.low not in names["leads"]:
        return []
    last = sentence.words[places[-1]].low if len(places) > 1 else ""
    form = last.endswith(("ed", "ing")) and last not in names["heads"]
    if form or (last and _says_what_it_does(sentence, places)):
        places.pop()
    if places and of_a_tool(sentence, places[-1] + 1):
        return []
    own = any(names_part(sentence, at) for at in places)
    return places if own or len(places) > 1 else []


def of_a_tool(sentence: Sentence, at: int) -> bool:
    """See “of the scale” behind its platter: what a tool or a room has is no part."""
    joined = sentence.word(at)
    if joined is None or joined.low.split(" ")[0] not in ("of", "in", "on", "from"):
        return False
    at += 1
    while sentence.tags(at) & LEADS:
        at += 1
    named = sentence.word(at)
    shop = "others_did" in sentence.tags(at) or "others_did" in sentence.tags(at - 1)
    tool = named is not None and named.name is None and bool(named.tags & TOOLS)
    return tool or shop


def _says_what_it_does(sentence: Sentence, places: Sequence[int]) -> bool:
    """See the jumps of “belt jumps a tooth”: no verb we know, and no part of a name."""
    names = sentence.lexicon.names
    before, last = (sentence.words[at].low for at in places[-2:])
    known = names["things"] | names["components"]
    unknown = _unknown(sentence.words[places[-1]])
    plural = unknown and last.endswith("s") and not last.endswith(_NO_PLURAL)
    listed = names["heads"] | known | names["no_plural"] | names["alone"]
    noun = last in listed or singular([last])[0] in listed
    return plural and not noun and singular([before])[0] in known


_NOUNS = frozenset(
    {
        "tool",
        "structure",
        "never_part",
        "instrument",
        "fastener",
        "channel_nouns",
        "material",
    }
)


def _noun_before(sentence: Sentence, at: int) -> bool:
    """Tell the spool of “spool holder”: a noun that is no part before one that is."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if word.sort is not Sort.WORD or " " in word.low or not word.tags & _NOUNS:
        return False
    if following is None:
        return False
    tools = "tool" in word.tags and _unknown(following)
    return tools or following.low in sentence.lexicon.names["heads"]


def _can_follow(sentence: Sentence, word: Word | None) -> bool:
    if word is None or not word.low.isalpha() or word.name is not None:
        return False
    return _unknown(word) or word.low in sentence.lexicon.names["heads"]


def _on_axis(sentence: Sentence, at: int) -> bool:
    """See the y of “y motor”, which names no motor by itself."""
    axis = sentence.words[at].low in AXES
    return axis and at + 1 < len(sentence.words) and is_component(sentence, at + 1)


def _between(sentence: Sentence, at: int) -> bool:
    """Tell the back of “hood back plate”, which goes on, from “hood back 3.2”."""
    following = sentence.word(at + 1)
    if sentence.words[at].low not in sentence.lexicon.names["sides"]:
        return False
    return following is not None and following.low in sentence.lexicon.names["heads"]


def _ends_name(sentence: Sentence, at: int, before: Sequence[int]) -> bool:
    """Tell whether a known word goes on a name: the board of “lens board”.

    A side goes on one only behind a word that begins one: drawer front.
    """
    word = sentence.words[at]
    names = sentence.lexicon.names
    if word.low in names["sides"] and not all(
        sentence.words[one].low in names["leads"] for one in before
    ):
        return False
    if word.sort is not Sort.WORD or word.name is not None:
        return False
    return word.low in names["heads"] or word.low in names["components"]


def names_part(sentence: Sentence, at: int) -> bool:
    """Tell whether a word can name a part by itself: unknown, or a gear, a leg."""
    word = sentence.words[at]
    names = sentence.lexicon.names
    alone = word.low in names["alone"] or word.low in names["components"]
    behind = sentence.word(at + 1)
    if behind is not None and behind.low in ("one", "ones") and not alone:
        return False  # The softer of “a softer one” tells which.
    return _unknown(word) or (alone and word.sort is Sort.WORD and word.name is None)


AXES = frozenset({"x", "y", "z"})
"""Letters that begin the name of what moves along an axis: y motor."""


def is_component(sentence: Sentence, at: int) -> bool:
    """Tell whether a word is of what is bought and built in: a motor, a belt."""
    return sentence.words[at].low in sentence.lexicon.names["components"]


ELECTRICAL = ("voltage", "current", "resistance")
"""What is measured at a point of a circuit."""


def is_thing(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell whether these words are the name of what is made or mounted whole.

    A tray sheet may be stock; a rail with so many volts is none of wood.
    """
    behind = sentence.word(run[-1] + 1)
    if behind is not None and "stock_form" in behind.tags:
        return False
    words = singular([sentence.words[at].low for at in run])
    name = " ".join(words)
    powered = any(word.dimension in ELECTRICAL for word in sentence.words)
    if powered and name not in sentence.lexicon.names["components"]:
        return False
    things = sentence.lexicon.names["things"]
    of_it = " ".join(words[:-1]) in things and words[-1] in _OF_THINGS
    return name in things or of_it


_OF_THINGS = frozenset(
    {"board", "panel", "box", "case", "cover", "holder", "mount", "bracket", "housing",
     "shroud", "guard", "runner"}
)  # fmt: skip
"""What is a thing by itself behind the name of one: dimmer board, fan bracket."""
_ABSTRACT = ("tion", "sion", "ness", "ment", "ity", "ance", "ence", "kage", "page")
"""How nouns end that are no things: shrinkage, deduction, flatness."""
_THINGS_TOO = ("station", "attachment", "extension", "section", "element", "partition")


_DONE_FROM = 5
"""A longer word that ends in ed says what was done, and is no noun: borrowed."""


def _unknown(word: Word) -> bool:
    if word.sort is not Sort.WORD or word.name is not None or word.corrected:
        return False
    plain = len(word.low) >= 3 and not word.low.endswith("ly")
    done = word.low.endswith("ed") and not word.low.endswith("bed")
    if done and len(word.low) > _DONE_FROM:
        return False
    if word.low.endswith(_ABSTRACT) and not word.low.endswith(_THINGS_TOO):
        return False
    return plain and (not word.tags or word.tags == {"channel_nouns"})


def after_leads(sentence: Sentence, start: int) -> int:
    """Give where a name may begin behind articles, counts and moments."""
    at = start
    leads = sentence.lexicon.names["leads"]
    while at < len(sentence.words) and (
        sentence.tags(at) & LEADS or sentence.words[at].sort in (Sort.WHEN, Sort.COUNT)
    ):
        word = sentence.words[at]
        if word.low in leads and _can_follow(sentence, sentence.word(at + 1)):
            break
        at += 1
    return at


def singular(words: list[str]) -> tuple[str, ...]:
    """Give the words of a name, the last of them as of one thing."""
    if words and of_one(words[-1]) != words[-1]:
        words[-1] = of_one(words[-1])
    elif words and words[-1].endswith(_HISSING):
        words[-1] = words[-1].removesuffix("es")
    elif words and words[-1].endswith("s") and not words[-1].endswith(_NO_PLURAL):
        words[-1] = words[-1].removesuffix("s")
    return tuple(words)
