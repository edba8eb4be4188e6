"""Material taken off a piece until it fits: filed 0.15 off, planed it, drops in."""

from __future__ import annotations

from logbook.plain.kinds.verbs import opens_part
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def taken_back(sentence: Sentence) -> int | None:
    """Give where material is taken off until it fits: filed 0.15 off, filed it to 3."""
    if (worked := worked_till_it_goes(sentence)) is not None:
        return worked
    sense = sentence.tagged("rework_sense")
    for at in sentence.tagged("take_back:past"):
        if at and parts_named(sentence) and _it_to_size(sentence, at):
            return at
        if parts_named(sentence) and _so_much_off(sentence, at):
            return at
        well = sense and sentence.words[sense[-1]].low.endswith(" now")
        if well and at == 0 and sentence.has("structure"):
            return at
    for at in sentence.tagged("take_back:past", "take_back:ing"):
        if "measures" in sentence.tags(at) or opens_part(sentence, at):
            continue  # An opening is measured; a lid that is opened is taken apart.
        taken = sentence.words[at].low in ("took", "taken")
        if taken and not (
            sentence.word(at + 1) and sentence.words[at + 1].sort in FIGURES
        ):
            continue
        if parts_named(sentence) and any(_reworks(sentence, at, to) for to in sense):
            return at
    return None


def worked_till_it_goes(sentence: Sentence) -> int | None:
    """Give the verb of work on a size, in a line that ends with what came of it.

    The part may be named before: mask trimmed by a hair, drops in now.
    """
    at = _verb_of_part(sentence)
    first = sentence.word(at)
    feature = "structure" in sentence.tags(at + 2) and "article" in (
        sentence.tags(at + 1)
    )  # fmt: skip
    if first is None or not (parts_named(sentence) or feature):
        return None
    shaped = (
        first.low in sentence.lexicon.acts["shape"]
        or first.low.split(" ")[0] in ("took", "brought")
        or bool(first.tags & {"take_back:past"})
        or ("make:past" in first.tags and sentence.tags(at + 1) & {"rework_sense"})
    )
    if shaped and _to_size_and_fits(sentence, at):
        return at
    if not parts_named(sentence):
        return None
    reworked = bool(first.tags & {"rework:past"})
    return at if (shaped or reworked) and _now_it_goes(sentence) else None


def _verb_of_part(sentence: Sentence) -> int:
    """Give where the first verb stands, a part named before it or not."""
    at = 1 if "article" in sentence.tags(0) else 0
    named = sentence.word(at)
    return at + 1 if named is not None and named.name is not None else 0


def _to_size_and_fits(sentence: Sentence, at: int) -> bool:
    """See “planed the bed to 239.5 and now it drops in”, however it is said to fit."""
    for place in range(at + 1, len(sentence.words) - 1):
        to, figure = sentence.words[place], sentence.words[place + 1]
        if (
            to.low in ("to", "down to", "out to", "up to", "back to")
            and figure.sort in FIGURES
        ):
            behind = sentence.words[place + 2 :]
            goes_on = any(tag.endswith(":ing") for word in behind for tag in word.tags)
            said = any(
                "fit" in word.tags or word.low.split(" ")[0] == "now" for word in behind
            )
            return (said or _goes_well(sentence, behind)) and not goes_on
    return False


_BEFORE_IT = frozenset({"and", "so", "then", ",", "it", "they", "now", "and it", "the"})
_MOST_NOUNS = 2
_INTO = frozenset({"in", "into", "on", "onto", "over", "through", "home"})


def _goes_well(sentence: Sentence, words: list[Word]) -> bool:
    """See that it goes now, whatever goes: drops into the groove; axle slides."""
    said = [word for word in words if word.low not in _BEFORE_IT]
    known = sentence.lexicon.clauses["goes_well"]
    for at, word in enumerate(said[: _MOST_NOUNS + 1]):
        verb, *rest = word.low.split(" ")
        if verb not in known:
            continue
        behind = said[at + 1 :]
        into = {*rest, *(one.low.split(" ")[0] for one in behind[:1])} & _INTO
        well = into or "fail" not in word.tags
        return bool(well) and not any(one.tags & _AMISS for one in behind)
    return False


_NOW = frozenset({"now", "now it", "and now", "so now", "it now"})
_AMISS = frozenset({"fail", "negative", "negation", "defect", "off_strong", "too_bad"})


def _now_it_goes(sentence: Sentence) -> bool:
    """See what came of it in the last clause: ground it flush, now it seats."""
    rows = list(clauses(sentence))
    start, end = rows[-1] if rows else (0, 0)
    told = sentence.words[max(start, 1) : end]
    lows = [word.low for word in told]
    now = next(
        (at for at, low in enumerate(lows) if low in _NOW or low.endswith(" now")), -1
    )
    if now < 0 or (start == 0 and "and" not in lows[:now]):
        return False
    now = 0 if now == len(told) - 1 and start > 0 else now  # Drops in now.
    rest = [word for word in told[now:] if word.low != "without"]
    if any(word.sort in FIGURES or word.tags & _AMISS for word in rest):
        return False
    if any(tag.endswith(":ing") for word in told[now:] for tag in word.tags):
        return False
    return any(
        "fit" in word.tags
        or any(tag.endswith(":now") for tag in word.tags)
        or (not word.tags and word.low.endswith("s"))
        for word in told[now:]
        if word.sort is Sort.WORD and word.name is None
    )


def _so_much_off(sentence: Sentence, at: int) -> bool:
    """See “filed 0.15 off”, whatever follows."""
    figure, off = sentence.word(at + 1), sentence.word(at + 2)
    sized = figure is not None and figure.sort in FIGURES
    return sized and off is not None and off.low == "off"


def _it_to_size(sentence: Sentence, at: int) -> bool:
    """See “filed it to 0.4”, said of a part that was named before."""
    if _put_into(sentence):
        return False
    it, to, figure = (sentence.word(at + ahead) for ahead in (1, 2, 3))
    return (
        it is not None
        and it.low in ("it", "them")
        and to is not None
        and to.low in ("to", "down to")
        and figure is not None
        and figure.sort in FIGURES
    )


def _put_into(sentence: Sentence) -> bool:
    """See “pressed two bushings into the arm and reamed them”: work on what went in."""
    if not sentence.tags(0) & {"make:past", "close:past", "hold:past"}:
        return False
    named = parts_named(sentence)
    first = named[0] if named else 0
    before = {low for word in sentence.words[1:first] for low in word.low.split(" ")}
    return bool(before & {"into", "onto", "in", "to"}) and first > _PUT_IN


_PUT_IN = 3


def _reworks(sentence: Sentence, verb: int, sense: int) -> bool:
    """Tell “filed 0.15 off the bar” from “knocked it off the table”."""
    if sense <= verb or "article" in sentence.tags(sense - 1):
        return False  # The back of “at the back” is a place.
    if not sentence.words[sense].low.startswith("off "):
        return True
    return any(word.sort in FIGURES for word in sentence.words[verb:sense])
