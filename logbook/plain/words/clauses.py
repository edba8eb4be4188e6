"""The clauses of a line: what went wrong or was measured, what cured it, remarks.

“hole 4.7, model says 5, drilled it out” tells a size and its cure; “bore 6.2
nominal 6, loose on the shaft” a size and a remark. The cure and the remark are
set apart, so that the rest is understood by itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence

_DONE = frozenset({"repair:past", "rework:past", "take_back:past", "instead_done"})
_LED = frozenset(
    {
        "and", "then", "so", "i", "we", "he", "she", "had", "to", "now", "just",
        "finally", "later", "therefore", "hence", "but", "-", ",", "in", "the", "end",
    }
)  # fmt: skip
_AGAIN = frozenset({"again", "anew", "afresh", "another", "once more", "new", "one"})
_SPOILED = frozenset(
    {"too_bad", "adverse", "because", "negative", "attribution_drawing", "guess",
     "attribution_piece", "attribution_machine", "todo", "defect", "cause_only"}
)  # fmt: skip
_MORE_FACTS = frozenset(
    {
        "fail:past", "scrap", "decide", "because", "make:past", "close:past", "cure",
        "order_done", "attribution_drawing", "attribution_piece", "give_back",
        "attribution_machine", "rework:past", "take_back:past", "todo", "instead",
        "withdrawn", "guess", "absent", "untried", "as_is", "repair:past", "defect",
        "rework", "negation", "use:past",
    }
)  # fmt: skip


def clauses(sentence: Sentence) -> Iterator[tuple[int, int]]:
    """Go through the clauses between commas and other stops, as word places."""
    start = 0
    for at, word in enumerate(sentence.words):
        if word.sort is Sort.MARK and word.low in ",;.-!":
            if at > start:
                yield start, at
            start = at + 1
    if start < len(sentence.words):
        yield start, len(sentence.words)


def find_cure(sentence: Sentence) -> tuple[int, int] | None:
    """Give from where to where a line tells what was done about it."""
    for start, end in clauses(sentence):
        if start and _mends(sentence, start, end):
            return _first_led(sentence, start, end), end
        for at in range(start + 1, end - 1):
            joined = sentence.words[at].low in ("and", "so", "then", "but")
            if joined and _mends(sentence, at + 1, end):
                return _first_led(sentence, at + 1, end), end
    return None


def _first_led(sentence: Sentence, start: int, end: int) -> int:
    """Give where the clause begins to tell something: “and then I” leads to it."""
    at = start
    while at < end - 1 and (
        sentence.words[at].sort is Sort.WHEN
        or all(word in _LED for word in sentence.words[at].low.split())
    ):
        at += 1
    return at


def _mends(sentence: Sentence, start: int, end: int) -> bool:
    """Tell whether a clause tells of a remedy, not of how it happened."""
    at = _first_led(sentence, start, end)
    inside = sentence.words[at:end]
    tags = {tag for word in inside if word.low != "next time" for tag in word.tags}
    lows = {word.low for word in inside}
    spoils = sentence.lexicon.clauses["spoils"]
    held = lows & {"in the vise", "in the vice"}
    worked = ends_well(sentence, inside)
    advised = _advised(sentence, at, end)
    if worked or advised:
        spoils = spoils - {"first"}
    if _took_so_long(inside):
        return False
    spoiled = tags & (_SPOILED - {"adverse"} if held else _SPOILED)
    single = {one for low in lows if low.startswith("too ") for one in low.split()}
    if spoiled or (lows | single) & spoils or len(inside) > 14:
        return False
    if "decide" in sentence.tags(at) and not tags & {"todo", "as_is"}:
        return True  # Going with rivet nuts from now on.
    if advised or _mending_verb(sentence, at, led=sentence.words[start:at]):
        return True
    if _put_in_instead(sentence, inside):
        return True
    ing = bool(sentence.tags(at) & {"make:ing", "close:ing", "use:ing"})
    if ing and lows & {"now", "instead", "right now"}:
        return True
    return worked


def _took_so_long(words: list[Word]) -> bool:
    """See “took 3 h 20”: how long it was, nothing that was done."""
    behind = words[1:]
    timed = any(word.dimension == "time" for word in behind)
    return timed and all(
        word.dimension == "time" or word.tags & {"filler", "vague", "joiner"}
        for word in behind
    )


_OF_IT = frozenset({"it", "that", "this", "them"})


def ends_well(sentence: Sentence, words: list[Word], *, of_it: bool = False) -> bool:
    """See what a clause says of itself at its end: printing slower cured it.

    `of_it` where it must say so of what went wrong.
    """
    said = " ".join(word.low for word in words).split(" ")
    known = sentence.lexicon.clauses["worked"]
    named = said[-1] in _OF_IT or not of_it
    return named and any(" ".join(said[-size:]) in known for size in (1, 2, 3))


_ADVICE = frozenset({"make:base", "close:base", "use:base", "rework:base"})
_OBJECT = frozenset({"article", "fastener", "material"})
_HOW_IT_IS = frozenset({"dry", "clean", "warm", "square", "level", "slow", "rough"})


def _advised(sentence: Sentence, at: int, end: int) -> bool:
    """See advice in the imperative: take M3x6, warm it first, print slower."""
    word, following = sentence.words[at], sentence.word(at + 1)
    words = sentence.words[at:end]
    if following is None or at + 1 >= end or not word.tags & _ADVICE:
        return False
    if word.low in _HOW_IT_IS and "material" in following.tags:
        return False  # Dry wood, clean steel: how the stuff was.
    if any(one.tags & {"fail:past", "is", "negative", "plain_verb"} for one in words):
        return False
    if "fastener" in word.tags and following.tags & {"fastener", "structure"}:
        return False  # A rivet head rivets nothing.
    if any(tag.endswith(":past") for tag in word.tags) and word.low not in (
        "put",
        "set",
    ):
        return False
    about = following.low in ("it", "them") or following.name is not None
    figure = following.sort in (Sort.THREAD, Sort.NUMBER, Sort.COUNT)
    better = following.low in sentence.lexicon.clauses["better"]
    return about or figure or better or bool(following.tags & _OBJECT)


def _mending_verb(sentence: Sentence, at: int, *, led: list[Word]) -> bool:
    word, following = sentence.words[at], sentence.word(at + 1)
    verbs = sentence.lexicon.clauses["mends"]
    pair = f"{word.low} {following.low}" if following is not None else word.low
    first = word.low.split(" ")[0]
    said = " ".join(one.low for one in sentence.words[at : at + 3]).split(" ")
    if word.low in verbs or pair in verbs or " ".join(said[:2]) in verbs:
        return True
    if first in verbs and " " in word.low:
        return True
    past = {tag for tag in word.tags if tag.endswith(":past")}
    once_more = {one.low for one in sentence.words[at : at + 8]} & _AGAIN
    if once_more and past & {"make:past", "close:past"}:
        return True
    better = sentence.lexicon.clauses["better"]
    if past & {"make:past", "close:past"} and better & {
        one.low for one in sentence.words[at : at + 8]
    }:
        return True
    if _deals_with(sentence, word, following):
        return True
    about_it = {one.low for one in sentence.words[at + 1 : at + 8]} & {"it", "them"}
    process = sentence.lexicon.clauses["process"]
    plain = past & {"make:past", "close:past"} and not past & {"fail:past"}
    if about_it and (plain or word.low == "stuck") and word.low not in process:
        return word.low not in sentence.lexicon.clauses["happens"]
    if word.low.startswith("re") and past & {"make:past", "close:past"}:
        return True
    had_to = any(one.low in ("had to", "had") for one in led)
    base = word.tags & {"make:base", "rework:base", "take_back:base", "repair:base"}
    if had_to and (base or word.low.startswith("re")):
        return True
    return bool(past & _DONE) and first not in ("made", "took", "bent", "opened")


_PUT_IN = frozenset({"make:past", "close:past", "use:past", "hold:past"})
_AT_MOST = 4


def _put_in_instead(sentence: Sentence, words: list[Word]) -> bool:
    """See “shorter one fitted”, “two washers added”: the verb of a cure stands last."""
    better = sentence.lexicon.clauses["better"]
    other = better | {"new", "another", "second", "different", "spare"}
    for at, word in enumerate(words[1 : _AT_MOST + 1], 1):
        lows = {low for one in words[:at] for low in one.low.split(" ")}
        put_in = bool(word.tags & _PUT_IN and lows & other) or word.low == "added"
        ends = at + 1 == len(words) or "preposition" in words[at + 1].tags
        if put_in and ends and not lows & {"wrong", "no", "not", "old"}:
            return True
    return False


_DEALT_WITH = frozenset(
    {
        "it", "them", "that", "both", "this", "those", "these", "some", "a", "an",
        "the", "off", "out", "back", "down", "up", "in",
    }
)  # fmt: skip


def _deals_with(sentence: Sentence, word: Word, following: Word | None) -> bool:
    """See an unknown verb done to something: pared it, elongated them."""
    verb = not word.tags and word.name is None and word.sort is Sort.WORD
    done = verb and word.low.endswith("ed") and len(word.low) > 4
    melted_in = word.low == "melted" and following is not None
    if not (done or melted_in) or word.low in sentence.lexicon.clauses["happens"]:
        return False
    if following is None:
        return False
    behind = sentence.words[sentence.words.index(word) + 1 :]
    about_it = {one.low for one in behind[:6]} & {"it", "them"}
    into = following.low == "in" and "article" in sentence.tags(
        sentence.words.index(word) + 2
    )
    if into and not about_it:
        return False  # The screw bottomed in the insert: where it went.
    return following.low in _DEALT_WITH or bool(about_it)


def reworks(sentence: Sentence, at: int) -> str:
    """Give what a cure that begins here does with the piece; empty where not sure."""
    word = sentence.words[at]
    if word.low.split(" ")[0] in ("made", "took", "bent", "opened"):
        return ""
    made = [low for one in sentence.words[at + 1 : at + 4] for low in one.low.split()]
    if {"new", "another"} & set(made[:3]):
        return ""  # Drilled a new one: nothing is done to the one that failed.
    whole = {"it", "them"} & set(made)
    if "repair:past" in word.tags or ("close:past" in word.tags and whole):
        return "repair"
    return "rework" if word.tags & {"rework:past", "take_back:past"} else ""


def without(sentence: Sentence, start: int, end: int) -> Sentence:
    """Give the sentence without these words and the joiners before them."""
    before = sentence.words[:start]
    while before and (
        before[-1].sort is Sort.MARK
        or all(word in _LED for word in before[-1].low.split())
    ):
        before = before[:-1]
    rest = sentence.words[end:]
    return replace(sentence, words=[*before, *rest], spans={})


def without_reason(sentence: Sentence) -> Sentence | None:
    """Give the sentence without a last clause that says how it came: print shrank."""
    rows = list(clauses(sentence))
    if len(rows) < 2:
        return None
    start, end = rows[-1]
    if any(word.sort is not Sort.WORD for word in sentence.words[start:end]):
        return None
    return without(sentence, start, end)


_PLANS = frozenset({"will", "i'll", "we'll", "shall", "next time", "next one"})


def without_plan(sentence: Sentence) -> Sentence | None:
    """Give the sentence without a last clause of what will be: will shim the next."""
    rows = list(clauses(sentence))
    if len(rows) < 2 or sentence.words[rows[-1][0]].low not in _PLANS:
        return None
    plain = without(sentence, *rows[-1])
    return plain if plain.words else None  # “…, will shim the next one”.


def without_remark(sentence: Sentence) -> Sentence | None:
    """Give the sentence without its last clause, where that only remarks."""
    rows = list(clauses(sentence))
    if len(rows) < 2:
        return None
    start, end = rows[-1]
    tail = sentence.words[start:end]
    if any(word.sort is not Sort.WORD for word in tail):
        return None
    praise = [word.low for word in tail] == ["good enough"]
    if not praise and any(
        word.tags & _MORE_FACTS or word.name is not None for word in tail
    ):
        return None
    return without(sentence, start, end)
