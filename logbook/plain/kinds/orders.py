"""Things ordered, bought, sent out or received."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.money import money, priced
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def ordered(sentence: Sentence, values: Values) -> Choice | None:
    """See something ordered, bought, sent out or received."""
    found = [at for at in sentence.tagged("order_done") if _is_ordered(sentence, at)]
    if found and values.off is not None and parts_named(sentence):
        return None  # Came back 0.3 too thick: the size is what counts.
    if found and (
        sentence.words[found[0]].low not in ("wants", "cost", "costs")
        or money(sentence)
    ):
        following = sentence.word(found[0] + 1)
        bare = following is not None and following.sort is Sort.NUMBER
        told = sentence.has("measures") or values.wanted
        if found[0] and bare and values.readings and told:
            return None
        return Choice(Kind.ORDER, 0.88, found[0])
    gone = in_work_elsewhere(sentence)
    if gone is not None or (gone := gone_out(sentence)) is not None:
        return Choice(Kind.ORDER, 0.85, gone)
    if priced(sentence) and parts_named(sentence):
        return Choice(Kind.ORDER, 0.75, -1)
    got = sentence.tagged("order_got")
    if got and got[0] == 0 and not _made_of_it(sentence):
        following = sentence.word(1)
        if following is not None and following.sort not in FIGURES:
            return Choice(Kind.ORDER, 0.75, 0)
        if following is not None and _so_much_of(sentence, 1):
            return Choice(Kind.ORDER, 0.75, 0)
    due = _due_at(sentence)
    return None if due is None else Choice(Kind.ORDER, 0.75, due)


def _made_of_it(sentence: Sentence) -> bool:
    """See “got 3 lids out of the sheet”: made of it, and nothing that came."""
    stock = [at for at in sentence.tagged("material") if at > 1]
    led = {low for at in stock for one in sentence.words[max(0, at - 2) : at]
           for low in one.low.split(" ")}  # fmt: skip
    return bool({"out", "of"} <= led or "from" in led)


def _due_at(sentence: Sentence) -> int | None:
    """Give where it is told when goods are to come, or what is with somebody else."""
    for at in sentence.tagged("due") if sentence.sorts(Sort.WHEN) else ():
        stays = sentence.words[at].low.split(" ")[0] in _STAYS
        goods = _are_goods(sentence, at) and not stays
        if goods or (sentence.has("outside_work") and sentence.sorts(Sort.COUNT)):
            return at
    return None


_STAYS = frozenset({"until", "till", "by"})
"""Until then something is where it is, and by then something else is to be done."""
_PARCEL = frozenset({"they", "it", "these", "those", "order", "parcel", "delivery",
                     "package", "rest", "goods", "others", ","})  # fmt: skip
_PACKS = frozenset(
    {"roll", "rolls", "spool", "spools", "sheet", "sheets", "bottle", "bottles", "tin",
     "tins", "bag", "bags", "box", "boxes", "reel", "reels", "pack", "packs", "length",
     "lengths", "can", "cans", "pair", "pairs", "set", "sets", "of", "is", "are"}
)  # fmt: skip
_OF_GOODS = {"article", "adjective", "generic", "material", "fastener", "stock_form"}


def _are_goods(sentence: Sentence, at: int) -> bool:
    """Tell whether only goods are named before: the new collars, the rest of it."""
    row = [word for word in sentence.words[:at] if word.low not in _PACKS]
    if row and row[0].sort is Sort.NUMBER:
        row = row[1:]  # 10 m of cable.
    return any(
        word.name is not None
        or word.sort is Sort.THREAD
        or (word.low in _PARCEL and word.low != ",")
        or word.tags & {"material", "fastener", "stock_form"}
        for word in row
    ) and all(
        word.name is not None
        or word.sort in (Sort.THREAD, Sort.COUNT)
        or word.low in _PARCEL
        or word.tags & _OF_GOODS
        for word in row
    )


def _under_way(sentence: Sentence) -> int | None:
    """Give the post of “the lamp is in the post”, where a part is all that is named."""
    for at in sentence.tagged("order_done"):
        way = sentence.words[at].low.startswith(("in ", "on "))
        told = parts_named(sentence) or sentence.sorts(Sort.WHEN)
        if way and at > 1 and _are_goods(sentence, at) and told:
            return at
    return None


_BEING = frozenset({"being", "getting"})


def in_work_elsewhere(sentence: Sentence) -> int | None:
    """Give the word that tells what is in work at somebody else's.

    The glazier is cutting 3 diffusers; 2 brackets being welded at the smithy; base is
    at the powder coater; the brackets are due on the 3rd; the lamp is in the post.
    """
    if (due := _due_at(sentence)) is not None:
        return due
    if (under := _under_way(sentence)) is not None:
        return under
    away = sentence.tagged("outside_work")
    named = parts_named(sentence) or sentence.sorts(Sort.COUNT)
    if not away or not named:
        return None
    for at, word in enumerate(sentence.words):
        led = at > 0 and "is" in sentence.tags(at - 1) and word.low.endswith("ing")
        if led and away[0] < at <= away[0] + 3:
            return away[0]
    for at in sentence.tagged("make:past", "close:past"):
        being = at > 0 and sentence.words[at - 1].low in _BEING
        if being and at < away[0] <= at + 4:
            return at
    return next((at for at in away if _is_at(sentence, at)), None)


def out_at_a_price(sentence: Sentence) -> int | None:
    """See what is out at somebody else's: 4 plates out for plating, 22.00, back friday.

    The price stands by itself. When it comes back is told apart from it.
    """
    alone = any(
        not sentence.words[at].unit
        and _is_price(sentence.words[at])
        and sentence.words[at - 1].sort is Sort.MARK
        for at in sentence.sorts(Sort.NUMBER)
        if at
    )
    out = [
        at
        for at, word in enumerate(sentence.words[:-2])
        if word.low in ("out", "off")
        and sentence.words[at + 1].low == "for"
        and sentence.words[at + 2].low.endswith("ing")
    ]
    away = [*sentence.tagged("outside_work"), *out]
    named = bool(parts_named(sentence) or sentence.sorts(Sort.COUNT))
    named = named or (
        sentence.has("material", "fastener") and sentence.has("condition")
    )
    return away[0] if alone and away and named else None


def _is_price(word: Word) -> bool:
    """Tell whether a bare figure looks like money: two digits behind its point."""
    return len(word.amounts[0].replace(",", ".").partition(".")[2]) == _CENTS


_CENTS = 2


def _is_ordered(sentence: Sentence, at: int) -> bool:
    """Tell “ordered” from order!, orders, and what only says which one it is."""
    tags = sentence.tags(at)
    if "order_done:now" in tags or not (
        "order_done:base" not in tags or "order_done:past" in tags
    ):
        return False
    if sentence.words[at].low == "back from" and at:
        beside = (sentence.words[at - 1], sentence.word(at + 1))
        figure = any(one is not None and one.sort in FIGURES for one in beside)
        return not figure  # 0.6 back from the line, bent back from 89.6 to 90.
    return not (_by_the_way(sentence, at) or _got_done(sentence, at))


def _so_much_of(sentence: Sentence, at: int) -> bool:
    """See “got 5 m of cable”, “got 2 sheets”: not “got 178.5 for the opening”."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if following is None or word.has_decimals:
        return False
    stuff = following.tags & {"material", "fastener"} or following.name is not None
    return following.low == "of" or bool(stuff and word.unit != "mm")


def _got_done(sentence: Sentence, at: int) -> bool:
    """See “got the lid riveted shut”: work, and nothing that came."""
    got = sentence.words[at].low.split(" ")[0] == "got"
    away = {word.low for word in sentence.words[at + 1 : at + 4]} & _MOVED
    if got and away and not sentence.has("outside_work"):
        return True
    noun = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    done = sentence.tags(noun + 1) & {"make:past", "close:past", "step"}
    named = sentence.word(noun)
    return got and bool(done) and named is not None and named.name is not None


_MOVED = frozenset({"out of", "off", "off of", "into", "onto", "in", "on", "out"})


def _by_the_way(sentence: Sentence, at: int) -> bool:
    """See “the lamp I bought draws 12 W”: which one it is, nothing ordered."""
    who = sentence.word(at - 1) if at > 1 else None
    which = sentence.tags(at - 2) if at > 1 else frozenset()
    after = sentence.word(at + 1)
    goes_on = after is not None and (
        "is" in after.tags or any(tag.endswith(":now") for tag in after.tags)
    )
    named = at > 1 and sentence.words[at - 2].name is not None
    noun = named or bool(which & {"fastener", "material", "structure"})
    return who is not None and who.low in ("i", "we", "they") and noun and goes_on


def _is_at(sentence: Sentence, at: int) -> bool:
    """See “base is at the powder coater until thursday”: that is where it is."""
    first = at - 1 if "article" in sentence.tags(at - 1) else at
    lows = [word.low for word in sentence.words[max(0, first - 2) : first]]
    named = sentence.word(first - 3) if first > 2 else None
    return lows in (["is", "at"], ["are", "at"]) and (
        named is not None and named.name is not None
    )


_GONE = frozenset({"gave", "given", "passed", "gone", "out", "off", "away", "dropped",
                   "taken", "took", "left", "carried", "drove", "driven",
                   "brought", "handed", "went"})  # fmt: skip


_WORKS = frozenset({"shop", "place", "people", "works", "firm", "service"})


def _working(sentence: Sentence) -> Iterator[int]:
    """Go through those named by what they do: the sanding shop, the etching people."""
    for at, word in enumerate(sentence.words):
        if at and word.low in _WORKS and sentence.words[at - 1].low.endswith("ing"):
            yield at


def gone_out(sentence: Sentence) -> int | None:
    """Give where it is told what went to somebody else: gone to the powder coater."""
    for at in (*sentence.tagged("outside_work"), *_working(sentence)):
        led = [word.low for word in sentence.words[max(0, at - 3) : at]]
        before = {one for word in sentence.words[:at] for one in word.low.split()}
        to = {one for low in led for one in low.split()} & {"to", "at", "with", "for"}
        if to and before & _GONE and parts_named(sentence):
            return at
    return out_at_a_price(sentence)


def to_be_fetched(sentence: Sentence, _: Values) -> Choice | None:
    """See “get 3.2 rivets, the long ones”: so big, and not so many."""
    size, goods = sentence.word(1), sentence.word(2)
    if sentence.words[0].low != "get" or size is None or goods is None:
        return None
    sized = size.sort is Sort.THREAD or (size.sort in FIGURES and goods.whole is None)
    sized = sized and (size.whole is None or bool(size.unit))
    made = sentence.tags(2) & {"article"} or goods.name is not None
    return Choice(Kind.NOTE, 0.85, 0) if sized and not made else None
