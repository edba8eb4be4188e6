"""How it went on: the cure, what is done, and whose fault it was."""

from __future__ import annotations

from typing import Any

from logbook.plain.kinds.blame import drawn_wrong, my_machine, not_mine
from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.dispositions import (
    fate_told_first,
    mere_noun,
    repairs,
)
from logbook.plain.kinds.left_be import left_at, something_else_stays
from logbook.plain.kinds.of_releases import published_at
from logbook.plain.kinds.thrown_away import thrown_away_at
from logbook.plain.named.given_back import bought_so, given_back_at
from logbook.plain.named.more_of_them import more_wanted_at
from logbook.plain.named.own_machine import own_machine
from logbook.plain.told.causes import until
from logbook.plain.understanding import Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence


def told(sentence: Sentence, fact: str, words: list[Word]) -> dict[str, Any]:
    """Give a fact in the words it was told in."""
    sentence.note(fact, *words)
    return {fact: sentence.text[words[0].start : words[-1].end]}


def cure(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what cured it."""
    for at in sentence.tagged("cure"):
        words = until(sentence, at + 1)
        if words and not _did_not_help(words):
            return told(sentence, "cure", words)
    return {}


def _did_not_help(words: list[Word]) -> bool:
    """See the cure that failed: “the cure with 6 walls did not help”."""
    return any(
        word.tags & {"negative", "negation"}
        and (at + 1 == len(words) or bool(words[at + 1].tags & {"able", "hold", "fit"})
             or words[at + 1].low.split(" ")[0] in _HELPED)
        for at, word in enumerate(words)
    )  # fmt: skip


_HELPED = frozenset({"help", "hold", "work", "do", "cure", "last", "stick", "solve"})


def _is_done(sentence: Sentence, at: int, tag: str) -> bool:
    """Tell whether a disposition is meant: not “on scrap”, not “not scrapped”."""
    if tag == "as_is":
        return not _stays_so(sentence, at)
    before = sentence.words[max(0, at - 2) : at]
    unmade = any(word.tags & {"negation", "negative"} for word in before)
    return not unmade and not mere_noun(sentence, at)


def _stays_so(sentence: Sentence, at: int) -> bool:
    """See what a part goes on being: “stays PLA”, “stays in PLA”, “stays at 178.3”.

    That is how it is made; what is done with a piece “stays”, and no more.
    """
    following, then = sentence.word(at + 1), sentence.word(at + 2)
    if sentence.words[at].low != "stays":
        return False
    if something_else_stays(sentence, at):
        return True
    if following is None:
        return False
    if then is not None and following.low in ("in", "at"):
        return "material" in then.tags or then.sort in FIGURES
    leads = following.tags & {"preposition", "because", "joiner", "filler", "generic"}
    return following.sort is not Sort.MARK and not leads


def disposition(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give what is done with the piece; where more of it are to be made, nothing."""
    if more_wanted_at(sentence) == choice.at >= 0:
        return {}
    for rule in (_told_first, _where_it_went, _by_its_words, _left_be, _by_its_form):
        if found := rule(sentence, choice):
            return found
    return {}


def _told_first(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Take the verb that begins the line: reworked the lid: holes filled, new ones."""
    at = fate_told_first(sentence)
    if at is None or choice.kind is not Kind.DISPOSITION:
        return {}
    told = {tag.partition(":")[0] for tag in sentence.tags(at) if ":" in tag}
    tag = next(one for one in _FATES if one in told)
    sentence.note("disposition", sentence.words[at])
    gone = tag in ("scrap", "give_back")
    lost = _so_many(sentence, at + 1) | _off_by_so_much(sentence) if gone else {}
    return {"disposition": _FATES[tag], **lost}


_FATES = {
    "as_is": "use as is", "scrap": "scrap", "give_back": "return",
    "repair": "repair", "rework": "rework",
}  # fmt: skip
"""What is done with a piece by the tags of the words that tell it."""


def _where_it_went(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """See what was sent back, or went where waste goes."""
    away = choice.kind is Kind.DISPOSITION and "send" in sentence.tags(0)
    if away and choice.at == 0:
        sentence.note("disposition", sentence.words[0])
        return {"disposition": "return"}
    back = given_back_at(sentence)
    if back is not None and choice.kind is Kind.DISPOSITION:
        sentence.note("disposition", sentence.words[back])
        return {"disposition": "return", **_of_what_came(sentence)}
    gone = thrown_away_at(sentence)
    if gone is not None and choice.kind in (Kind.DISPOSITION, Kind.FAILURE):
        sentence.note("disposition", sentence.words[gone])
        return {"disposition": "scrap"}
    return {}


def _of_what_came(sentence: Sentence) -> dict[str, Any]:
    """See the 24 V of “relays to be returned, 24 V ones came”: nothing was measured."""
    if not bought_so(sentence):
        return {}
    for fact in ("readings", "wanted", "what"):
        sentence.spans.pop(fact, None)
    return {"readings": (), "wanted": (), "what": ""}


def _by_its_words(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    if published_at(sentence) is not None:
        return {}  # As 240 wide, cut to fit: how another makes it.
    for tag, disposition in _FATES.items():
        found = [at for at in sentence.tagged(tag) if _is_done(sentence, at, tag)]
        if found := [at for at in found if not _by_the_way(sentence, choice, at, tag)]:
            sentence.note("disposition", *(sentence.words[at] for at in found[:1]))
            lost = _so_many(sentence, found[0] + 1) if tag == "scrap" else {}
            return {"disposition": disposition, **lost}
    return {}


def _left_be(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """See a piece that stays as it is."""
    marred = any("fail:past" in sentence.tags(at) for at in range(1, 4))
    kept = choice.kind is Kind.DECISION and (sentence.named("piece") or marred)
    told_by = sentence.word(choice.at)
    stays = left_at(sentence)
    befell = choice.kind is Kind.FAILURE and bool(sentence.named("part"))
    if stays is not None and (stays == choice.at or befell):
        sentence.note("disposition", sentence.words[stays])
        return {"disposition": "use as is", **_hiding_it(sentence, stays)}
    if kept and told_by is not None and told_by.low.split(" ")[0] in _KEEPS:
        sentence.note("disposition", told_by)
        return {"disposition": "use as is"}
    return {}


def _hiding_it(sentence: Sentence, left: int) -> dict[str, Any]:
    """Leave out the mask of “leave the edge, the mask hides it”, which is not left."""
    named = [*sentence.named("part"), *sentence.named("piece")]
    end = next((end for start, end in clauses(sentence) if start <= left < end), 0)
    if not named or min(named) < end:
        return {}
    for fact in ("part", "piece"):
        sentence.spans.pop(fact, None)
    return {"part": "", "piece": "", "others": ()}


def _by_its_form(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    given = _given_back(sentence, choice)
    if given is not None:
        sentence.note("disposition", sentence.words[given])
        return {"disposition": "return"}
    if choice.kind is not Kind.DISPOSITION or choice.at < 0:
        return {}
    marred = any("fail:past" in sentence.tags(at) for at in range(1, 4))
    sentence.note("disposition", sentence.words[choice.at])
    if repairs(sentence) or marred:
        return {"disposition": "repair"}
    returned = sentence.tags(choice.at) & {"order_done"}
    return {"disposition": "return" if returned else "rework"}


def _so_many(sentence: Sentence, at: int) -> dict[str, Any]:
    """Give the 2 of “scrapped 2”: so many of them, no size."""
    word, following = sentence.word(at), sentence.word(at + 1)
    ends = following is None or following.sort is Sort.MARK
    if word is None or word.whole is None or word.unit or not ends:
        return {}
    sentence.note("quantity", word)
    sentence.spans.pop("readings", None)
    return {"quantity": word.whole, "readings": (), "what": ""}


def _off_by_so_much(sentence: Sentence) -> dict[str, Any]:
    """See the 1.5 of “scrapped gate 2, sagged by 1.5”: why it went, no size of it."""
    for at in sentence.sorts(*FIGURES):
        later = any(word.low == "," for word in sentence.words[:at])
        if later and sentence.words[at - 1].low == "by":
            sentence.spans.pop("readings", None)
            return {"readings": (), "what": ""}
    return {}


_WORKED = frozenset({"rework:past", "take_back:past", "repair:past"})


def _by_the_way(sentence: Sentence, choice: Choice, at: int, tag: str) -> bool:
    """See a word that tells of no fate here: good enough now, the joint opened up.

    What was worked on and is good enough was reworked; what opened up by itself, or
    failed on rework, has had nothing done about it.
    """
    if tag == "as_is":
        worked = bool(sentence.tags(0) & _WORKED)
        return choice.kind is Kind.DISPOSITION and worked
    if choice.kind is not Kind.FAILURE or tag not in ("rework", "repair"):
        return False
    first = at - 1 if at and "article" in sentence.tags(at - 1) else at
    led = first > 0 and "preposition" in sentence.tags(first - 1)
    return led or (tag == "rework" and "fail" in sentence.tags(at))


_KEEPS = frozenset({"keep", "keeping", "leave", "leaving", "stays", "stay"})


def _given_back(sentence: Sentence, choice: Choice) -> int | None:
    """Give the word that tells of sending something back."""
    disposed = choice.kind is Kind.DISPOSITION
    if disposed and "back" in sentence.tags(choice.at):
        return choice.at
    sent = _sent_back(sentence)
    if sent is None and disposed and "send" in sentence.tags(0):
        return 0
    return sent


def _sent_back(sentence: Sentence) -> int | None:
    """See “sent it back” in any clause."""
    for at in sentence.tagged("send"):
        it, back = sentence.word(at + 1), sentence.word(at + 2)
        if it is not None and it.low in ("it", "them") and back is not None:
            return at if back.low == "back" else None
    return None


def blame(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give whether another builder would meet this, where it was said."""
    if choice.kind not in (Kind.DECISION, Kind.FAILURE, Kind.READING, Kind.DISPOSITION):
        return {}
    others = not_mine(sentence) if choice.kind is Kind.DECISION else []
    if others:
        sentence.note("met_by_others", *sentence.words[others[0] - 1 : others[0] + 1])
        return {"met_by_others": "the drawing"}
    mine = my_machine(sentence) if choice.kind is Kind.DECISION else []
    own = own_machine(sentence) is not None
    if mine and (own or not sentence.has("attribution_drawing")):
        sentence.note("met_by_others", *sentence.words[mine[0] : mine[0] + 2])
        return {"met_by_others": "my machine"}
    for tag, whose in (
        ("attribution_drawing", "the drawing"),
        ("attribution_machine", "my machine"),
        ("attribution_piece", "only this piece"),
    ):
        found = sentence.tagged(tag)
        if found and (choice.kind is Kind.DECISION or tag != "attribution_machine"):
            sentence.note("met_by_others", *(sentence.words[at] for at in found))
            return {"met_by_others": whose}
    wrong = drawn_wrong(sentence) if choice.kind is Kind.DECISION else []
    if wrong and choice.at == wrong[0]:
        sentence.note("met_by_others", sentence.words[wrong[0]])
        return {"met_by_others": "the drawing"}
    return {}
