"""Whether words are surely the name of a new part, or may mean a known one."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.ends_of_names import LONGEST_NAME, is_headed
from logbook.plain.named.machined import TURNED_OF_BAR
from logbook.plain.named.name_places import is_young
from logbook.plain.named.names import (
    AXES,
    TOOLS,
    is_component,
    is_thing,
    names_part,
    singular,
)
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.sentence import Sentence


def meant(
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


_FEATURES = frozenset(
    {"hole", "holes", "wire", "wires", "screw", "screws", "slots", "thread", "threads"}
)


def sure_name(sentence: Sentence, run: Sequence[int]) -> bool:
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
