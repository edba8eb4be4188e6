"""The unknown noun of a line that can only be a part nobody has named yet.

Only sure places count: the subject of a failure or a size, the object of work,
what a size or a choice is for. A name is taken whole, never one word of it; what
stands in a side clause is at most asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from logbook.plain.named.name_places import (
    elsewhere,
    in_passing,
    is_young,
    meant_for,
    subject,
    worked_on,
)
from logbook.plain.named.names import (
    TOOLS,
    after_leads,
    is_thing,
    name_run,
    names_part,
    singular,
)
from logbook.plain.named.things import placed, thing_told_of
from logbook.plain.understanding import NO_PART, Doubt
from logbook.plain.words.figures import Sort
from logbook.plain.words.machine_set import runs_a_fan, sets_a_machine
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken

_LONGEST_NAME = 4
_MOST_CHOICES = 5
"""So many answers are offered at most; any other name can be typed."""


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


def find_new_part(sentence: Sentence) -> Unnamed | None:
    """Give what names a part that is not known yet, None where nothing does."""
    if sets_a_machine(sentence) or runs_a_fan(sentence):
        return None
    named = [
        at
        for at, word in enumerate(sentence.words)
        if word.name is not None
        and word.name.role in ("part", "piece")
        and not in_passing(sentence, at)
    ]
    if named:
        return _longer_name(sentence, named)
    by_end = _sure_end(sentence)
    if by_end is not None:
        return by_end
    if sentence.named("characteristic"):
        return None
    known = _middle_of_a_name(sentence) or _end_of_a_name(sentence, range(1))
    if known is not None:
        return known
    told = subject(sentence)
    run = told or worked_on(sentence) or meant_for(sentence)
    if run:
        # A project that has its parts hardly meets one more by the way.
        holds = "channel_nouns" in sentence.tags(run[-1]) or is_thing(sentence, run)
        met = bool(told) or holds or is_young(sentence)
        found = _meant(sentence, run, sure=met and _sure_name(sentence, run))
        return replace(found, placed=True)
    known = _end_of_a_name(sentence, range(len(sentence.words)))
    if known is not None:
        return known
    thing = thing_told_of(sentence)
    if thing:
        return replace(_meant(sentence, thing, sure=True), placed=True)
    for run in elsewhere(sentence):
        sure = is_thing(sentence, run) and placed(sentence, run)
        return _meant(sentence, run, sure=sure)
    return None


def _middle_of_a_name(sentence: Sentence) -> Unnamed | None:
    """Know a part by words that only its name has: upper leg, of the left side."""
    words = sentence.words
    for size in range(_LONGEST_NAME, 1, -1):
        for at in range(len(words) - size + 1):
            row = words[at : at + size]
            if any(one.sort is not Sort.WORD or one.name is not None for one in row):
                continue
            lows = tuple(one.low for one in row)
            longer = sentence.vocabulary.containing(lows)
            if len(longer) == 1:
                return Unnamed(lows, longer[0])
    return None


def _sure_end(sentence: Sentence) -> Unnamed | None:
    """Know the one part whose longer name ends so: foot, of “quadruped foot”.

    Only words that can name a part by themselves do; behind a number a foot is a unit.
    """
    for at, word in enumerate(sentence.words):
        before = sentence.word(at - 1) if at else None
        measured = before is not None and before.sort in (Sort.NUMBER, Sort.COUNT)
        if word.low not in sentence.lexicon.names["alone"] or measured:
            continue
        [one] = singular([word.low])
        longer = sentence.vocabulary.containing((one,))
        ends = [name for name in longer if _is_headed(sentence, name, one)]
        run = name_run(sentence, at - 1) if at else []
        if len(longer) == len(ends) == 1 and len(run) < 2:
            return Unnamed((word.low,), longer[0])
    return None


def _is_headed(sentence: Sentence, name: str, word: str) -> bool:
    """Tell whether a name is of a thing so called: upper leg left side."""
    words = spoken(name)
    behind = words[words.index(word) + 1 :] if word in words else ("",)
    sides = sentence.lexicon.names["sides"]
    return all(one in sides or one.isdigit() for one in behind)


def _end_of_a_name(sentence: Sentence, places: range) -> Unnamed | None:
    """Ask about the foot that may be the one part whose name ends so."""
    for at in places:
        word = sentence.words[at]
        led = at == 0 or bool(sentence.tags(at - 1) & {"article"})
        done = bool(at and {"make:past", "close:past"} & sentence.tags(at - 1))
        if not (led or done) or "structure" not in word.tags or word.name is not None:
            continue
        if two := _longer_known(sentence, at):
            return two
        longer = sentence.vocabulary.containing((word.low,))
        ends = [name for name in longer if spoken(name)[-1:] == (word.low,)]
        if ends:
            return Unnamed((word.low,), "", which_part(ends), placed=True)
    return None


def _longer_known(sentence: Sentence, at: int) -> Unnamed | None:
    """See a known name go on: the wall track is one of the tracks, and no wall."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if following is None or following.sort is not Sort.WORD or following.name:
        return None
    words = singular([word.low, following.low])
    longer = sentence.vocabulary.containing(words)
    if not longer:
        return None
    said = (word.low, following.low)
    one = longer[0] if len(longer) == 1 else ""
    return Unnamed(said, one, None if one else which_part(longer), placed=True)


def _meant(sentence: Sentence, run: Sequence[int], *, sure: bool) -> Unnamed:
    """Tell the known parts whose longer names these words may be from a new one."""
    words = singular([sentence.words[at].low for at in run])
    if sentence.words[run[-1]].low in sentence.lexicon.names["no_plural"]:
        words = tuple(sentence.words[at].low for at in run)
    longer = sentence.vocabulary.containing(words)
    if len(longer) == 1 and len(words) > 1:
        return Unnamed(words, longer[0])
    longer = longer or sentence.vocabulary.abbreviated(words)
    longer = (
        longer or sentence.vocabulary.having({*words}) if len(words) > 1 else longer
    )
    longer = longer or sentence.vocabulary.compounded(words[-1])
    longer = longer or sentence.vocabulary.misspelt(words)
    called = (" ".join(words), *_shorter(sentence, run))
    if longer or not sure:
        return Unnamed(words, "", which_part(longer, called))
    return Unnamed(words)


def which_part(known: Sequence[str], called: Sequence[str] = ()) -> Doubt:
    """Ask which part is meant: the nearest known ones, what it is called, or none."""
    own = tuple(dict.fromkeys(called))
    near = [name for name in known if name not in own]
    choices = (*near[: _MOST_CHOICES - 1 - len(own)], *own, NO_PART)
    return Doubt("part", "which part?", choices)


def _shorter(sentence: Sentence, run: Sequence[int]) -> tuple[str, ...]:
    """Give the part of a name that may be all of it: “upright” of “left upright”."""
    words = [sentence.words[at].low for at in run]
    names = sentence.lexicon.names
    if len(run) == 2 and words[0] in names["sides"]:
        return (" ".join(singular(words[1:])),)
    plural = words[-1].endswith("s") and words[-1].removesuffix("s") in names["heads"]
    if len(run) > 2 and plural and words[-2] in names["heads"]:
        return (" ".join(words[:-1]),)
    return ()


_FEATURES = frozenset({"hole", "holes", "wire", "wires", "screw", "screws", "slots"})


def _sure_name(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell whether these words are surely a name, and the whole of it."""
    if len(run) > _LONGEST_NAME or _shorter(sentence, run):
        return False
    components = sentence.lexicon.names["components"]
    heads = sentence.lexicon.names["heads"]
    first, last = sentence.words[run[0]], sentence.words[run[-1]]
    if len(run) > 1 and "material" in first.tags and "stock_form" in last.tags:
        return False  # A glass plate may be a part, or stock.
    if len(run) > 1 and last.low in ("wall", "walls"):
        return False  # A base wall is one of the base.
    behind = sentence.word(run[-1] + 1)
    if behind is not None and behind.low in _FEATURES and len(run) == 1:
        return False  # The entrance hole is no hole of an entrance.
    if first.low in ("foot", "feet") and not is_young(sentence):
        return False
    if is_thing(sentence, run):
        return True
    machine = bool(first.tags & TOOLS) and "set" in {
        word.low.split(" ")[0] for word in sentence.words
    }
    if len(run) > 1 and last.low in heads and not last.tags and not machine:
        return True
    if first.tags & TOOLS and first.low not in sentence.lexicon.names["leads"]:
        return False
    return any(
        names_part(sentence, at) and sentence.words[at].low not in components
        for at in run
    )


def _longer_name(sentence: Sentence, named: list[int]) -> Unnamed | None:
    """Doubt a known part whose name goes on: “lamp bracket” with only lamp known."""
    heads = sentence.lexicon.names["heads"]
    for at in named:
        word, following = sentence.words[at], sentence.word(at + 1)
        alike = sentence.vocabulary.alike(word.name.thing) if word.name else ()
        if len(alike) > 1 and not _numbered_so(word.text, alike):
            others = tuple(dict.fromkeys((*_with_neighbours(sentence, at), *alike)))
            return Unnamed(spoken(word.text), others[0], which_part(others))
        if following is None or following.low not in heads or following.tags:
            continue
        if word.name is None or word.name.role != "part" or word.low.endswith("'s"):
            continue
        last = at + 1
        while sentence.tags(last + 1) == frozenset() and _goes_on(sentence, last + 1):
            last += 1
        words = singular([sentence.words[one].low for one in range(at, last + 1)])
        longer = sentence.vocabulary.containing(words)
        longer = longer or sentence.vocabulary.having({*words})
        doubt = which_part(longer, (" ".join(words), word.name.thing))
        return Unnamed(words, "", doubt)
    return None


def _numbered_so(said: str, alike: Sequence[str]) -> bool:
    """Tell whether the number of its name was typed too: the 1009 Z Motor Lock."""
    words = spoken(said)
    return any(one.isdigit() for one in words) and any(
        spoken(name) == words for name in alike
    )


def _with_neighbours(sentence: Sentence, at: int) -> tuple[str, ...]:
    """Give the parts called by a name and the word beside it: camera mount hood."""
    said, known = {*spoken(sentence.words[at].text)}, sentence.vocabulary
    for one in (at + 1, at - 1):
        word = sentence.word(one) if one >= 0 else None
        if word is None or word.sort is not Sort.WORD or word.name is not None:
            continue
        if known.titled(word.low) and (found := known.having(said | {word.low})):
            return found
    return ()


def _goes_on(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    return word is not None and word.low in sentence.lexicon.names["heads"]


def find_next_layer(sentence: Sentence) -> tuple[str, ...]:
    """Give the words of one more unknown part that a fastener goes through."""
    fastened = sentence.sorts(Sort.THREAD) or sentence.has("fastener")
    if not fastened or not is_young(sentence):
        return ()
    if not sentence.has("through_sure", "hold"):
        return ()
    for at in sentence.tagged("joiner", "through"):
        run = name_run(sentence, after_leads(sentence, at + 1))
        words = singular([sentence.words[one].low for one in run])
        if run and not sentence.vocabulary.containing(words):
            return words
    return ()
