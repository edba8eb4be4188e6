"""Verbs of work in a line that tells of no work done: what is so, or came by itself."""

from __future__ import annotations

from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def once_done(sentence: Sentence, at: int) -> bool:
    """See “moves less once oiled”: how it goes then, no work told."""
    before = sentence.word(at - 1) if at > 1 else None
    return before is not None and before.low in ("once", "if", "unless", "when")


def that_was(sentence: Sentence, at: int) -> bool:
    """See “the crossbar I made yesterday is 178.35”: which one it is, measured."""
    who = sentence.word(at - 1) if at > 1 else None
    if who is None or who.low not in ("i", "we", "he", "she", "they"):
        return False
    rest = {tag for word in sentence.words[at + 1 :] for tag in word.tags}
    return sentence.words[at - 2].name is not None and "is" in rest


def with_instrument(sentence: Sentence, at: int) -> bool:
    """See “put the caliper on the crossbar”: it was measured, no work was done.

    So it was where the thing is put on the scale.
    """
    noun = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    if "instrument" in sentence.tags(noun):
        return True
    put = sentence.words[at].low.split(" ")[0] in ("put", "laid", "placed", "set")
    return put and any(
        "instrument" in sentence.tags(one)
        and {sentence.words[one - 1].low, sentence.words[one - 2].low}
        & {"on", "on the", "under", "under the"}
        for one in range(at + 3, len(sentence.words))
    )


def was_shut(sentence: Sentence, at: int) -> bool:
    """Tell a yard that was shut from a lid that is: nothing known was named."""
    shut = "shut" in sentence.tags(at) and "is" in sentence.tags(at - 1 if at else -1)
    return shut and not any(word.name is not None for word in sentence.words[:at])


_BY_ITSELF = frozenset({"moved", "turned", "pulled", "shifted", "stretched", "rounded"})


def ends_bent(sentence: Sentence, at: int) -> bool:
    """See “shaft bent”, “bed moved 0.4”: by itself, or on purpose."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if at == 0 or not (word.low in _BY_ITSELF or word.low in ("bent", "twisted")):
        return False
    before = sentence.words[at - 1]
    subject = before.name is not None or bool(before.tags & {"fastener", "structure"})
    if following is None:
        return True
    told = following.sort in FIGURES or following.low in ("with", "when", "after")
    if word.low in ("bent", "twisted") and "locative" in following.tags:
        tool = any("tool" in one.tags for one in sentence.words[at + 1 :])
        return following.low == "under" or not tool  # Nobody bends under a tool.
    happened = following.low in ("when", "while", "during", "in transit", "on the way")
    return subject and ((told and word.low in _BY_ITSELF) or happened)


def stripped_of(sentence: Sentence, at: int) -> bool:
    """See “lid scr stripped”: a thing nobody knows may have failed."""
    before = sentence.words[at - 1] if at else None
    if before is None or "fail:past" not in sentence.tags(at):
        return False
    return before.sort is Sort.WORD and not before.tags and before.name is None


def noun_phrase(sentence: Sentence, at: int) -> bool:
    """Tell “cut width 3.2” and “drilled holes are…” from work done."""
    word, following = sentence.words[at], sentence.word(at + 1)
    before = sentence.tags(at - 1) if at else frozenset()
    if "step" in word.tags:
        if not parts_named(sentence):
            return True
        if word.low.startswith("off ") and any(
            one.sort in FIGURES and one.dimension != "time" for one in sentence.words
        ):
            return True
        goes_on = following is not None and following.sort is Sort.WORD
        goes_on = goes_on and following is not None and following.low != "but"
        return goes_on and word.low.startswith("is ")
    if "article" in before and following is not None and following.sort is Sort.WORD:
        return True
    made_of = "preposition" in before and not before & {"article"}
    if made_of and following is not None and following.sort is Sort.WORD:
        return not following.tags & {"article", "preposition", "generic"}
    both = word.tags & {"make:base"}
    if at == 0 and (_finished_noun(sentence) or _compares(sentence)):
        return True
    if both and at > 0 and not _subject_only(sentence.words[:at]):
        return True
    if "fastener" in word.tags and at > 0:
        noun = following is not None and following.name is not None
        return not (noun or (following is not None and "article" in following.tags))
    return bool(both and at > 0 and "measures" in word.tags)


def _subject_only(before: list[Word]) -> bool:
    """Tell “lid cut” and “yesterday cut” from “burr on the base cut the cable”."""
    return all(
        word.sort in (Sort.WHEN, Sort.MARK)
        or word.name is not None
        or word.tags & {"article", "is", "generic"}
        for word in before
    )


def _compares(sentence: Sentence) -> bool:
    """See “mounted slides are thicker than strips”: how things are, nothing done."""
    lows = [word.low for word in sentence.words]
    led = "article" in sentence.tags(1)
    return not led and "than" in lows and bool({"is", "are"} & set(lows[1:5]))


def _finished_noun(sentence: Sentence) -> bool:
    """Tell “folded edge 89.2°” from “drilled holes 2.5”."""
    following, third = sentence.word(1), sentence.word(2)
    if following is None or third is None or following.low.endswith("s"):
        return False
    return "structure" in following.tags and third.sort in FIGURES
