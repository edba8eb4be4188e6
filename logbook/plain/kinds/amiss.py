"""What is amiss with a thing, with no verb of failing: has no grip, gets dimmer."""

from __future__ import annotations

from logbook.plain.kinds.failing import failure_at
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named

_HAS = frozenset({"has", "have", "had", "got", "has got"})
_NEEDED = frozenset(
    {"grip", "bite", "hold", "power", "contact", "light", "thread", "threads", "signal",
     "pressure", "suction", "picture", "sound", "strength", "purchase", "traction",
     "spark", "flow", "drive"}
)  # fmt: skip
_GETS = frozenset({"gets", "got", "grows", "grew", "becomes", "became", "getting"})
_WORSE = frozenset(
    {"dimmer", "looser", "weaker", "slower", "louder", "worse", "softer", "stiffer",
     "noisier", "darker", "duller", "wobblier", "shakier", "blurrier", "fainter",
     "looser and looser"}
)  # fmt: skip
_THERE = frozenset({"there is", "there's", "theres", "there are"})
_WRONG = frozenset(
    {"play", "slop", "backlash", "rust", "mould", "mold", "rattle", "wobble", "leak"}
)  # fmt: skip
_HITS = frozenset({"hits", "strikes", "scrapes", "fouls", "bangs"})


def amiss_at(sentence: Sentence) -> int | None:
    """Give where a thing lacks what it needs, gets worse, or hits another.

    Not where a size is told: that is measured.
    """
    supposed = any(
        word.tags & {"hypothetical", "conditional"} and word.low not in _KEEPS
        for word in sentence.words
    )
    if supposed or sentence.sorts(*FIGURES):
        return None
    for at in range(len(sentence.words)):
        if any(rule(sentence, at) for rule in _RULES):
            return at
    return None


def _subject(sentence: Sentence, at: int) -> bool:
    """Tell whether a part or a fastener is named before a word."""
    return any(
        word.name is not None or "fastener" in word.tags for word in sentence.words[:at]
    )


def _ends(sentence: Sentence, at: int) -> bool:
    word = sentence.word(at)
    plain = word is not None and word.sort is Sort.WORD
    return not plain or bool(sentence.tags(at) & {"preposition", "joiner", "because"})


def _lacks(sentence: Sentence, at: int) -> bool:
    """See “one of the four screws has no grip”."""
    no, what = sentence.word(at + 1), sentence.word(at + 2)
    if sentence.words[at].low not in _HAS or no is None or what is None:
        return False
    lacking = no.low in ("no", "hardly any") and what.low in _NEEDED
    return lacking and _subject(sentence, at) and _ends(sentence, at + 3)


def _gets_worse(sentence: Sentence, at: int) -> bool:
    """See “lamp gets dimmer by the minute”."""
    how = sentence.word(at + 1)
    worse = how is not None and how.low in _WORSE
    return sentence.words[at].low in _GETS and worse and _subject(sentence, at)


def _hits(sentence: Sentence, at: int) -> bool:
    """See “the lid hits the lens”."""
    what = sentence.word(at + 1)
    led = what is not None and (what.name is not None or "article" in what.tags)
    hits = sentence.words[at].low in _HITS and led and at + 1 < len(sentence.words) - 1
    return hits and any(one < at for one in parts_named(sentence))


def _there_is(sentence: Sentence, at: int) -> bool:
    """See “there is play in the bracket again”."""
    lows = [low for word in sentence.words[at : at + 4] for low in word.low.split(" ")]
    there = " ".join(lows[:2]) in _THERE or lows[:1] in (["there's"], ["theres"])
    rest = [low for low in lows[1:] if low not in ("is", "are", "a", "some", "the")]
    return (
        there and rest[:1] != [] and rest[0] in _WRONG and bool(parts_named(sentence))
    )


_WRONG_WAY = frozenset(
    {"backwards", "upside down", "inside out", "back to front", "wrong way round",
     "the wrong way round", "wrong way up", "wrong side up", "wrong side out",
     "wrong side down", "the wrong way up", "mirrored", "mirror image"}
)  # fmt: skip


def _wrong_way(sentence: Sentence, at: int) -> bool:
    """See “put the collar on backwards”, told last of work on a part."""
    verb = 1 if 0 in parts_named(sentence) else 0  # Lid folded the wrong way round.
    worked = sentence.tags(verb) & {"make:past", "close:past", "step"}
    ends = at == len(sentence.words) - 1 and sentence.words[at].low in _WRONG_WAY
    meant = sentence.word(verb) is not None and (
        sentence.words[verb].low.split(" ")[0] in ("turned", "flipped", "printed")
    )
    return bool(worked) and ends and not meant and bool(parts_named(sentence))


_WHOLLY = frozenset({"over", "along", "through", "around", "round", "across"})
_PUT_ON = frozenset({"make:past", "close:past", "make:base", "todo", "decide"})
_COVERS = frozenset({"paint", "primer", "tape", "wax", "varnish", "oil", "film"})


def _all_over(sentence: Sentence, at: int) -> bool:
    """See “vise marks all over the crossbar”, and nobody who put them there.

    Paint or tape all over it may have been meant.
    """
    over = sentence.word(at + 1)
    if sentence.words[at].low != "all" or over is None or not at:
        return False
    before = sentence.words[:at]
    told = any(word.tags & _PUT_ON or word.low in _COVERS for word in before)
    named = any(at < one <= at + 4 for one in parts_named(sentence))
    return over.low.split(" ")[0] in _WHOLLY and named and not told


_MOVED = frozenset(
    {"slid", "sank", "swung", "shifted", "drifted", "walked", "wandered", "rolled",
     "tipped", "crept", "slewed", "shook", "dropped"}
)  # fmt: skip
_AWAY = frozenset(
    {"down", "off", "away", "sideways", "overnight", "again", "by itself", "over",
     "forward", "forwards", "backwards", "while", "when", "during", "loose", "out"}
)  # fmt: skip


def _moved_by_itself(sentence: Sentence, at: int) -> bool:
    """See “collar slid down the stem overnight”."""
    led = 1 if "article" in sentence.tags(0) else 0
    away = sentence.word(at + 1)
    moved = sentence.words[at].low in _MOVED and away is not None
    whither = away is not None and (away.low in _AWAY or away.sort is Sort.WHEN)
    named = at == led + 1 and sentence.words[led].name is not None
    return moved and whither and named and not sentence.has("fit", "as_is")


_KEEPS = frozenset({"keeps", "keep", "kept", "always", "starts", "started"})


def _keeps_failing(sentence: Sentence, at: int) -> bool:
    """See “lid keeps popping up”."""
    goes_on = "fail:ing" in sentence.tags(at + 1)
    return sentence.words[at].low in _KEEPS and goes_on and _subject(sentence, at)


def _in_a_bad_state(sentence: Sentence, at: int) -> bool:
    """See “dovetails gappy on the left side”: a thing told of, and how it is."""
    led = 1 if "article" in sentence.tags(0) else 0
    what = sentence.word(led)
    bad = sentence.words[at].low in sentence.lexicon.clauses["plainly_bad"]
    told = what is not None and (
        not what.tags or what.name is not None or bool(what.tags & _THINGS)
    )
    if not bad or at != led + 1 or not told or sentence.has(*_MORE):
        return False
    goes_on = sentence.word(at + 1)
    if goes_on is None or goes_on.sort is not Sort.WORD:
        return True
    return goes_on.name is None and bool(goes_on.tags)


_LEFT_SO = frozenset({"left", "leave", "leaving", "keep", "kept", "on purpose"})


def _come_loose(sentence: Sentence, at: int) -> bool:
    """See “one rivet is loose on the lid”: nobody left it so."""
    before = at - 1
    while before > 0 and sentence.tags(before) & {"is", "never_part"}:
        before -= 1
    meant = any(word.low.split(" ")[0] in _LEFT_SO for word in sentence.words)
    loose = before >= 0 and sentence.words[at].low == "loose" and not meant
    nameless = sentence.words[before].name is None
    return loose and nameless and "fastener" in sentence.tags(before)


_RULES = (
    _come_loose, _lacks, _gets_worse, _hits, _there_is, _wrong_way, _all_over,
    _moved_by_itself, _keeps_failing, _in_a_bad_state,
)  # fmt: skip

_THINGS = frozenset({"structure", "fastener", "material", "generic"})
_MORE = frozenset(
    {"scrap", "repair", "give_back", "as_is", "decide", "todo", "hypothetical",
     "conditional", "guess", "fit", "rework", "question", "order_done", "off_strong"}
)  # fmt: skip
_WORK = frozenset({"make", "close", "take_back", "rework", "use", "hold"})


def fails_told_first(sentence: Sentence) -> int | None:
    """Give the verb of “the base judders at low speed”: a part, and what befell it."""
    led = 0
    while (
        sentence.tags(led) & {"article", "adjective"} and not sentence.words[led].name
    ):
        led += 1
    part, at = sentence.word(led), led + 1
    tags = {tag.removesuffix(":past") for tag in sentence.tags(at)}
    if part is None or part.name is None or part.name.role not in ("part", "piece"):
        return None
    plain = "fail" in tags and "fail:base" not in tags and not tags & _WORK
    return (
        at
        if plain and not sentence.has(*_MORE) and failure_at(sentence) == at
        else None
    )
