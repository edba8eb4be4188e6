"""Decisions: what is to be made, used or left so from now on."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.chosen_over import chosen_over
from logbook.plain.kinds.dispositions import disposed_at
from logbook.plain.kinds.next_time import in_another_size_at, sized_next_time_at
from logbook.plain.kinds.of_releases import (
    becomes_at,
    for_a_release_at,
    published_at,
)
from logbook.plain.kinds.refused import refused_at
from logbook.plain.kinds.verbless import (
    instead_of_it,
    only_at,
    order_at,
    out_and_in,
    so_not_so,
    the_others_at,
)
from logbook.plain.kinds.verbs import first_past, to_be_made
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named


def decision_at(sentence: Sentence) -> int | None:
    """Give where something is decided."""
    because = sentence.tagged("because")
    for at in sentence.tagged("decide", "imperative_use"):
        word = sentence.words[at]
        if because and because[0] < at:
            continue
        if "decide" not in word.tags and at > 0:
            continue
        if not _no_choice(sentence, at):
            return at
    return None


def _no_choice(sentence: Sentence, at: int) -> bool:
    """See what a word of deciding tells otherwise: keeps coming loose, going back."""
    word, behind = sentence.words[at], sentence.word(at + 1)
    ends = behind is None or behind.sort is Sort.MARK
    return (
        (word.low.startswith("keep") and _goes_on(sentence, at + 1))
        or (word.low == "to be" and sentence.has("order_done", "fail:past"))
        or (word.low == "to be" and _found_so(sentence, at))
        or (word.low == "good enough" and _said_last(sentence))
        or (word.low in ("going", "going to") and _goes_somewhere(sentence, at + 1))
        or ("give_back" in word.tags and ends)
        or _no_more_of_it(sentence, at)
        or (at > 0 and word.low in ("lets", "let the", "let it"))  # It lets light in.
        or (at > 0 and "waste" in word.tags and _led_to(sentence, at))
        or (word.low == "rather" and at > 0 and _says_how(sentence, at + 1))
        or (word.low == "stay" and not _stays(sentence, at))
        or (word.low == "leaving" and _is_left_over(sentence, at))
        or (word.low in ("stay", "leave", "keep", "go for") and at > 3)
    )


def _found_so(sentence: Sentence, at: int) -> bool:
    """See the rest of “I found the bar to be 178.4 long”, behind its part."""
    figure = sentence.word(at + 1)
    led = "article" in sentence.tags(0) and 1 in parts_named(sentence)
    return led and at == len("ab") and figure is not None and figure.sort in FIGURES


def _is_left_over(sentence: Sentence, at: int) -> bool:
    """See “cut the mask leaving 2 mm spare”: so much was left by the work."""
    worked = sentence.words[0].tags & {"make:past", "take_back:past"}
    stopped = at > 0 and sentence.words[at - 1].sort is Sort.MARK
    return bool(worked) and not stopped


def _led_to(sentence: Sentence, at: int) -> bool:
    """Tell the skip of “went to the skip” from that of “skip the second coat”."""
    return sentence.words[at - 1].low.split(" ")[-1] in ("the", "to", "in", "into")


def _says_how(sentence: Sentence, at: int) -> bool:
    """See the warm of “lamp 58 C, rather warm”: so it is, and nobody chose it."""
    how, behind = sentence.word(at), sentence.word(at + 1)
    ends = behind is None or behind.sort is Sort.MARK
    return how is not None and how.sort is Sort.WORD and not how.name and ends


def _goes_somewhere(sentence: Sentence, at: int) -> bool:
    """See who goes to the shop, what gets here, what goes round and round."""
    rest = [word.low for word in sentence.words[at : at + 3]]
    if rest[:1] == ["to"] or (at and sentence.words[at - 1].low == "going to"):
        rest = rest[1:] if rest[:1] == ["to"] else rest
        return rest[:1] in (["the"], ["a"], ["get"], ["town"])
    return rest[:1] in (["round"], ["around"], ["home"], ["out"], ["well"], ["fine"])


def _fated(sentence: Sentence) -> bool:
    """See what was done with a piece behind a choice: rejected and going back."""
    at = disposed_at(sentence)
    tags = sentence.tags(at) if at is not None else frozenset[str]()
    told = tags & {"scrap", "give_back"} and "decide" not in tags
    ahead = sentence.has(
        "planned", "negation", "instead", "hypothetical", "negative", "order_wish"
    )
    return bool(told) and not ahead and bool(parts_named(sentence))


def _no_more_of_it(sentence: Sentence, at: int) -> bool:
    """See what was put an end to: shaved the bed, felt in the lid, no more binding."""
    ing = _goes_on(sentence, at + 1) or sentence.tags(at + 1) & {"fail", "defect"}
    more = sentence.words[at].low.startswith("no more")
    return more and bool(ing) and at > 1


def _stays(sentence: Sentence, at: int) -> bool:
    """Tell “can stay as it is” from a lid stay."""
    following = sentence.word(at + 1)
    led = at and sentence.tags(at - 1) & {"negative", "todo", "hypothetical", "able"}
    ends = following is None or bool(following.tags & {"preposition", "as_is"})
    return bool(led) or ends


def _goes_on(sentence: Sentence, at: int) -> bool:
    """See the coming of “keep coming loose”: no decision to keep something."""
    word = sentence.word(at)
    return word is not None and word.low.split(" ")[0].endswith("ing")


_AMOUNTS = (Sort.COUNT, Sort.TIMES, Sort.NUMBER, Sort.SIZE, Sort.THREAD)


_OF_AN_ORDER = frozenset({"number", "form", "is", "was", "came", "confirmation", "no"})
"""What is told of an order, where none is wished: order cancelled, order number."""


def _wish_at(sentence: Sentence) -> int | None:
    """See an order as a decision: order 5 spare masks."""
    following = sentence.word(1)
    if "order_wish" in sentence.tags(0) and following is not None:
        amounts = [sentence.words[at] for at in sentence.sorts(*_AMOUNTS)]
        whole = [one for one in amounts if "/" not in one.text]
        told = following.low in _OF_AN_ORDER or following.low.endswith("ed")
        wished = not told and (parts_named(sentence) or whole)
        return 0 if wished and following.low != "for" else None
    if (emptied := _none_is_left(sentence)) is not None:
        return emptied
    going = "order_done:ing" in sentence.tags(0)
    if going and {word.low for word in sentence.words} & {"more", "spare", "another"}:
        return 0
    base = to_be_made(sentence)
    sized = sentence.sorts(*FIGURES) and sentence.has("off_strong")
    if base and sized and following is not None and "article" in following.tags:
        return 0  # Make the bar 2 mm shorter.
    counted = sentence.sorts(Sort.COUNT)[:1] == [1]
    more = {word.low for word in sentence.words} & {"spare", "more", "extra", "another"}
    return 0 if base and more and (counted or parts_named(sentence)) else None


_EMPTIED = ("the last", "used up", "out of", "no more", "nearly out", "almost out",
            "all gone", "is gone", "are gone", "only half", "left")  # fmt: skip


def _none_is_left(sentence: Sentence) -> int | None:
    """Give the order of “used up the last of the ply, order a sheet”: why, and what."""
    rows = [*clauses(sentence)]
    said = " ".join(word.low for word in sentence.words[: rows[0][1]]) if rows else ""
    if len(rows) < 2 or not any(one in said for one in _EMPTIED):
        return None
    start, end = rows[-1]
    what = {low for word in sentence.words[start + 1 : end]
            for low in word.low.split(" ")}  # fmt: skip
    much = bool(what & {"a", "an", "more", "another", "some", "new", "two", "one"})
    much = much or any(
        word.sort in (*FIGURES, Sort.COUNT) for word in sentence.words[start + 1 : end]
    )
    return start if "order_wish" in sentence.tags(start) and much else None


def _will_at(sentence: Sentence) -> int | None:
    """See “will oil it, no varnish”: what is to be done."""
    first = sentence.word(0)
    will = first is not None and first.low in ("will", "i'll", "we'll", "ill", "shall")
    return 0 if will and sentence.tags(1) & {"make:base", "close:base"} else None


def _changed_at(sentence: Sentence) -> int | None:
    """See “changed the slot from 2.2 to 2.5”: a choice, with what was before."""
    lows = [word.low.split(" ")[0] for word in sentence.words]
    if lows[:1] not in (["changed"], ["altered"], ["increased"], ["reduced"]):
        return None
    for at in sentence.sorts(Sort.NUMBER):
        if lows[at - 1] == "from" and "to" in lows[at + 1 : at + 3]:
            return 0
    return None


def _gets_at(sentence: Sentence) -> int | None:
    """See how it is to be made: the crossbar gets made last, have 6 more made."""
    first, last = sentence.word(0), len(sentence.words) - 1
    have = first is not None and first.low in ("have", "having", "get", "getting")
    if have and sentence.tags(last) & {"make:past"} and parts_named(sentence):
        return 0
    for at, word in enumerate(sentence.words[:-1]):
        named = any(one.name is not None for one in sentence.words[:at])
        past = sentence.tags(at + 1) & {"make:past", "close:past"}
        early = first_past(sentence)
        has = (early is None or early > at) and _is_given(sentence, at + 1)
        if word.low in ("gets", "get") and named and (past or has):
            return at
    return None


def _is_given(sentence: Sentence, at: int) -> bool:
    """See what a part gets: one round hole, a washer, wax first."""
    counted = sentence.sorts(Sort.COUNT).count(at) or "article" in sentence.tags(at)
    last = at + 3 if counted else at + 1
    given = {"structure", "fastener", "material"}
    return any(sentence.tags(one) & given for one in range(at, last + 1))


_RULES = (
    for_a_release_at, becomes_at, published_at, in_another_size_at, chosen_over,
    sized_next_time_at,
    so_not_so, out_and_in, instead_of_it, _wish_at, _will_at, _changed_at, _gets_at,
    order_at, the_others_at, only_at,
)  # fmt: skip


def decided(sentence: Sentence, values: Values) -> Choice | None:
    """See a decision, an order to place, or a piece to be used as it is."""
    at = decision_at(sentence)
    if at is None and "cure" in sentence.tags(0):
        at = 0
    if at is None:
        at = refused_at(sentence)
    for rule in _RULES:
        at = rule(sentence) if at is None else at
    if at is None and sentence.has("as_is"):
        measured = bool(values.readings) and _said_last(sentence)
        at = None if measured else sentence.tagged("as_is")[0]
    if at is None or (at > 0 and _reworked_before(sentence, at)) or _fated(sentence):
        return None
    if (
        at == 0
        and sentence.words[0].low in ("use", "use the")
        and sentence.has("as_is")
    ) and _piece_named(sentence):
        return Choice(Kind.DISPOSITION, 0.85, at)
    return Choice(Kind.DECISION, 0.85, at)


_REWORKED = frozenset({"rework:past", "take_back:past", "repair:past"})


def _reworked_before(sentence: Sentence, at: int) -> bool:
    """See what made it good: straightened base 2 in the vise, ok to use."""
    first = sentence.tags(0) & _REWORKED
    told = sentence.words[at]
    good = "as_is" in told.tags or told.low.startswith(("ok to", "good to", "fine to"))
    return bool(first) and good


def _said_last(sentence: Sentence) -> bool:
    """See the remark behind a size: measured 2.9, drawing says 3, good enough."""
    at = sentence.tagged("as_is")[0]
    rows = list(clauses(sentence))
    start, end = rows[-1]
    figures = any(word.sort in FIGURES for word in sentence.words[:start])
    praise = sentence.words[at].low in ("good enough", "ok as is", "live with")
    return start <= at < end <= start + 3 and start > 0 and figures and praise


def _piece_named(sentence: Sentence) -> bool:
    if any(any(sign.isdigit() for sign in sentence.words[at].low.split(" ")[-1])
           for at in sentence.named("piece")):  # fmt: skip
        return True
    for at in sentence.named("part"):
        following = sentence.word(at + 1)
        if following is not None and following.whole is not None and not following.unit:
            return True
    return False
