"""The unknown noun of a line that can only be a part nobody has named yet.

Only sure places count: the subject of a failure or a size, the object of work,
what a size or a choice is for. A name is taken whole, never one word of it; what
stands in a side clause is at most asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.named.circuit import measured_point
from logbook.plain.named.ends_of_names import (
    LONGEST_NAME,
    end_of_a_name,
    is_headed,
    middle_of_a_name,
    sure_end,
)
from logbook.plain.named.longer_names import longer_name
from logbook.plain.named.machined import TURNED_OF_BAR
from logbook.plain.named.name_places import (
    after_when,
    elsewhere,
    in_passing,
    is_young,
    meant_for,
    subject,
    worked_on,
)
from logbook.plain.named.names import (
    AXES,
    TOOLS,
    after_leads,
    is_component,
    is_thing,
    name_run,
    names_part,
    singular,
)
from logbook.plain.named.of_its_size import is_surely_one, sized_thing
from logbook.plain.named.of_stock import stock_told_of
from logbook.plain.named.owners import owner_told, owners
from logbook.plain.named.said_first import after_the_first
from logbook.plain.named.things import placed, thing_told_of
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.machine_set import runs_a_fan, sets_a_machine
from logbook.plain.words.sentence import Sentence


def find_new_part(sentence: Sentence) -> Unnamed | None:
    """Give what names a part that is not known yet, None where nothing does."""
    if sets_a_machine(sentence) or runs_a_fan(sentence) or _wet_stock(sentence):
        return None
    named = [
        at
        for at, word in enumerate(sentence.words)
        if word.name is not None
        and word.name.role in ("part", "piece")
        and not in_passing(sentence, at)
    ]
    if named:
        return _told_first(sentence, named) or longer_name(sentence, named)
    by_end = sure_end(sentence) or _of_stock(sentence)
    if by_end is not None:
        return by_end
    if sentence.named("characteristic"):
        return _owner(sentence)
    known = middle_of_a_name(sentence) or end_of_a_name(sentence, range(1))
    known = known or measured_point(sentence)
    if known is not None:
        return known
    told = _without_drawn(sentence, subject(sentence))
    run = told or worked_on(sentence) or meant_for(sentence)
    if run:
        # A project that has its parts hardly meets one more by the way.
        holds = "channel_nouns" in sentence.tags(run[-1]) or is_thing(sentence, run)
        last = sentence.words[run[-1]].low
        holds = holds or (
            last in TURNED_OF_BAR and last not in sentence.lexicon.names["alone"]
        )
        met = bool(told) or holds or is_young(sentence)
        found = _meant(sentence, run, sure=met and _sure_name(sentence, run))
        return replace(found, placed=True)
    known = end_of_a_name(sentence, range(len(sentence.words)))
    if known is not None:
        return known
    if thing := _whole_thing(sentence):
        return thing
    for run in elsewhere(sentence):
        sure = is_thing(sentence, run) and placed(sentence, run)
        return after_the_first(sentence, run, _meant(sentence, run, sure=sure))
    return None


def _whole_thing(sentence: Sentence) -> Unnamed | None:
    """Give the thing made or mounted whole that a line tells of, or the size of."""
    run = sized_thing(sentence)
    sure = not run or is_surely_one(sentence, run)
    run = run or thing_told_of(sentence)
    return replace(_meant(sentence, run, sure=sure), placed=True) if run else None


_DRAWN = frozenset({"drawn", "nominal", "nominally", "nom", "nom."})


def _without_drawn(sentence: Sentence, run: list[int]) -> list[int]:
    """Leave out the spigot of “shade spigot drawn 5.9”: a size of the shade."""
    behind = sentence.word(run[-1] + 1) if run else None
    drawn = behind is not None and behind.low in _DRAWN
    return run[:-1] if drawn and len(run) > 1 else run


def _wet_stock(sentence: Sentence) -> bool:
    """See the moisture of a board, which is stock still, where parts are known."""
    share = any(word.dimension == "ratio" for word in sentence.words)
    wet = any(word.low.startswith(("moist", "humid", "wet")) for word in sentence.words)
    return share and wet and not is_young(sentence) and sentence.has("stock_form")


def _told_first(sentence: Sentence, named: Sequence[int]) -> Unnamed | None:
    """See “hood sagged, lamp too close”: the part told behind it is not what failed."""
    end = _first_told(sentence)
    if any(at < end for at in named):
        return None
    run = subject(sentence) or thing_told_of(sentence)
    first = after_leads(sentence, after_when(sentence))
    bought = any(
        is_component(sentence, at) or "fastener" in sentence.tags(at)
        for at in (*run, *(one + 1 for one in run))
        if at < end
    )
    if not run or run[0] != first or run[-1] >= end or bought:
        return None
    sure = is_thing(sentence, run) and _sure_name(sentence, run)
    names = [sentence.words[at].name for at in named]
    others = [one.owner or one.thing for one in names if one is not None]
    return replace(_meant(sentence, run, sure=sure, else_=others), placed=True)


def _first_told(sentence: Sentence) -> int:
    """Give where what a line tells first ends: at a clause, at because or when."""
    end = next(iter(clauses(sentence)), (0, 0))[1]
    for at, word in enumerate(sentence.words[:end]):
        led = word.low.split(" ")[0] in ("when", "while", "as")
        if at and (led or "because" in word.tags):
            return at
    return end


def _owner(sentence: Sentence) -> Unnamed | None:
    """Give what is named as having a size that one part is known to have."""
    run, part = owner_told(sentence)
    if part:
        return Unnamed(tuple(sentence.words[at].low for at in run), part)
    if not run:
        return None
    sure = is_thing(sentence, run) or is_young(sentence)
    known = owners(sentence)
    found = _meant(sentence, run, sure=sure and _sure_name(sentence, run), else_=known)
    return replace(found, placed=True)


def _of_stock(sentence: Sentence) -> Unnamed | None:
    """Give the board that is measured or made; asked about where parts are known."""
    run = stock_told_of(sentence)
    if not run:
        return None
    return replace(_meant(sentence, run, sure=is_young(sentence)), placed=True)


def _meant(
    sentence: Sentence, run: Sequence[int], *, sure: bool, else_: Sequence[str] = ()
) -> Unnamed:
    """Tell the known parts whose longer names these words may be from a new one.

    `else_` are offered where it is asked: the parts that it may be about too.
    """
    words = singular([sentence.words[at].low for at in run])
    if sentence.words[run[-1]].low in sentence.lexicon.names["no_plural"]:
        words = tuple(sentence.words[at].low for at in run)
    longer = sentence.vocabulary.containing(words)
    ends = len(longer) == 1 and is_headed(sentence.lexicon, longer[0], words)
    if ends and len(words) > 1:
        return Unnamed(words, longer[0])
    longer = longer or sentence.vocabulary.abbreviated(words)
    longer = (
        longer or sentence.vocabulary.having({*words}) if len(words) > 1 else longer
    )
    slipped = () if longer else sentence.vocabulary.misspelt_apart(words)
    if len(slipped) == 1:
        return Unnamed(words, slipped[0])
    longer = longer or slipped or sentence.vocabulary.compounded(words[-1])
    longer = longer or sentence.vocabulary.misspelt(words)
    said = [sentence.words[at].low for at in run]  # A last s may be of the slip.
    called = (" ".join(words), *_shorter(sentence, run))
    if not longer and (longer := sentence.vocabulary.misspelt(said)):
        called = (" ".join(said),)  # Maks: a slip of mask, and no more than one mak.
    if longer or not sure:
        return Unnamed(words, "", which_part((*longer, *else_), called))
    return Unnamed(words)


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
    if len(run) > LONGEST_NAME or (
        _shorter(sentence, run) and not is_thing(sentence, run)
    ):
        return False
    components = sentence.lexicon.names["components"]
    heads = sentence.lexicon.names["heads"]
    first, last = sentence.words[run[0]], sentence.words[run[-1]]
    if len(run) > 1 and "material" in first.tags and "stock_form" in last.tags:
        return False  # A glass plate may be a part, or stock.
    if len(run) > 1 and last.low in ("wall", "walls") and not is_thing(sentence, run):
        return False  # A base wall is one of the base.
    behind = sentence.word(run[-1] + 1)
    if behind is not None and behind.low in _FEATURES and len(run) == 1:
        return False  # The entrance hole is no hole of an entrance.
    if first.low in ("foot", "feet") and not is_young(sentence):
        return False
    if is_thing(sentence, run) or (len(run) == 1 and first.low in TURNED_OF_BAR):
        return True
    axis = first.low in AXES and is_component(sentence, run[-1])
    if len(run) > 1 and (axis or (is_thing(sentence, run[-1:]) and not last.tags)):
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
        verb = any(word.endswith(("ed", "ing")) for word in words)  # And freed it.
        behind = sentence.word(run[-1] + 1) if run else None
        verb = verb or (behind is not None and behind.low == "of")  # A drop of glue.
        if run and not verb and not sentence.vocabulary.containing(words):
            return words
    return ()
