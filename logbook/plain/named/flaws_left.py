"""What is amiss and told to be left so: leave the scratch on the lid, it faces down."""

from __future__ import annotations

from logbook.plain.named.name_places import after_when
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named

_LEAVING = frozenset({"leave", "leaving", "left", "keep", "keeping"})
LEAVES = _LEAVING | {"not", "stay", "stays"}
"""The words that tell that what is amiss is left so."""
_LED_BY = frozenset({"i", "we", "i'll", "we'll", "will", "just", "i'm", "we're"})
_UNDOES = (
    "fixing", "redoing", "filling", "repairing", "mending", "patching", "remaking",
    "straightening", "touching", "sanding", "polishing", "grinding", "chasing",
)  # fmt: skip
_WHERE = frozenset(
    {"on", "in", "at", "of", "inside", "under", "along", "near", "by", "around"}
)
AMISS_IN_IT = frozenset({"defect", "fail", "adverse"})
_IS_SO = frozenset({"fail:past", "adjective", "adverse"})


def flaw_left_at(sentence: Sentence) -> int | None:
    """Give where a line tells to leave what is amiss so, None where it does not."""
    found = flaw_left(sentence)
    return found[0] if found else None


def flaw_left(sentence: Sentence) -> tuple[int, int] | None:
    """Give the verb of “leave the scratch on the base”, which is left so, and its “on”.

    So it is with “not fixing that dent”, and with whatever is left since nobody will
    see it: leave the turned edge, the mask hides it.
    """
    at = after_when(sentence)
    while sentence.word(at) is not None and sentence.words[at].low in _LED_BY:
        at += 1
    verb, then = sentence.word(at), sentence.word(at + 1)
    if verb is None or then is None:
        return None
    said = f"{verb.low} {then.low}".split(" ")
    undoes = said[0] == "not" and said[1] in _UNDOES
    first = at + 2 if undoes and verb.low == "not" else at + 1
    while undoes and sentence.word(first) is not None and (
        sentence.words[first].low in ("out", "up", "away", "down")
    ):  # fmt: skip
        first += 1
    if not (undoes or verb.low.split(" ")[-1] in _LEAVING) or not _is_there(
        sentence, first
    ):
        return None
    end = next(
        (
            one
            for one in range(first + 1, len(sentence.words))
            if sentence.words[one].sort is Sort.MARK
            or sentence.words[one].low.split(" ")[0] in _WHERE
        ),
        len(sentence.words),
    )
    flaw = _is_flaw(sentence, first + 1, end) or _is_not_seen(sentence, end)
    placed = _says_where(sentence, end)
    if verb.low == "left":
        placed = placed and any(one > end for one in parts_named(sentence))
    return (at, end) if flaw and placed and end > first + 1 else None


def _is_there(sentence: Sentence, at: int) -> bool:
    """Tell the flaw that is there from a gap that is to be left."""
    word = sentence.word(at)
    led = word is not None and "article" in word.tags
    return led and sentence.words[at].low not in ("a", "an", "some")


def _is_flaw(sentence: Sentence, start: int, end: int) -> bool:
    """Tell whether a noun is of what is amiss, or has an adjective that is: hem."""
    if start >= end or sentence.tags(end - 1) & {"preposition"}:
        return False
    known, last = sentence.lexicon.clauses["blemishes"], sentence.words[end - 1]
    blemish = last.low in known or last.low.split(" ")[-1] in ("mark", "marks")
    wrong = any(
        sentence.tags(at) & AMISS_IN_IT and sentence.tags(at) & _IS_SO
        for at in range(start, end - 1)
    )
    return blemish or bool(last.tags & AMISS_IN_IT) or wrong


def _is_not_seen(sentence: Sentence, at: int) -> bool:
    """See that nobody will notice, told in a later clause: it faces the wall."""
    if sentence.word(at) is None:
        return False
    words = sentence.words[at:]
    mark = next((one for one in words if one.sort is Sort.MARK), None)
    said = f" {sentence.text[mark.end :].lower()} " if mark is not None else ""
    return any(f" {one} " in said for one in sentence.lexicon.clauses["not_seen"])


def _says_where(sentence: Sentence, at: int) -> bool:
    """Tell whether a noun ends here, or it is told on what it is: on the lid."""
    word = sentence.word(at)
    if word is None or word.sort is Sort.MARK:
        return True
    return bool(sentence.tags(at + 1) & {"article"}) or at + 1 in parts_named(sentence)
