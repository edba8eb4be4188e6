"""Work done: when a line tells a step, and when it is asked about."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.no_work import (
    ends_bent,
    noun_phrase,
    once_done,
    stripped_of,
    that_was,
    was_shut,
    with_instrument,
)
from logbook.plain.kinds.rows_of_work import row_of_work
from logbook.plain.kinds.set_into import set_into
from logbook.plain.kinds.verbs import opens_part, shut_for_good
from logbook.plain.kinds.work_in_doubt import (
    ORDERED,
    after_a_symptom,
    broke_or_done,
    doing_or_deciding,
    done_and_measured,
    done_or_measured,
    done_or_to_do,
    of_it,
    repeated,
    someone_else,
    spoiled_too,
    two_things,
    which_part,
)
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence


def step_done(sentence: Sentence, values: Values) -> Choice | None:
    """See work done; work in the imperative is asked about."""
    if (put := set_into(sentence)) is not None:
        return Choice(Kind.STEP, 0.9, put)
    choice = _step(sentence)
    if choice is None or choice.doubt is not None:
        return choice
    if values.readings and (values.wanted or repeated(values)):
        return Choice(Kind.STEP, 0.5, choice.at, done_or_measured(values))
    if row_of_work(sentence) is not None:
        return choice
    turned = choice.at > 0 and any(
        word.low == "but" for word in sentence.words[: choice.at]
    )
    late = after_a_symptom(sentence, choice.at)
    if turned or late or someone_else(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, broke_or_done(sentence, choice.at))
    if of_it(sentence, choice.at):
        return Choice(Kind.STEP, choice.confidence, choice.at, which_part())
    if two_things(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, done_and_measured())
    amiss = spoiled_too(sentence, choice.at)
    if amiss is not None and not shut_for_good(sentence):
        doubt = broke_or_done(sentence, choice.at, amiss)
        return Choice(Kind.STEP, 0.5, choice.at, doubt)
    return choice


def _step(sentence: Sentence) -> Choice | None:
    why = next(iter(sentence.tagged("because")), len(sentence.words))
    past = [
        at
        for at in sentence.tagged("make:past", "close:past", "step")
        if at < why and not was_shut(sentence, at)
    ]
    past = [
        at
        for at in past
        if not (
            with_instrument(sentence, at)
            or that_was(sentence, at)
            or once_done(sentence, at)
        )
    ]
    if past and ends_bent(sentence, past[0]):
        return Choice(Kind.STEP, 0.5, past[0], broke_or_done(sentence, past[0]))
    if past and stripped_of(sentence, past[0]):
        return Choice(Kind.STEP, 0.5, past[0], broke_or_done(sentence, past[0]))
    if past and not noun_phrase(sentence, past[0]):
        if past[0] == 0 and (plan := _meant(sentence)):
            return plan
        bare = len(sentence.words) == 1
        doubt = which_part() if bare else None
        return Choice(Kind.STEP, 0.85, past[0], doubt)
    if (going := _going_on(sentence)) is not None:
        return going
    if (opened := _opened(sentence, why)) is not None:
        return opened
    if _took_so_long(sentence):
        return Choice(Kind.STEP, 0.75, 0)
    base = sentence.tagged("make:base", "close:base")
    later = {word.low for word in sentence.words} & {"next one", "next time"}
    lows = {word.low for word in sentence.words}
    late = bool(lows & _LATE) and not sentence.sorts(*FIGURES)
    if base and base[0] == 0 and (later or late) and _orders_work(sentence):
        return Choice(Kind.DECISION, 0.75, 0)
    if base and base[0] == 0 and _orders_work(sentence):
        return Choice(Kind.STEP, 0.5, 0, done_or_to_do(sentence))
    return None


def _took_so_long(sentence: Sentence) -> bool:
    """See a line that begins with how long it took."""
    took, second = sentence.word(0), sentence.word(1)
    timed = second is not None and second.dimension == "time"
    return took is not None and took.low == "took" and timed


def _opened(sentence: Sentence, why: int) -> Choice | None:
    """See a part that was opened again, told before why it was."""
    at = [
        at
        for at in sentence.tagged("take_back:past")
        if at < why and opens_part(sentence, at)
    ]
    return Choice(Kind.STEP, 0.85, at[0]) if at else None


def _going_on(sentence: Sentence) -> Choice | None:
    """See work told in its -ing form: soldering done, spent 40 min reaming."""
    ing = sentence.tagged("make:ing", "close:ing")
    timed = any(word.dimension == "time" for word in sentence.words)
    going_on = timed or sentence.has("time:now", "is")
    if ing and "measures" in sentence.tags(ing[0] + 1):
        ing = []  # Coating thickness is no coating.
    if ing and ing[0] == 0 and not going_on and not sentence.has("hypothetical"):
        return Choice(Kind.STEP, 0.5, 0, doing_or_deciding(sentence))
    if (
        ing
        and ing[0] == 0
        and len(sentence.words) > 1
        and not sentence.has("hypothetical")
    ):
        return Choice(Kind.STEP, 0.75, 0)
    if ing and timed and _spent(sentence, ing[0]):
        _note_spent(sentence, ing[0])
        return Choice(Kind.STEP, 0.8, ing[0])
    return None


_SPENT = frozenset({"spent", "sat", "stood", "busy"})


def _spent(sentence: Sentence, at: int) -> bool:
    """See “spent 40 minutes reaming the hole”: work, told by the time it took."""
    before = sentence.words[:at]
    told = any(_SPENT & set(word.low.split(" ")) for word in before)
    return told and not any(word.name is not None for word in before)


def _note_spent(sentence: Sentence, at: int) -> None:
    """Count “spent” among the words that told how long it took."""
    for word in sentence.words[:at]:
        if _SPENT & set(word.low.split(" ")):
            sentence.note("minutes", word)
            sentence.note("hours", word)


_LATE = frozenset({"last", "to suit", "made to suit"})


def _meant(sentence: Sentence) -> Choice | None:
    """See a plan in a verb that has no other past: cut the bar last, to the opening.

    Where it only may be one, it is asked.
    """
    tags = sentence.tags(0)
    if not any(f"{verb}:base" in tags for verb in ("make", "close")):
        return None
    if _as_told(sentence):
        return None
    lows = {word.low for word in sentence.words}
    if lows & _LATE and not sentence.sorts(*FIGURES):
        return Choice(Kind.DECISION, 0.75, 0)
    if sentence.has("negation") or lows & (_LATE | ORDERED):
        return Choice(Kind.STEP, 0.5, 0, done_or_to_do(sentence))
    return None


def _as_told(sentence: Sentence) -> bool:
    """See “put the cable in before the lid, as told”: it was done so."""
    lows = [word.low for word in sentence.words]
    return any(
        one == "as" and two in ("told", "planned", "agreed", "asked", "instructed")
        for one, two in pairwise(lows)
    )


def _orders_work(sentence: Sentence) -> bool:
    following = sentence.word(1)
    if following is None or following.tags & {"is", "off_strong", "length_adjective"}:
        return following is None
    if following.sort in FIGURES:
        return False
    holding = "fastener" in sentence.tags(0)
    if holding and following.tags & {"structure", "fastener"}:
        return False  # Rivet hole 4.1: no hole is to be riveted.
    return following.name is not None or bool(
        following.tags & {"article", "structure", "fastener", "adjective", "generic"}
        or following.sort in (Sort.COUNT, Sort.THREAD)
    )
