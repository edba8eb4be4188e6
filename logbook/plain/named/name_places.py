"""Where a line names a part, known or not: the thing measured, made, broken or meant.

Each gives the places of the words of the name, none where there is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.plain.named.machined import machined_part
from logbook.plain.named.names import LEADS, after_leads, is_component, name_run
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_WORK = frozenset(
    {
        "make:past", "close:past", "rework:past", "scrap:past", "take_back:past",
        "repair:past", "fail:past", "close:ing", "make:ing", "scrap:base",
        "rework:base", "repair:base",
    }
)  # fmt: skip
_TOLD = frozenset(
    {
        "fail", "negative", "off_strong", "scrap", "rework", "give_back", "fit",
        "as_is", "wanted", "defect", "withdrawn", "adverse", "too_bad", "order_done",
    }
)  # fmt: skip
_ABOUT = frozenset({"measures", "structure", "is", "off", "place", "fastener"})
_BEFELL = frozenset({"fail:past", "fail:now"})
_NO_FORM = frozenset({"fail:base", "fail:ing"})


def befell(tags: frozenset[str]) -> bool:
    """Tell whether a word says what happened to a thing: cracked, came apart."""
    return bool(tags & _BEFELL) or ("fail" in tags and not tags & _NO_FORM)


_DONE_TO = frozenset({"make:past", "close:past", "take_back:past"})

YOUNG = 8
"""A project with fewer parts than this still meets its parts for the first time."""


def is_young(sentence: Sentence) -> bool:
    """Tell whether the project has few parts yet."""
    return len(sentence.vocabulary.parts) < YOUNG


_IN_PASSING = frozenset({"after", "before", "while"})


def in_passing(sentence: Sentence, at: int) -> bool:
    """See the lamp of “closed the channel after testing the lamp”: told by the way."""
    verb = at - 1
    while verb > 1 and sentence.tags(verb) & LEADS:
        verb -= 1
    going_on = any(tag.endswith(":ing") for tag in sentence.tags(verb))
    led = sentence.words[verb - 1].low in _IN_PASSING if verb > 1 else False
    return going_on and led


def subject(sentence: Sentence) -> list[int]:
    """Give the name that the line begins with and tells something of."""
    run = name_run(sentence, after_leads(sentence, after_when(sentence)))
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
    if _of_a_measure(sentence, run, following):
        return []
    return run if _told_of(sentence, at, run) else []


def _of_a_measure(sentence: Sentence, run: list[int], following: Word) -> bool:
    """See the upright of “upright spacing 181”: it only says which spacing.

    A project that still meets its parts takes it for one of them.
    """
    led = run[0] > 0 and "article" in sentence.tags(run[0] - 1)
    if is_component(sentence, run[-1]) and sentence.has("wanted"):
        return False  # Belt tension 38, should be 40: a belt is off.
    measured = "measures" in following.tags and following.name is None
    measured = measured and following.low != "weighs"
    several = sentence.words[run[-1]].low.endswith("s")  # Uprights lean: they do.
    return measured and not led and not several and not is_young(sentence)


_SIDES = 3
_HOW = frozenset({"spot", "tack", "stick", "plug", "hot", "cold"})


def _told_of(sentence: Sentence, at: int, run: Sequence[int]) -> bool:
    """Tell whether what follows the name at `at` is told of a thing."""
    following = sentence.words[at]
    figure = following.sort in (Sort.NUMBER, Sort.SIZE)
    other = following.dimension not in ("", "length")
    block = len(following.amounts) == _SIDES  # Shelf 600 x 250 x 18: a thing's size.
    one = len(run) == 1 or is_component(sentence, run[-1])
    if figure and (following.has_decimals or block or (other and one)):
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


def worked_on(sentence: Sentence) -> list[int]:
    """Give the name of what was worked on: cracked the knob, sawed the column."""
    first = after_when(sentence)
    while sentence.tags(first) & {"generic"} and sentence.word(first + 1) is not None:
        if sentence.words[first].low not in ("i", "we"):
            break
        first += 1
    how, joined = sentence.word(first), sentence.tags(first + 1) & _DONE_TO
    if how and joined and ("adjective" in how.tags or how.low in _HOW):
        first += 1  # Silver soldered the channel closed, spot welded it shut.
    while _another_verb(sentence, first):
        first += 2
    if machined := machined_part(sentence, first):
        return machined
    tags = sentence.tags(first)
    leaves = bool(tags & {"decide", "step"}) and "article" in sentence.tags(first + 1)
    thrown = "scrap" in tags
    if not (tags & _WORK or leaves or thrown) or _too_vague(sentence, first):
        return []
    begins = first + (2 if _goes_with_it(sentence, first + 1) else 1)
    start = after_leads(sentence, begins)
    led = start > begins and bool(sentence.tags(begins) & LEADS)
    run = name_run(sentence, start)
    led = led or (bool(run) and "shut" in sentence.tags(run[-1] + 1))
    going_on = any(tag.endswith(":ing") for tag in tags)
    if not run or not (led or (is_young(sentence) and not going_on)):
        return []
    following = sentence.word(run[-1] + 1)
    if following is not None and following.tags & {"material"}:
        return []
    knurled = not led and following is not None and bool(following.tags & _TOLD)
    return [] if knurled else run


def _goes_with_it(sentence: Sentence, at: int) -> bool:
    """See the up of “sealed up the duct”, which goes with the verb."""
    word = sentence.word(at)
    goes = word is not None and word.low in ("up", "down", "off", "in", "together")
    return goes and "article" in sentence.tags(at + 1)


def _another_verb(sentence: Sentence, at: int) -> bool:
    """See the second verb of “sanded and waxed the board”."""
    joined = sentence.word(at + 1)
    if joined is None or joined.low not in ("and", "then", "&"):
        return False
    return bool(sentence.tags(at + 2) & _WORK)


def _too_vague(sentence: Sentence, at: int) -> bool:
    plain = sentence.words[at].low in (
        "fitted", "bored", "leave", "keep", "put", "made", "built", "turned", "closed",
    )  # fmt: skip
    led = "article" in sentence.tags(at + 1) or _goes_with_it(sentence, at + 1)
    return "vague_verb" in sentence.tags(at) and not (plain and led)


def after_when(sentence: Sentence) -> int:
    """Give where the line goes on behind when it was and which piece: today, bar 2."""
    at = 0
    while at < len(sentence.words) and (
        sentence.words[at].sort in (Sort.WHEN, Sort.CLOCK)
        or sentence.words[at].low in (",", ":")
        or (sentence.words[at].sort is Sort.LABEL and sentence.words[at].name is None)
        or sentence.tags(at) & {"absent", "absent_of_size"}
    ):
        at += 1
    return at


_CHOSEN = frozenset({"decide", "instead", "use:past", "imperative_use", "revision"})


def meant_for(sentence: Sentence) -> list[int]:
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
        run = name_run(sentence, after_leads(sentence, at + 1)) if told else []
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


_ONLY_LIKE = frozenset({"like", "with", "without", "than"})


_ONTO = frozenset({"on", "onto", "into", "from", "of"})


def elsewhere(sentence: Sentence) -> Iterator[list[int]]:
    """Go through the nouns with an article that may name a part, the first first."""
    seen = 0
    for at, word in enumerate(sentence.words):
        bare = word.low in _ONTO and "channel_nouns" in sentence.tags(at + 1)
        if at < seen or not ("article" in word.tags or bare):
            continue
        run = name_run(sentence, after_leads(sentence, at + 1))
        if run and not (_no_part_there(sentence, at, run) or only_where(sentence, at)):
            seen = run[-1]
            yield run
    for start, end in clauses(sentence):
        if start and any("cause_hint" in one.tags for one in sentence.words[start:end]):
            continue  # Belt loose: how it came, no part that it is about.
        run = name_run(sentence, after_leads(sentence, start))
        behind = sentence.word(run[-1] + 1) if run else None
        if behind is not None and _of_a_measure(sentence, run, behind):
            continue
        if run:
            yield run


def _no_part_there(sentence: Sentence, at: int, run: Sequence[int]) -> bool:
    """See a finish like a washboard, the frost, who says so, the pivot of a bolt."""
    behind = sentence.word(run[-1] + 1)
    forced = sentence.words[run[-1]].low in sentence.lexicon.clauses["forces"]
    if forced or (at and sentence.words[at - 1].low in _ONLY_LIKE):
        return True
    if behind is None:
        return False
    bolt = "fastener" in behind.tags and not is_young(sentence)
    seller = behind.tags & {"others_did", "outside_work"}  # The barrel dealer.
    return bolt or bool(seller) or behind.low in ("says", "said", "thinks", "wants")


def only_where(sentence: Sentence, at: int) -> bool:
    """See the switch of “solder joint broke at the switch”: where, and no part."""
    where = at > 0 and "locative" in sentence.tags(at - 1)
    told = {"structure", "fastener"}
    first = next((word for word in sentence.words if "fail" in word.tags), None)
    broke = first is not None and first.start < sentence.words[at].start
    return (
        where and broke and any(word.tags & told for word in sentence.words[: at - 1])
    )
