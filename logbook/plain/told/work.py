"""What work closed, with what and how many; what was counted, the price."""

from __future__ import annotations

from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.lies_inside import LIES
from logbook.plain.kinds.verbs import opens_part, shut_for_good
from logbook.plain.named.more_of_them import more_wanted
from logbook.plain.told.ordered import counts_time
from logbook.plain.told.outcomes import told
from logbook.plain.told.part import part_named
from logbook.plain.understanding import Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence


def closing_of(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give whether work closed, undid or hid something."""
    facts: dict[str, Any] = {}
    undone = [at for at in sentence.tagged("undone") if _takes_apart(sentence, at)]
    opened = sentence.tagged("take_back:past")
    undone = undone or [at for at in opened if opens_part(sentence, at)]
    if undone:
        sentence.note("undone", sentence.words[undone[0]])
        facts["undone"] = True
    closing = sentence.tagged("close:past", "close:ing", "shut")
    closing += shut_for_good(sentence)
    why = next(iter(sentence.tagged("because")), len(sentence.words))
    closing = [at for at in closing if at < why and not sentence.words[at].corrected]
    closing = [
        at
        for at in closing
        if not any(rule(sentence, at) for rule in (_coats, _describes, _solders))
    ]
    if closing and not undone:
        sentence.note("closes", *(sentence.words[at] for at in closing))
        facts["closes"] = True
    into = [at for at in sentence.tagged("inside_into") if _lies(sentence, choice, at)]
    if into:
        holder = [at for at in sentence.tagged("channel_nouns") if at > into[0]]
        holder = holder or _led_through(sentence, into[0])
        holder = holder or _has_in_it(sentence, into[0])
        if holder:
            sentence.note("inside", sentence.words[into[0]], sentence.words[holder[0]])
            facts["inside"] = True
    shut_in = _shut_in(sentence) if facts.get("closes") else []
    if shut_in and not facts.get("inside"):
        sentence.note("inside", *shut_in)
        facts["inside"] = True
    return facts


_COATS = frozenset(
    {"oil", "shellac", "varnish", "wax", "lacquer", "primer", "paint", "sealer", "dye",
     "polyurethane", "beeswax", "linseed"}
)  # fmt: skip
_SKINS = frozenset({"grain", "pores", "surface", "wood", "underside", "edges"})


def _coats(sentence: Sentence, at: int) -> bool:
    """Tell “sealed the bed with oil”, a coat of it, from a lid that is sealed."""
    lows = {low for word in sentence.words[at : at + 9] for low in word.low.split(" ")}
    skin = lows & _SKINS and not lows & {"glue", "silicone", "tape", "epoxy", "caulk"}
    return sentence.words[at].low.startswith("seal") and bool(lows & _COATS or skin)


_COVERS = frozenset({"lid", "cover", "cap", "can", "case", "seam", "housing"})


def _solders(sentence: Sentence, at: int) -> bool:
    """Tell “soldered the cable onto the plug”, which heat opens, from a lid put on."""
    lows = {low for word in sentence.words for low in word.low.split(" ")}
    return sentence.words[at].low.startswith("solder") and not lows & _COVERS


def _describes(sentence: Sentence, at: int) -> bool:
    """See the closed of “ran it in the closed base”: how the base was, nothing done."""
    noun = sentence.word(at + 1)
    led = at > 0 and sentence.tags(at - 1) & {"article", "preposition"}
    thing = noun is not None and (noun.name or noun.tags & {"structure"})
    return bool(led and thing)


_EMPTY = frozenset({"nothing", "no", "not", "never", "nobody", "without"})


def _shut_in(sentence: Sentence) -> list[Word]:
    """Give the clause of what was shut in: lid riveted, cable and tie both inside."""
    for start, end in [*clauses(sentence)][1:]:
        row = sentence.words[start:end]
        lows = {low for word in row for low in word.low.split(" ")}
        last = row[-1].low
        within = last == "inside" or (last == "in" and "already" in lows)
        if within and len(row) > 1 and not lows & _EMPTY:
            return row
    return []


_WHERE_IT_IS = LIES | {"goes", "now", "all", "already", "finally"}


def _lies(sentence: Sentence, choice: Choice, at: int) -> bool:
    """Tell whether something was put in there, or lies there: cable in the channel."""
    before = sentence.words[:at]
    put = [one for one in before[: choice.at + 2] if "inside_verb" in one.tags]
    if put or choice.at >= 0:
        return bool(put)
    told = [one for one in before if one.low not in _WHERE_IT_IS]
    return bool(before) and (told[-1:] == [] or told[-1].name is not None)


def _has_in_it(sentence: Sentence, at: int) -> list[int]:
    """See what holds something, told the other way round: channel has the cable in it.

    It is found before the words of `inside_into`, with what lies in it between them.
    """
    back = sentence.word(at + 1)
    has = [i for i in sentence.tagged("channel_nouns") if i < at][:1]
    said = has and (verb := sentence.word(has[0] + 1)) and verb.low in ("has", "holds")
    between = sentence.words[has[0] + 2 : at] if said else ()
    named = any(word.name is not None for word in between)
    return has if named and back is not None and back.low == "it" else []


_LED = frozenset({"slid", "fed", "pulled", "threaded", "tucked", "routed", "ran"})
"""What is done with a cable, and seldom with what is fitted: slid into the post."""


def _led_through(sentence: Sentence, at: int) -> list[int]:
    """See what a cable is led through or lies in, whatever it is: fed through the post.

    What is in something may stand in it or be glued to it; what is inside is inside.
    """
    led = any(word.low in _LED for word in sentence.words[:at])
    first = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    hollow = (word := sentence.word(first)) is not None and word.low == "hollow"
    enclosed = sentence.words[at].low in ("through", "inside", "inside of") or (
        hollow or (led and sentence.words[at].low == "into")
    )
    if not enclosed or not sentence.named("part"):
        return []
    first += hollow
    noun = sentence.word(first)
    told = noun is not None and (noun.sort is Sort.WORD or noun.name is not None)
    return [first] if told and not sentence.tags(first) & {"preposition"} else []


_COMES_OFF = frozenset({"off", "apart", "out", "back"})


def _takes_apart(sentence: Sentence, at: int) -> bool:
    """Tell what came off again from what was taken up: the lid off, not the plate."""
    if at in shut_for_good(sentence):
        return False
    if sentence.words[at].low != "took the":
        return not _by_so_much(sentence, at)
    thing = at + 1
    while word := sentence.word(thing):
        if word.low.split(" ")[0] in _COMES_OFF:
            break
        if word.sort not in (Sort.WORD, Sort.THREAD) or word.low in ("for", "to"):
            return False
        thing += 1
    taken = sentence.words[at + 1 : thing]
    screws = any("fastener" in one.tags for one in taken)
    whole = screws or any(one.name is not None for one in taken)
    held = word is not None and (word.low != "out of" or screws)
    return held and (whole or sentence.words[thing].low == "apart")


def _by_so_much(sentence: Sentence, at: int) -> bool:
    """Tell “drilled out by 0.2” from rivets drilled out."""
    following, figure = sentence.word(at + 1), sentence.word(at + 2)
    if following is None or "drilled" not in sentence.words[at].low:
        return False
    if following.low in ("by", "to", "up to", "out to"):
        return figure is not None and figure.sort in FIGURES
    return following.sort in FIGURES


def how_many(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give how many pieces it was; of a piece told by its number it is one."""
    if choice.kind is Kind.DISPOSITION and sentence.named("piece"):
        return {}
    for at in sentence.sorts(Sort.COUNT, Sort.TIMES):
        word = sentence.words[at]
        after = sentence.word(at + 1)
        if counts_time(after):
            continue
        if choice.kind is Kind.STEP and not _counts_pieces(sentence, at):
            continue
        sentence.note("quantity", word)
        return {"quantity": word.whole}
    return _counted_first(sentence, choice)


def _counted_first(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give the 4 of “4 rubber feet instead of felt”, which no unit follows.

    So it is with the three of “cast three more feet”.
    """
    if (wanted := more_wanted(sentence)) is not None:
        for word in sentence.words[wanted[0] : wanted[1][0]]:
            if word.whole is not None:
                sentence.note("quantity", word)
                return {"quantity": word.whole}
    first, second, third = (sentence.word(at) for at in range(3))
    chosen = choice.kind in (Kind.DECISION, Kind.SUBSTITUTION)
    if first is None or second is None or third is None or not chosen:
        return {}
    bare = first.sort is Sort.NUMBER and first.whole is not None and not first.unit
    stuff = "material" in second.tags and bool(third.tags & {"structure", "fastener"})
    if not bare or not stuff or third.low.rstrip("s") == third.low != "feet":
        return {}
    sentence.note("quantity", first)
    return {"quantity": first.whole}


def _counts_pieces(sentence: Sentence, at: int) -> bool:
    for ahead in (1, 2, 3):
        tags, word = sentence.tags(at + ahead), sentence.word(at + ahead)
        if tags & {"fastener", "pieces"} or (
            word is not None and word.name is not None
        ):
            return True
        if word is None or word.sort is not Sort.WORD:
            return False
    return False


def price_of(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what it cost."""
    for at in sentence.sorts(Sort.NUMBER):
        word = sentence.words[at]
        if word.dimension.startswith("money"):
            sentence.note("price", word)
            return {"price": word.quantities("")[0], "price_text": word.text}
    for at in sentence.sorts(Sort.NUMBER):
        word = sentence.words[at]
        amount = word.amounts[0]
        sized = sentence.tags(at + 1) & {"length_adjective", "material", "structure"}
        pence = len(amount.replace(",", ".").partition(".")[2]) == 2
        if not word.unit and not sized and pence:
            sentence.note("price", word)
            sentence.spans.pop("readings", None)
            return {"price_text": amount}
    return {}


def fastener_of(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give the fastener that was named."""
    instead = sentence.tagged("instead")
    for at in sentence.sorts(Sort.THREAD):
        if instead and at > instead[0]:
            continue
        return told(sentence, "fastener", [sentence.words[at]])
    return {}


def layers_of(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give the parts that a fastener goes through."""
    layers: dict[str, Word] = {}
    for at in sorted([*sentence.named("part"), *sentence.named("piece")]):
        layers.setdefault(part_named(sentence.words[at]), sentence.words[at])
    sentence.note("layers", *layers.values())
    return {"layers": tuple(layers)}
