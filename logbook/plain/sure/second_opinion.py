"""What the words of lines known before say to the kind the rules chose.

Where no rule told a kind and the words do, the line is read as of that kind; where they
speak against the kind of the rules it is asked about, or read as of theirs where they
leave no doubt; where they nearly always stood in lines of that kind, a faint sign of a
misreading is passed over. Facts are made by the same rules whoever told the kind.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from logbook.plain.kinds.refused import none_there
from logbook.plain.kinds.unmeant import unmeant_at
from logbook.plain.sure.chances import chance_of
from logbook.plain.sure.held import says_held
from logbook.plain.sure.likely import likely, mostly_heard, signs_of
from logbook.plain.sure.of_events import corrects
from logbook.plain.sure.of_features import asks_of_a_feature
from logbook.plain.sure.unread import SO_OR_NOTE, Unread
from logbook.plain.sure.whole import is_whole, says_all
from logbook.plain.understanding import (
    CALLED,
    NO_PART,
    SURE_ENOUGH,
    Doubt,
    Kind,
    Understanding,
    Verdict,
)
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

UNLIKELY = 0.2
"""Of a kind less likely than this a line is not taken unasked."""
EVEN = 0.5
"""A line more likely a failure, a decision or a disposition than not is asked about.

Of 15 kinds read so that were another it took 11; it asked about 10 of 1,240 read right.
"""
LIKELY = 0.95
"""From here on a faint doubt is passed over."""
TELLS = 0.85
"""From here on a line no rule told is read as of the kind its words tell.

Of 1,320 lines of 22 batches, a quarter of them left out in their turn, 2 more were read
right from 0.8 on, 5 from 0.75 on, none wrong; look-alikes in the tests were.
"""
OVERRULES = 0.96
"""From here on a line of one clause is read as of another kind than the rules.

From 0.9 on 2 more of those 1,320 were read right, one more wrong.
"""
WORTH_ASKING = 0.6
"""From here on a line no rule told is asked about."""
WORTH_OFFERING = 0.25
"""A kind less likely than this is not offered as what was meant."""

_HAS_ITS_PARTS = 5
"""A project of so many parts hardly meets one more by a failure of it."""
_OF_THINGS = (Kind.STEP, Kind.FAILURE)
_WHICH = "what does it tell?"
_SPEAKS_UP = (Kind.FAILURE, Kind.DECISION, Kind.DISPOSITION)
"""Kinds whose lines are oftenest read as of another."""

_TAKEN_FOR = frozenset(
    {
        (Kind.STEP, Kind.FAILURE),
        (Kind.DECISION, Kind.STEP),
        (Kind.READING, Kind.DECISION),
        (Kind.FAILURE, Kind.DECISION),
    }
)
"""What lines are read as by the rules, and what they are instead oftener than not.

Of 5,400 lines left out in their turn these pairs held 8 of another kind and 4 read
right, where the second was likelier and the first less than even.
"""

_DONE_WITH_IT = ("scrap", "repair", "give_back", "rework", "take_back")
"""Tags of what is done with a piece; a failure without one tells nothing of it."""

_LEFT_ALONE = (Kind.NOTE, Kind.QUESTION, Kind.COUNT, Kind.REVISION)
"""Kinds that do no harm, or that are told by their very form."""


def believed(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line without its faint doubts, where its words speak for its kind."""
    two_times = sentence.sorts(Sort.CLOCK)  # The first one is read as the moment.
    if two_times or not any(one.faint for one in line.doubts):
        return line
    if chance_of(sentence, line, likely(signs_of(sentence))) < LIKELY:
        return line
    left = tuple(one for one in line.doubts if not one.faint)
    return replace(line, doubts=left, confidence=max(line.confidence, LIKELY))


def weighed(
    sentence: Sentence,
    line: Understanding,
    read_as: Callable[[Kind | None], Understanding],
) -> Understanding:
    """Give the line as read, as read of the kind its words tell, or asked about first.

    `read_as` reads it as of a kind, or with the known names only.
    """
    untold = line.kind is Kind.NOTE and line.confidence < SURE_ENOUGH
    unmeant = line.kind is Kind.FAILURE and unmeant_at(sentence) is not None
    if unmeant or (line.kind in _LEFT_ALONE and not untold):
        return line
    by_kind = likely(signs_of(sentence))
    if untold:
        if line.doubts or any(corrects(Unread(sentence, line))):
            return line
        return _told_by_words(sentence, line, by_kind, read_as)
    if _of_no_part(sentence, line) and by_kind[line.kind] >= TELLS:
        plain = read_as(None)
        if asks_of_a_feature(plain):
            return plain
        plain = of_no_part(plain)
        return plain if plain.verdict is Verdict.TAKEN else line
    kinds_doubted = all(one.about == "kind" and len(one.choices) > 1
                        for one in line.doubts if one.needed)  # fmt: skip
    chance = chance_of(sentence, line, by_kind)
    if not kinds_doubted or not _doubted(sentence, line, chance, by_kind):
        return line
    likeliest = _likeliest(by_kind)
    single = len([*clauses(sentence)]) == 1
    sure = chance < UNLIKELY and by_kind[likeliest] >= OVERRULES
    if single and likeliest in CALLED and sure:
        other = _without_kind_doubts(read_as(likeliest), by_kind)
        if is_whole(sentence, other, overruled=True):
            return other
    if line.verdict is not Verdict.TAKEN:
        return line
    return replace(line, doubts=(_which_kind(line.kind, by_kind), *line.doubts))


def _doubted(
    sentence: Sentence,
    line: Understanding,
    chance: float,
    by_kind: Mapping[Kind, float],
) -> bool:
    """Tell whether the words of a line speak against its kind, or for another.

    One that begins with what is done with a piece tells just that.
    """
    likeliest, kind = _likeliest(by_kind), line.kind
    other = likeliest in _SPEAKS_UP and likeliest is not kind.broad
    first = line.told_by is not None and line.told_by.start == sentence.words[0].start
    settled = kind is Kind.SUBSTITUTION or (kind is Kind.DISPOSITION and first)
    if settled or (kind is Kind.STEP and likeliest is Kind.DECISION):
        other = False  # Printed in PETG, 4 walls, no supports: done so.
    if kind is Kind.FAILURE and likeliest is Kind.DISPOSITION:
        other = other and sentence.has(*_DONE_WITH_IT)  # Gate 2 sagged again.
    other = other and by_kind[likeliest] >= EVEN
    taken_for = (kind.broad, likeliest) in _TAKEN_FOR
    return chance < UNLIKELY or ((other or taken_for) and chance < EVEN)


def _of_no_part(sentence: Sentence, line: Understanding) -> bool:
    """Tell whether what failed is no part, where the project has its parts.

    A fuse, a tap, a thread in an upright: asked about only where a part on record may
    be meant.
    """
    known = {*sentence.vocabulary.parts, *sentence.vocabulary.proposed}
    needed = [one for one in line.doubts if one.needed]
    if line.kind is not Kind.FAILURE or len(known) < _HAS_ITS_PARTS or not needed:
        return False
    asked = all(one.about == "part" and known.isdisjoint(one.choices) for one in needed)
    return asked and _of_a_feature(sentence, line, needed[0].choices)


def _of_a_feature(
    sentence: Sentence, line: Understanding, offered: Sequence[str]
) -> bool:
    """Tell whether a tool, or a thread or a bolt, is what the line tells of."""
    named = {one.split(" ")[-1] for one in offered if one != NO_PART}
    told = line.told_by.start if line.told_by else -1
    at = [one.start for one in sentence.words].index(told) if told >= 0 else -9
    near = sentence.words[max(0, at - 2) : at + 3]
    broke = any(word.tags & {"fastener", "structure"} for word in near)
    tools = {word.low for word in sentence.words if "tool" in word.tags}
    holders = {word.low for word in sentence.words if "channel_nouns" in word.tags}
    sizes = {one for row in sentence.vocabulary.characteristics.values() for one in row}
    if named & (holders | sizes | sentence.lexicon.names["may_be_parts"]):
        return False  # Glue that let go on the channel; a belt, as a size is called.
    return broke or named <= tools


def of_no_part(line: Understanding) -> Understanding:
    """Give the line without a part that would be new, the question after it dropped."""
    left = tuple(one for one in line.doubts if one.about != "part")
    if line.facts.part_is_new:
        facts = replace(line.facts, part="", part_is_new=False, piece="")
        return replace(line, facts=facts, doubts=left)
    return replace(line, doubts=left)


def _told_by_words(
    sentence: Sentence,
    line: Understanding,
    by_kind: Mapping[Kind, float],
    read_as: Callable[[Kind | None], Understanding],
) -> Understanding:
    """Give a line no rule told as of the kind its words tell, or asked about so."""
    likeliest = _likeliest(by_kind)
    if likeliest not in CALLED or by_kind[likeliest] < WORTH_ASKING:
        return line
    offered = _without_kind_doubts(read_as(likeliest), by_kind)
    if likeliest is Kind.FAILURE and says_held(line.line):
        return line
    no_work = sentence.words[0].low in sentence.lexicon.clauses["no_work"]
    idle = not offered.facts.part and sentence.has("not_bench")
    if (likeliest is Kind.STEP and no_work) or (likeliest in _OF_THINGS and idle):
        return line  # Swept the floor and sorted the screws; spotted the lid there.
    several = len([*clauses(sentence)]) > 1
    if offered.facts.step and (several or _denies(sentence)):
        return line  # Its title, not done, or out again: no step is closed by that.
    denies = {Kind.FAILURE: _denies, Kind.DECISION: none_there}.get(likeliest)
    denied = denies and denies(sentence)
    sure = by_kind[likeliest] >= TELLS and mostly_heard(sentence)
    if sure and not denied and is_whole(sentence, offered):
        return offered
    return _asked_as(offered) if says_all(offered) else line


def _denies(sentence: Sentence) -> bool:
    """See what did not happen: no crack in the diffuser after a week."""
    return any(
        low in ("no", "not", "never", "without")
        for word in sentence.words
        for low in word.low.split(" ")
    )


def _without_kind_doubts(
    line: Understanding, by_kind: Mapping[Kind, float]
) -> Understanding:
    """Give the line without doubts of its kind, where its words leave none."""
    if by_kind[line.kind] < LIKELY:
        return line
    left = tuple(one for one in line.doubts if one.about != "kind")
    return replace(line, doubts=left)


def _asked_as(line: Understanding) -> Understanding:
    """Give a line read as telling a kind, to be asked first whether it does.

    A word left unread asks the same: what it may tell is offered, and asked once.
    """
    same = [one for one in line.doubts if one.choices[:1] == SO_OR_NOTE[:1]]
    others = [called for one in same for called in one.choices[1:-1]]
    choices = dict.fromkeys((CALLED[line.kind], *others, "only a note"))
    doubt = Doubt("which kind", _WHICH, tuple(choices))
    left = (one for one in line.doubts if one not in same)
    return replace(line, doubts=(doubt, *left))


def _likeliest(by_kind: Mapping[Kind, float]) -> Kind:
    return max(by_kind, key=lambda kind: by_kind[kind])


def _which_kind(chosen: Kind, by_kind: Mapping[Kind, float]) -> Doubt:
    """Ask which kind is meant: the one of the rules, or the one the words speak for."""
    likeliest = _likeliest(by_kind)
    offered = [CALLED[chosen.broad]] if chosen.broad in CALLED else []
    if likeliest in CALLED and by_kind[likeliest] >= WORTH_OFFERING:
        offered.insert(0, CALLED[likeliest])
    choices = (*dict.fromkeys(offered), "only a note")
    return Doubt("which kind", _WHICH, choices)
