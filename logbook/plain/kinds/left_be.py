"""What is amiss and left so: the dent in the lid can stay, the crooked one stays."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import adjectival
from logbook.plain.named.flaws_left import AMISS_IN_IT, flaw_left_at
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named

_MAY = frozenset({"can", "may", "could", "shall"})
_ON = frozenset({"stay", "go on", "remain", "stay on", "go in", "be used"})


def left_be(sentence: Sentence, _: Values) -> Choice | None:
    """See a part that may stay as it is, whatever is wrong with it.

    Where it is told that something befell it, that is a failure and what is done.
    """
    if (left := flaw_left_at(sentence)) is not None:
        return Choice(Kind.DECISION, 0.85, left)
    at = left_at(sentence)
    named = at is not None and (
        any(one < at for one in parts_named(sentence)) or _flawed(sentence, at)
    )
    if at is None or not named:
        return None
    if any(_befell(sentence, one, at) for one in range(at)):
        return None
    return Choice(Kind.DECISION, 0.85, at)


def may_stay(sentence: Sentence) -> bool:
    """Tell whether what a part has may stay: the run in the varnish on base 2 may stay.

    Its may is no wish.
    """
    at = left_at(sentence)
    told = at is not None and any(one < at for one in parts_named(sentence))
    return told and "as_is" not in sentence.tags(at or 0)


def left_at(sentence: Sentence) -> int | None:
    """Give where a line says that something may stay, stays as it is, or is left so."""
    for rule in (flaw_left_at, _left_last, _kept):
        if (left := rule(sentence)) is not None:
            return left
    for at, word in enumerate(sentence.words[1:], 1):
        may = sentence.words[at - 1].low in _MAY and word.low in _ON
        if something_else_stays(sentence, at):
            continue
        stays = word.low == "stays" and "as_is" in word.tags
        stays = stays or (word.low == "stay" and _where_it_is(sentence, at + 1))
        if (may or stays) and _and_no_more(sentence, at + 1):
            return at
        if (may or "as_is" in word.tags) and _stays_in(sentence, at):
            return at
    return None


_LEFT_LAST = frozenset(
    {"leaving it", "leaving it so", "leave it", "i leave it", "we leave it", "left it",
     "leaving them", "i left it", "left as is", "leaving that", "let it be",
     "let them be", "i let it be", "we let it be", "letting it be", "let it go",
     "living with it", "can live with it", "i can live with it", "it can be so"}
)  # fmt: skip


def _left_last(sentence: Sentence) -> int | None:
    """See “small scratch on the diffuser, leaving it”."""
    rows = [*clauses(sentence)]
    does = {word.low for word in sentence.words[1:]} & _DOES
    if len(rows) != _TWO or not (does or sentence.has(*_AMISS)):
        return None
    start, end = rows[-1]
    said = " ".join(word.low for word in sentence.words[start:end])
    said = said.removesuffix(" as it is").removesuffix(" as is")
    return start if said in _LEFT_LAST | _LEFT_AS_IS else None


_TWO = 2
_LEFT_AS_IS = frozenset({"keep it", "keep", "leave", "use", "use it", "keeping it"})
_AMISS = ("defect", "fail", "adverse", "measures", "off_strong", "too_bad", "fit")


def _kept(sentence: Sentence) -> int | None:
    """See “lid 2 kept, scratch is on the inside”."""
    for at in parts_named(sentence):
        word, then = sentence.word(at + 1), sentence.word(at + 2)
        early = all("article" in one.tags for one in sentence.words[:at])
        if early and word is not None and word.low == "kept":
            return at + 1 if then is None or then.sort is Sort.MARK else None
    return None


def _and_no_more(sentence: Sentence, at: int) -> bool:
    """Tell whether nothing follows but how it is: as is, crooked, the way it is."""
    following, then = sentence.word(at), sentence.word(at + 1)
    if following is None or following.sort is Sort.MARK:
        return True
    if _where_it_is(sentence, at):
        return True
    way = following.low == "the" and then is not None and then.low == "way"
    crooked = "fail" in following.tags and "adjective" in following.tags
    return way or crooked or "as_is" in following.tags


def something_else_stays(sentence: Sentence, at: int) -> bool:
    """See “five walls on the latch, infill stays”: no part is left as it is by that."""
    before = sentence.word(at - 1) if at > 1 else None
    if before is None or before.name is not None or before.sort is not Sort.WORD:
        return False
    amiss = before.tags & {*AMISS_IN_IT, "generic"}
    known = sentence.lexicon.clauses["blemishes"]
    first = sentence.words[at - 2].sort is Sort.MARK
    return first and not amiss and before.low not in known


def _stays_in(sentence: Sentence, at: int) -> bool:
    """See “scratched base stays in”: what is not as it should be stays where it is."""
    put, then = sentence.word(at + 1), sentence.word(at + 2)
    ends = then is None or then.sort is Sort.MARK
    amiss = any(word.tags & AMISS_IN_IT for word in sentence.words[:at])
    return put is not None and put.low in ("in", "on", "put") and ends and amiss


def _where_it_is(sentence: Sentence, at: int) -> bool:
    """See “where they are”, “where it is”, and no more."""
    said = [low for word in sentence.words[at : at + 4] for low in word.low.split(" ")]
    return said[:3] in (["where", "they", "are"], ["where", "it", "is"])


def _befell(sentence: Sentence, at: int, left: int) -> bool:
    """Tell whether a verb says what happened: scratched, and not the scratched lid."""
    led = "article" in sentence.tags(at - 1) if at else _is_subject(sentence, 1, left)
    told = "fail:past" in sentence.tags(at)
    return told and not (adjectival(sentence, at) or led)


_DOES = frozenset({"works", "does", "fine", "ok", "okay", "holds", "fits", "do"})
_AND_SO = _DOES | frozenset(
    {"is", "are", "still", "good", "enough", "the", "job", "will", ",", "so", "it",
     "leave", "keep", "leaving", "keeping", "use"}
)  # fmt: skip


def _is_subject(sentence: Sentence, at: int, left: int) -> bool:
    """See the base of “scratched base stays in”, “scratched base works, leave it”.

    Nothing but a may, or that it does, stands between.
    """
    between = sentence.words[at + 1 : left]
    lows = {low for one in between for low in one.low.split(" ")}
    does = bool(lows & _DOES) and lows <= _AND_SO
    return at in parts_named(sentence) and (does or lows <= _MAY)


def _flawed(sentence: Sentence, left: int) -> bool:
    """See “that crooked chimney can stay”, whatever a chimney is."""
    first = "article" in sentence.tags(0) and sentence.tags(1) & AMISS_IN_IT
    return bool(first) and sentence.words[left - 1].low in _MAY and left == len("abcd")
