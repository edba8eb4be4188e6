"""The part a line names in a place of its own: more of it wanted, a flaw left on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.named.names import after_leads, is_thing, name_run
from logbook.plain.named.sure_names import meant
from logbook.plain.named.unnamed import Unnamed
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_NO_THING = frozenset(
    {"piece", "pieces", "part", "parts", "one", "ones", "set", "sets", "copy", "copies",
     "print", "prints"}
)  # fmt: skip


def wanted_more(sentence: Sentence, run: list[int]) -> Unnamed | None:
    """Give what more of are to be made: a part, new where none is called so.

    A feature that may be one, as a rib, is asked about; holes are none.
    """
    words = [sentence.words[at] for at in run]
    last = words[-1]
    if any(word.name is not None for word in words) or last.low in _NO_THING:
        return None
    names = sentence.lexicon.names
    if last.low in names["openings"] or last.tags & {"measures", "defect"}:
        return None
    alone = last.low in names["alone"] or is_thing(sentence, run[-1:])
    feature = "structure" in last.tags and not alone
    found = meant(sentence, run, sure=not feature)
    return replace(found, placed=True)


_NO_HEAD = frozenset({"structure", "material", "measures", "never_part", "place"})


def with_a_flaw(sentence: Sentence, at: int) -> Unnamed | None:
    """Give what has the flaw that is told behind “on” at a place: the seat, the head.

    What may be a fastener or a feature is asked about; a coat is no part.
    """
    first = after_leads(sentence, at + 1)
    run = name_run(sentence, first)
    noun = sentence.word(first)
    if noun is None or noun.name is not None or sentence.words[at].sort is Sort.MARK:
        return None
    sure = is_thing(sentence, run or [first])
    heads = sentence.lexicon.names["heads"]
    if not run and not sure and (noun.low not in heads or noun.tags & _NO_HEAD):
        return None
    return replace(meant(sentence, run or [first], sure=sure), placed=True)


def gone_back(sentence: Sentence, what: Sequence[int]) -> Unnamed | None:
    """Give what goes back to who made it: sent the chipped mirror back, a mirror."""
    words = [sentence.words[at] for at in what]
    of = next((at for at, word in enumerate(words) if word.low == "of"), len(words))
    run = [at for at in what[:of] if not sentence.tags(at) & _ONLY_HOW_IT_IS]
    if not run or any(word.name or "never_part" in word.tags for word in words):
        return None
    return replace(meant(sentence, run, sure=is_thing(sentence, run)), placed=True)


_ONLY_HOW_IT_IS = frozenset({"fail", "adjective", "ordinal", "article"})


_WHOLE_BOARDS = frozenset({"of_stock", "heads", "alone"})


def mended(sentence: Sentence) -> Unnamed | None:
    """Give what was repaired: the plank of “repaired the split plank with epoxy”.

    The name of stock, or of a feature, may be a part's too: that is asked.
    """
    fixed = sentence.words[0].low == "fixed" and "fail:past" in sentence.tags(2)
    if not (
        fixed or "repair:past" in sentence.tags(0)
    ) or "article" not in sentence.tags(1):
        return None
    at = 2
    while sentence.tags(at) & {"fail", "adjective"} and sentence.word(at + 1):
        at += 1
    noun, names = sentence.word(at), sentence.lexicon.names
    if is_thing(sentence, [at, at + 1]):
        return replace(meant(sentence, [at, at + 1], sure=True), placed=True)
    boards = any(noun and noun.low in names[one] for one in _WHOLE_BOARDS)
    if noun is None or noun.name is not None or not (noun.tags and boards):
        return None
    return replace(meant(sentence, [at], sure=is_thing(sentence, [at])), placed=True)
