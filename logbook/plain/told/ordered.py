"""What was ordered: the part it is or is for, how many, what it cost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.outcomes import told
from logbook.plain.understanding import Bought
from logbook.plain.when.days import UNDERWAY
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.priced import PRICE
from logbook.plain.words.sentence import Sentence

_ENDS = frozenset(
    {"for", "to", "from", "at", "due", "coming", "back", "until", "by", "because"}
)
_SPANS_OF_TIME = frozenset({"week", "day", "month", "hour", "year"})


def ordered_part(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give the one known part that an ordered screw can be: M4x20 for M4x20 screw."""
    if sentence.named("part"):
        return {}
    for at in sentence.sorts(Sort.THREAD):
        word = sentence.words[at]
        if part := bought_as(sentence, word):
            sentence.note("part", word)
            return {"part": part}
    return {}


def bought_as(sentence: Sentence, word: Word) -> str:
    """Give the one known part that is bought by this name; empty where none is."""
    found = sentence.vocabulary.containing((word.low,))
    known = len(found) == 1 and found[0] in sentence.vocabulary.parts
    return found[0] if known else ""


def ordered_item(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give in words what was ordered, where a part does not say all of it.

    Each thing of several is one by itself: 40 screws and 2 kg of PETG.
    """
    at = choice.at if choice.at >= 0 else (sentence.tagged("order_done") or [-1])[0]
    words = _item(sentence, at + 1)
    told_by = sentence.words[choice.at]
    if not words and (told_by.low in _STANDS or "due" in told_by.tags):
        words = [one for one in _item(sentence, 0, choice.at) if "is" not in one.tags]
    doing: list[Word] = []
    while words and words[0].low in _BROUGHT | _ON_THE_WAY:
        words = words[1:]
    while words and (words[0].low in _FOR_ME or _is_doing(words[0])):
        doing, words = [*doing, words[0]], words[1:]
    words, *more = several_items(sentence, words) or [[]]
    besides = tuple(one for row in more for one in _one_more(sentence, row))
    facts: dict[str, Any] = {"besides": besides} if besides else {}
    quantity, named = _counted(words)
    quantity = quantity or _told_apart(sentence)
    if quantity is None and besides:
        facts["quantity"] = None  # 5 m of cable: the 20 screws beside are no cables.
    if quantity is not None:
        facts["quantity"] = quantity.whole
        sentence.note("quantity", quantity, *doing)
        if quantity in sentence.spans.get("wanted", []):
            facts["wanted"] = ()  # 12 glass eyes: so many, and no size of glass.
            sentence.spans.pop("wanted")
    figures = all(word.sort is Sort.NUMBER for word in named)  # Paid 12.40 for it.
    if not named or figures or all(_is_part(word) for word in named):
        return facts
    sentence.spans.pop("readings", None)
    return {**facts, **told(sentence, "item", [*named]), "readings": ()}


def _counted(words: Sequence[Word]) -> tuple[Word | None, Sequence[Word]]:
    """Part how many there are from what they are."""
    while words and ("article" in words[0].tags or words[0].sort is Sort.TIMES):
        words = words[1:]
    if words and _how_many(words):
        named = words[1:]
        while len(named) > 1 and named[0].low in ("more", "of", "extra"):
            named = named[1:]  # Bought 2 more belts: they are belts.
        return words[0], named
    return None, words


_QUANTITY = frozenset({"qty", "qty.", "quantity", "pcs"})
_STOPS = frozenset({":", ",", "("})


def _told_apart(sentence: Sentence) -> Word | None:
    """Give how many there are where that is said by itself: on order, qty 6."""
    for at, word in enumerate(sentence.words):
        number = sentence.word(at + 1)
        if number is None or number.whole is None:
            continue
        if word.low in _QUANTITY or (
            word.low in _STOPS and _by_itself(sentence, at + 1)
        ):
            return number
    return None


def _by_itself(sentence: Sentence, at: int) -> bool:
    """Tell the 3 of “ordered: 3 from the glazier” from a price, a size and a time."""
    number, behind = sentence.words[at], sentence.word(at + 1)
    plain = number.sort in (Sort.COUNT, Sort.NUMBER) and not number.unit
    plain = plain and not number.dimension and PRICE not in number.tags
    told = any("order_done" in word.tags for word in sentence.words[:at])
    first = behind.low.split(" ")[0] if behind is not None else ","
    return plain and told and (first in _ENDS or first in (",", ")", ";"))


def _one_more(sentence: Sentence, row: Sequence[Word]) -> Iterator[Bought]:
    quantity, words = _counted(row)
    if words:
        names = [one.name for one in words if one.name is not None]
        part = next((one.thing for one in names if one.role == "part"), "")
        sentence.note("besides", *row)
        item = sentence.text[words[0].start : words[-1].end]
        plain = all(_is_part(word) for word in words)
        many = quantity.whole if quantity is not None else None
        yield Bought("" if part and plain else item, many, part)


def several_items(sentence: Sentence, words: Sequence[Word]) -> list[list[Word]]:
    """Part the things of a row, each of which is so many or so much of something.

    Those behind a comma belong to it where they are plainly goods.
    """
    rows: list[list[Word]] = [[]] if words else []
    for at, word in enumerate(words):
        begins = word.low in _AND and any(_noun(one) for one in rows[-1])
        if begins and _so_many(words[at + 1 :]):
            rows.append([])
        else:
            rows[-1].append(word)
    if not rows or not (_so_many(rows[0]) or len(rows) > 1):
        return rows
    last = sentence.words.index(words[-1])
    comma = sentence.word(last + 1)
    if comma is not None and comma.low == ",":
        row = _item(sentence, last + 2)
        if _so_many(row) and _is_goods(row[1]):
            rows += several_items(sentence, row)
    return rows


_AND = frozenset({"and", "&", "+", "plus", "as well as"})
_BY_WEIGHT = frozenset({"mass", "volume"})


def _noun(word: Word) -> bool:
    return word.sort in (Sort.WORD, Sort.THREAD, Sort.CODE) and not (
        word.tags & {"article", "preposition", "joiner"}
    )


def _so_many(words: Sequence[Word]) -> bool:
    """Tell whether words begin a thing of its own: 20 nuts, 2 kg of PETG, a bag of."""
    if len(words) < 2:
        return False
    first, second = words[:2]
    if "article" in first.tags:
        return any("of" in one.low.split() for one in words[1:3])
    if first.sort is Sort.NUMBER and first.unit:
        return first.dimension in _BY_WEIGHT or first.unit == "m"
    return _how_many(list(words)) and (_noun(second) or second.name is not None)


def _is_goods(word: Word) -> bool:
    goods = {"material", "fastener", "structure", "stock_form"}
    return bool(word.tags & goods) or word.sort is Sort.THREAD or word.low == "of"


_STANDS = UNDERWAY | {"on order", "in the post", "in the mail", "in transit", "ordered",
                      "backordered", "packed off for", "packed off to"}  # fmt: skip
_ON_THE_WAY = frozenset({"out", "off", "handed", "given", "packed"})
"""Behind what goes to somebody else: sent 4 brackets out for cutting."""
_BROUGHT = frozenset({"dropped", "took", "brought", "taken", "gave", "ordered"})


def _is_doing(word: Word) -> bool:
    """See what leads to things that somebody else is making: is cutting 3 panes."""
    return "is" in word.tags or (word.name is None and word.low.endswith("ing"))


_FOR_ME = frozenset({"me", "us", "myself", "ourselves"})


def _item(sentence: Sentence, start: int, end: int | None = None) -> list[Word]:
    words: list[Word] = []
    for word in sentence.words[start:end]:
        money = word.dimension.startswith("money") or PRICE in word.tags
        when = word.sort in (Sort.WHEN, Sort.DATE, Sort.CLOCK)
        first = word.low.split(" ")[0]
        ends = word.low in (",", ";", "(") or first in _ENDS
        named = any(_noun(one) and one.low not in _BROUGHT for one in words)
        ends = ends or (first in _ON_THE_WAY and named)
        if ends or money or when or "outside_work" in word.tags:
            break  # With whom it is, is nothing that was ordered.
        words.append(word)
    return words


def _how_many(words: Sequence[Word]) -> bool:
    """Tell the 4 of “4 rubber feet” from the 2.5 of “2.5 mm sheet” and a price."""
    first = words[0]
    if first.sort is Sort.COUNT:
        return len(words) > 1
    bare = first.sort is Sort.NUMBER and first.whole is not None and not first.unit
    return bare and len(words) > 1 and words[1].sort in (Sort.WORD, Sort.THREAD)


def _is_part(word: Word) -> bool:
    return (word.name is not None and word.name.role == "part") or (
        word.tags & {"filler"} != frozenset()
    )


def counts_time(word: Word | None) -> bool:
    """Tell the 2 of “2 weeks” from a number of things."""
    return word is not None and word.low.removesuffix("s") in _SPANS_OF_TIME
