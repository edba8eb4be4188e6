"""One thing used instead of another, or for want of it."""

from __future__ import annotations

from fractions import Fraction

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.decisions import decision_at
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence


def substituted(sentence: Sentence, values: Values) -> Choice | None:
    """See one thing used instead of another."""
    instead = sentence.tagged("instead")
    if not instead:
        return for_want(sentence) or _replaced(sentence)
    at = instead[0]
    following = sentence.word(at + 1)
    measured = bool(values.readings) or _nearly(values)
    used = sentence.has("use:past")
    if following is not None and following.sort in FIGURES and measured and not used:
        return None
    wished = "order_wish" in sentence.tags(0) and "order_done:past" not in (
        sentence.tags(0)
    )
    if decision_at(sentence) is not None or sentence.has("decide") or wished:
        return None
    if any(word.low in ("gets", "get", "use") for word in sentence.words[:at]):
        return Choice(Kind.DECISION, 0.8, at)
    return Choice(Kind.SUBSTITUTION, 0.8, at)


_CLOSE = Fraction(1, 10)


def _nearly(values: Values) -> bool:
    """See a size that misses the wanted one by little: 1.14 instead of 1.2."""
    if len(values.conditions) != 1 or len(values.wanted) != 1:
        return False
    value, wanted = values.conditions[0], values.wanted[0]
    if value.metal or wanted.metal or value.dimension != wanted.dimension:
        return False
    exact = value.step < 1 or wanted.step < 1
    return exact and abs(value.to(wanted.unit) - wanted.value) <= wanted.value * _CLOSE


_NONE_LEFT = frozenset({"left", "to be had", "in stock", "on hand", "available"})


def short_of(sentence: Sentence) -> tuple[int, int] | None:
    """Give what a clause says there is none of: no 3mm ply left, out of M3x8."""
    for start, end in clauses(sentence):
        first = sentence.words[start]
        said = [word.low for word in sentence.words[start:end]]
        low = " ".join(said)
        if first.low in ("out of", "ran out of", "run out of"):
            return start + 1, end
        ended = next((tail for tail in _NONE_LEFT if low.endswith(f" {tail}")), "")
        while ended and len(" ".join(said)) >= len(low) - len(ended):
            said.pop()
        if said and said[0].split(" ")[0] == "no" and ended:
            return (start if " " in said[0] else start + 1), start + len(said)
    return None


def for_want(sentence: Sentence) -> Choice | None:
    """See what was used for want of another: lid in acrylic 4, no 5 to be had."""
    short = short_of(sentence)
    if short is None or short[1] <= short[0]:
        return None
    rest = [
        at
        for start, end in clauses(sentence)
        for at in range(start, end)
        if not start <= short[0] < end
    ]
    stuff = {"material", "fastener"}
    told = [
        at
        for at in rest
        if sentence.tags(at) & stuff
        or sentence.words[at].sort in (*FIGURES, Sort.THREAD, Sort.GAUGE)
    ]
    if not told or any(sentence.tags(at) & {"todo", "order_wish"} for at in rest):
        return None
    return Choice(Kind.SUBSTITUTION, 0.8, told[0])


_ONE_LIKE_IT = frozenset({"new one", "another", "another one", "spare", "fresh one",
                          "new ones", "spares", "spare one"})  # fmt: skip
"""What takes the place of another and is no other thing: work done."""


def _replaced(sentence: Sentence) -> Choice | None:
    lows = [word.low for word in sentence.words]
    if lows[:1] in (["replaced"], ["swapped"]) and ("with" in lows or "for" in lows):
        like = any(low in _ONE_LIKE_IT for low in lows)
        return None if like else Choice(Kind.SUBSTITUTION, 0.8, 0)
    used = sentence.tagged("use:past")
    if used and used[0] == 0 and sentence.has("unavailable"):
        return Choice(Kind.SUBSTITUTION, 0.8, 0)
    if lows[:1] and lows[0].split()[0] == "no" and sentence.has("use:past"):
        return Choice(Kind.SUBSTITUTION, 0.75, sentence.tagged("use:past")[0])
    return None
