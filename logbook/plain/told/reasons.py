"""Why something was chosen: a later clause that tells of a fault, or “as …”."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.of_releases import published_at
from logbook.plain.understanding import Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

_TELLS = frozenset(
    {
        "fail", "defect", "negative", "negation", "too_bad", "off_strong",
        "plain_verb", "unavailable",
    }
)  # fmt: skip
_OTHER = frozenset(
    {
        "decide", "cure", "order_done", "order_wish", "todo", "scrap", "instead",
        "revision", "imperative_use", "make:base", "close:base", "planned",
        "attribution_drawing", "attribution_piece", "attribution_machine",
        "attribution_not_drawing", "rework_sense", "as_is", "hypothetical",
    }
)  # fmt: skip
_ALIKE = frozenset(
    {"same", "such", "far", "soon", "long", "well", "much", "used", "so"}
)
_NO_SUBJECT = frozenset(
    {"a", "an", "spare", "before", "drawn", "planned", "if", "shown"}
)
_WENT_WRONG = frozenset({"fail", "defect", "negative", "too_bad", "unavailable"})
_BE = frozenset({"is", "are", "was", "were", "has", "had"})
_ALL_WELL = frozenset({"fine", "ok", "good", "works", "now", "fits", "fits now"})
_LEADS = frozenset({"and", "but", "then", "so", "until", "till", "after", "before"})


def why_chosen(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give the words that tell why, none where the line gives no reason."""
    rows = list(clauses(sentence))
    told = [row for row in rows if row[0] <= choice.at < row[1]]
    last = told[0][1] if told else rows[0][1] if rows else 0
    if published_at(sentence) is not None:
        return []  # As made to suit: how it is published.
    if told and (words := _as(sentence, choice.at, last)):
        return words
    refused = choice.at >= 0 and "negative" in sentence.tags(choice.at)
    for start, end in rows:
        if refused and end - start < 2:
            continue  # No glue on the lid, ever.
        if refused and start >= last and not sentence.has("because"):
            return sentence.words[start:end]  # Don't glue it, I may have to get in.
        moody = any("mood" in word.tags for word in sentence.words[start:end])
        row = sentence.words[start:end]
        came = choice.kind is Kind.DISPOSITION and not _went_wrong(row)
        if start >= last and not moody and not came and _is_reason(row):
            return row
    return []


def as_it_was(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give why it failed, behind an “as”: cracked as the hole was too near the edge."""
    for start, end in clauses(sentence):
        if start <= max(choice.at, 0) < end:
            words = _as(sentence, choice.at, end)
            return words if words and _went_wrong(words) else []
    return []


def _went_wrong(words: list[Word]) -> bool:
    """Tell whether words say that something is not as it should be."""
    return any(word.tags & (_WENT_WRONG | {"cause_hint", "negation"}) for word in words)


_LACKING = frozenset(
    {"room", "space", "time", "need", "point", "gain", "way", "access", "clearance",
     "saving", "one", "stock", "money", "reason", "chance", "hope"}
)  # fmt: skip
_SAYS_SO = frozenset({"plain_verb", "able", "unavailable", "fail", "is", "defect"})


def ruled_out(words: list[Word]) -> bool:
    """See what a choice is against: not rivets, no PLA any more. It is no reason."""
    first = words[0].low.split(" ")[0]
    if first == "not":
        return len(words) > 1 and not any(word.tags & _SAYS_SO for word in words[1:])
    if first != "no":
        return False
    rest = " ".join(word.low for word in words).split(" ")[1:2]
    lacking = not _LACKING.isdisjoint(rest) or any(
        word.tags & _SAYS_SO for word in words[1:]
    )
    return not lacking


def _as(sentence: Sentence, at: int, end: int) -> list[Word]:
    """Give what follows the as of “as countersunk ones wedge”, not of “same as”."""
    for place in range(at + 1, end - 2):
        before = sentence.words[place - 1]
        rest = sentence.words[place + 1 : end]
        if sentence.words[place].low != "as" or before.low in _ALIKE:
            continue
        if rest[0].low in _ALIKE | {"i", "we"}:
            continue  # As soon as, as I tightened it.
        told = any(word.tags & _TELLS for word in rest[1:])
        if told or (len(rest) > 2 and rest[0].low not in _NO_SUBJECT):
            return rest
    return []


def _is_reason(words: list[Word]) -> bool:
    """Tell whether a clause tells how something is: PLA goes soft, nobody sees it."""
    first = words[0]
    if ruled_out(words):
        return False
    tags = {tag for word in words for tag in word.tags}
    if len(words) == 1:
        better = first.low.endswith("er") and not first.low.endswith("ever")
        return better and first.name is None and not tags & _OTHER
    if first.low in _LEADS or tags & _OTHER:
        return False
    if any(word.sort in (Sort.WHEN, Sort.CLOCK, Sort.DATE) for word in words):
        return False
    if any(word.sort in FIGURES for word in words) and not tags & _WENT_WRONG:
        return False  # 90 now, gap 0.4 is fine: what came of it.
    lows = {word.low for word in words}
    if lows & _ALL_WELL:
        return False
    return bool(tags & _TELLS or lows & _BE) or _unknown_verb(words)


def _unknown_verb(words: list[Word]) -> bool:
    """See a verb no list has, behind its subject: nobody sees it, it buzzes."""
    subject = words[0].name is not None or words[0].tags & {"generic", "article"}
    if words[0].low in ("all", "both", "each", "every"):
        return False  # All versions.
    return bool(subject) and any(
        word.sort is Sort.WORD
        and not word.tags
        and word.name is None
        and word.low.endswith("s")
        and not word.low.endswith("ss")
        for word in words[1:3]
    )
