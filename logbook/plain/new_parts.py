"""The unknown noun of a line that can only be a part nobody has named yet.

Only sure places count: the subject of a failure or a size, the object of work,
what a size or a choice is for. A name is taken whole, never one word of it; what
stands in a side clause is at most asked about.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.plain.clauses import clauses
from logbook.plain.figures import Sort, Word
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import Doubt
from logbook.plain.vocabulary import spoken

_WORK = frozenset(
    {
        "make:past", "close:past", "rework:past", "scrap:past", "take_back:past",
        "repair:past", "fail:past", "close:ing", "make:ing", "scrap:base",
        "rework:base", "repair:base",
    }
)  # fmt: skip
_LEADS = frozenset({"article", "adjective", "ordinal"})
_NO_PLURAL = frozenset({"ss", "us", "is", "ns"})
"""Endings before which a final s is no plural: brass, bus, chassis, lens."""
_TOLD = frozenset(
    {
        "fail", "negative", "off_strong", "scrap", "rework", "give_back", "fit",
        "as_is", "wanted", "defect", "withdrawn", "adverse", "too_bad", "order_done",
    }
)  # fmt: skip
_ABOUT = frozenset({"measures", "structure", "is", "off", "place", "fastener"})
_NO_PART = frozenset({"never_part", "tool", "instrument", "not_bench"})
_TOOLS = frozenset({"tool", "instrument"})
_DONE_TO = frozenset({"make:past", "close:past", "take_back:past"})
_LONGEST_NAME = 4
_MOST_NAMES = 5

YOUNG = 8
"""A project with fewer parts than this still meets its parts for the first time."""


@dataclass(frozen=True, slots=True)
class Unnamed:
    """The words that name a part, the part they mean, and the doubt about it.

    `part` is empty where the words are the whole name of a new part; `placed` where
    they stand in a place that names a part.
    """

    words: tuple[str, ...]
    part: str = ""
    doubt: Doubt | None = None
    placed: bool = False


def is_young(sentence: Sentence) -> bool:
    """Tell whether the project has few parts yet."""
    return len(sentence.vocabulary.parts) < YOUNG


def find_new_part(sentence: Sentence) -> Unnamed | None:
    """Give what names a part that is not known yet, None where nothing does."""
    named = [
        at
        for at, word in enumerate(sentence.words)
        if word.name is not None and word.name.role in ("part", "piece")
    ]
    if named:
        return _longer_name(sentence, named)
    if sentence.named("characteristic"):
        return None
    run = _subject(sentence) or _object(sentence) or _meant_for(sentence)
    if run:
        found = _meant(sentence, run, sure=_sure_name(sentence, run))
        return replace(found, placed=True)
    for run in _elsewhere(sentence):
        return _meant(sentence, run, sure=False)
    return None


def _meant(sentence: Sentence, run: Sequence[int], *, sure: bool) -> Unnamed:
    """Tell the known parts whose longer names these words may be from a new one."""
    words = _singular([sentence.words[at].low for at in run])
    if sentence.words[run[-1]].low in sentence.lexicon.names["no_plural"]:
        words = tuple(sentence.words[at].low for at in run)
    longer = sentence.vocabulary.containing(words)
    if len(longer) == 1 and len(words) > 1:
        return Unnamed(words, longer[0])
    longer = longer or sentence.vocabulary.abbreviated(words)
    called = (" ".join(words), *_shorter(sentence, run))
    if longer or not sure:
        return Unnamed(words, "", which_part((*longer[:_MOST_NAMES], *called)))
    return Unnamed(words)


NO_PART = "no part"
"""The answer that a line is about no part."""


def which_part(names: Sequence[str]) -> Doubt:
    """Ask which part is meant, once."""
    return Doubt("part", "which part?", (*names, NO_PART))


def _shorter(sentence: Sentence, run: Sequence[int]) -> tuple[str, ...]:
    """Give the part of a name that may be all of it: “upright” of “left upright”."""
    words = [sentence.words[at].low for at in run]
    names = sentence.lexicon.names
    if len(run) == 2 and words[0] in names["sides"]:
        return (" ".join(_singular(words[1:])),)
    plural = words[-1].endswith("s") and words[-1].removesuffix("s") in names["heads"]
    if len(run) > 2 and plural and words[-2] in names["heads"]:
        return (" ".join(words[:-1]),)
    return ()


def _sure_name(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell whether these words are surely a name, and the whole of it."""
    if len(run) > _LONGEST_NAME or _shorter(sentence, run):
        return False
    components = sentence.lexicon.names["components"]
    heads = sentence.lexicon.names["heads"]
    first, last = sentence.words[run[0]], sentence.words[run[-1]]
    if len(run) > 1 and last.low in heads and not last.tags:
        return True
    if first.tags & _TOOLS and first.low not in sentence.lexicon.names["leads"]:
        return False
    return any(
        _names(sentence, at) and sentence.words[at].low not in components for at in run
    )


def _longer_name(sentence: Sentence, named: list[int]) -> Unnamed | None:
    """Doubt a known part whose name goes on: “lamp bracket” with only lamp known."""
    heads = sentence.lexicon.names["heads"]
    for at in named:
        word, following = sentence.words[at], sentence.word(at + 1)
        alike = sentence.vocabulary.alike(word.name.thing) if word.name else ()
        if len(alike) > 1:
            return Unnamed(spoken(word.text), alike[0], which_part(alike))
        if following is None or following.low not in heads or following.tags:
            continue
        if word.name is None or word.name.role != "part" or word.low.endswith("'s"):
            continue
        last = at + 1
        while sentence.tags(last + 1) == frozenset() and _goes_on(sentence, last + 1):
            last += 1
        words = _singular([sentence.words[one].low for one in range(at, last + 1)])
        names = (*sentence.vocabulary.containing(words), " ".join(words))
        doubt = which_part((*names[:_MOST_NAMES], word.name.thing))
        return Unnamed(words, "", doubt)
    return None


def _goes_on(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is not None and word.low in sentence.lexicon.names["heads"]


# -- a row of words that can be a name ---------------------------------------------


def _run(sentence: Sentence, start: int) -> list[int]:
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
        if _names(sentence, at) or (leads and _can_follow(sentence, following)):
            places.append(at)
        elif not places or not (
            _ends_name(sentence, at, places) or _between(sentence, at)
        ):
            break
        else:
            places.append(at)
        at += 1
    behind = sentence.word(places[-1] + 1) if places else None
    if behind is not None and behind.tags & _TOOLS and behind.low not in names["leads"]:
        return []
    last = sentence.words[places[-1]].low if len(places) > 1 else ""
    if last.endswith(("ed", "ing")) and last not in names["heads"]:
        places.pop()
    own = any(_names(sentence, at) for at in places)
    return places if own or len(places) > 1 else []


_NOUNS = frozenset(
    {"tool", "structure", "never_part", "instrument", "fastener", "channel_nouns"}
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


def _names(sentence: Sentence, at: int) -> bool:
    """Tell whether a word can name a part by itself: unknown, or a gear, a leg."""
    word = sentence.words[at]
    names = sentence.lexicon.names
    alone = word.low in names["alone"] or word.low in names["components"]
    return _unknown(word) or (alone and word.sort is Sort.WORD and word.name is None)


def _unknown(word: Word) -> bool:
    if word.sort is not Sort.WORD or word.name is not None or word.corrected:
        return False
    plain = len(word.low) >= 3 and not word.low.endswith("ly")
    return plain and (not word.tags or word.tags == {"channel_nouns"})


def _after_leads(sentence: Sentence, start: int) -> int:
    at = start
    leads = sentence.lexicon.names["leads"]
    while at < len(sentence.words) and (
        sentence.tags(at) & _LEADS or sentence.words[at].sort in (Sort.WHEN, Sort.COUNT)
    ):
        word = sentence.words[at]
        if word.low in leads and _can_follow(sentence, sentence.word(at + 1)):
            break
        at += 1
    return at


# -- where a name is sure to be one ------------------------------------------------


def _subject(sentence: Sentence) -> list[int]:
    run = _run(sentence, _after_leads(sentence, _after_when(sentence)))
    if not run:
        return []
    at = run[-1] + 1
    following = sentence.word(at)
    while following is not None and (
        following.low in (":", "=", "-") or "plain_verb" in following.tags
    ):
        at += 1
        following = sentence.word(at)
    if following is None or "material" in following.tags:
        return []
    return run if _told_of(sentence, at, len(run)) else []


def _told_of(sentence: Sentence, at: int, words: int) -> bool:
    """Tell whether what follows the name at `at` is told of a thing."""
    following = sentence.words[at]
    figure = following.sort in (Sort.NUMBER, Sort.SIZE)
    other = following.dimension not in ("", "length")
    if figure and (following.has_decimals or (other and words == 1)):
        return True
    if following.tags & _TOLD and following.sort is Sort.WORD:
        return True
    if figure:
        return is_young(sentence)
    if following.tags & _DONE_TO and not following.tags & _ABOUT:
        return _nothing_done(sentence, at + 1)
    if sentence.has("instead") and "preposition" in following.tags:
        return True
    about = following.tags & _ABOUT or following.sort is Sort.LABEL
    return bool(about) and any(
        word.sort in (Sort.NUMBER, Sort.SIZE) or word.tags & _TOLD
        for word in sentence.words[at:]
    )


def _nothing_done(sentence: Sentence, at: int) -> bool:
    """Tell “base folded at 3” from “neighbour cut the bar”, where something is cut."""
    word = sentence.word(at)
    return word is None or not (
        word.name is not None
        or word.tags & {"article", "structure", "fastener", "material"}
        or (not word.tags and word.sort is Sort.WORD)
    )


def _object(sentence: Sentence) -> list[int]:
    first = _after_when(sentence)
    while sentence.tags(first) & {"generic"} and sentence.word(first + 1) is not None:
        if sentence.words[first].low not in ("i", "we"):
            break
        first += 1
    first = _inner_verb(sentence, first)
    while _another_verb(sentence, first):
        first += 2
    tags = sentence.tags(first)
    leaves = bool(tags & {"decide", "step"}) and "article" in sentence.tags(first + 1)
    thrown = "scrap" in tags
    if not (tags & _WORK or leaves or thrown) or _too_vague(sentence, first):
        return []
    start = _after_leads(sentence, first + 1)
    led = start > first + 1 and bool(sentence.tags(first + 1) & _LEADS)
    run = _run(sentence, start)
    going_on = any(tag.endswith(":ing") for tag in tags)
    if not run or not (led or (is_young(sentence) and not going_on)):
        return []
    following = sentence.word(run[-1] + 1)
    if following is not None and following.tags & {"material"}:
        return []
    knurled = not led and following is not None and bool(following.tags & _TOLD)
    return [] if knurled or _may_go_on(following) else run


def _may_go_on(word: Word | None) -> bool:
    """Tell the slide of “made the cross slide”, which is a verb in other places."""
    if word is None or word.sort is not Sort.WORD:
        return False
    if word.tags & {"preposition", "joiner", "structure", "fastener", "shut"}:
        return False
    return "able" in word.tags or any(tag.endswith(":base") for tag in word.tags)


def _another_verb(sentence: Sentence, at: int) -> bool:
    """See the second verb of “sanded and waxed the board”."""
    joined = sentence.word(at + 1)
    if joined is None or joined.low not in ("and", "then", "&"):
        return False
    return bool(sentence.tags(at + 2) & _WORK)


def _inner_verb(sentence: Sentence, first: int) -> int:
    """Give the verb that a choice is about: the make of “decided to make the lid”."""
    for at in (first + 1, first + 2):
        if "decide" not in sentence.tags(first):
            break
        if sentence.tags(at) & {"make:base", "close:base", "use:base"}:
            return at
    return first


def _too_vague(sentence: Sentence, at: int) -> bool:
    plain = sentence.words[at].low in (
        "fitted", "bored", "leave", "keep", "put", "made", "built", "turned",
    )  # fmt: skip
    led = "article" in sentence.tags(at + 1)
    return "vague_verb" in sentence.tags(at) and not (plain and led)


def _after_when(sentence: Sentence) -> int:
    at = 0
    while at < len(sentence.words) and (
        sentence.words[at].sort in (Sort.WHEN, Sort.CLOCK)
        or sentence.words[at].low in (",", ":")
        or (sentence.words[at].sort is Sort.LABEL and sentence.words[at].name is None)
        or "absent" in sentence.tags(at)
    ):
        at += 1
    return at


_CHOSEN = frozenset({"decide", "instead", "use:past", "imperative_use", "revision"})


def _meant_for(sentence: Sentence) -> list[int]:
    """Give the name behind “for the” of a choice, or behind “holes in the”."""
    chosen = sentence.has(*_CHOSEN)
    work = sentence.has(*_WORK)
    for at in _main_clause(sentence):
        if sentence.words[at].low not in sentence.lexicon.names["part_after"] or not at:
            continue
        before = sentence.tags(at - 1)
        of = bool(before & {"structure", "fastener", "measures"})
        threaded = work and sentence.words[at - 1].sort is Sort.THREAD
        told = chosen or of or threaded or "off_strong" in before
        led = bool(sentence.tags(at + 1) & {"article"})
        run = _run(sentence, _after_leads(sentence, at + 1)) if told else []
        if run and (led or (of and _ends_here(sentence, run[-1] + 1))):
            return run
    return []


def _ends_here(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is None or word.sort is not Sort.WORD or bool(word.tags & _TOLD)


def _main_clause(sentence: Sentence) -> range:
    for at, word in enumerate(sentence.words):
        if word.low in (",", ";") or word.tags & {"because", "hypothetical"}:
            return range(at)
    return range(len(sentence.words))


def _elsewhere(sentence: Sentence) -> Iterator[list[int]]:
    """Go through the nouns with an article that may name a part, the first first."""
    seen = 0
    for at in range(len(sentence.words)):
        if at < seen or "article" not in sentence.tags(at):
            continue
        if run := _run(sentence, _after_leads(sentence, at + 1)):
            seen = run[-1]
            yield run
    for start, _ in clauses(sentence):
        if run := _run(sentence, _after_leads(sentence, start)):
            yield run


def _singular(words: list[str]) -> tuple[str, ...]:
    if words and words[-1].endswith("s") and words[-1][-2:] not in _NO_PLURAL:
        words[-1] = words[-1].removesuffix("s")
    return tuple(words)


def find_next_layer(sentence: Sentence) -> tuple[str, ...]:
    """Give the words of one more unknown part that a fastener goes through."""
    fastened = sentence.sorts(Sort.THREAD) or sentence.has("fastener")
    if not fastened or not is_young(sentence):
        return ()
    if not sentence.has("through_sure", "hold"):
        return ()
    for at in sentence.tagged("joiner", "through"):
        run = _run(sentence, _after_leads(sentence, at + 1))
        words = _singular([sentence.words[one].low for one in run])
        if run and not sentence.vocabulary.containing(words):
            return words
    return ()
