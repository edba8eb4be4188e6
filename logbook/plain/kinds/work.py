"""Work done: when a line tells a step, and when it is asked about."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import opens_part
from logbook.plain.kinds.work_in_doubt import (
    ORDERED,
    after_a_symptom,
    broke_or_done,
    comes_first,
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
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def step_done(sentence: Sentence, values: Values) -> Choice | None:
    """See work done; work in the imperative is asked about."""
    choice = _step(sentence)
    if choice is None or choice.doubt is not None:
        return choice
    if values.readings and (values.wanted or repeated(values)):
        return Choice(Kind.STEP, 0.5, choice.at, done_or_measured(values))
    if comes_first(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, done_or_to_do(sentence))
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
    if (amiss := spoiled_too(sentence, choice.at)) is not None:
        doubt = broke_or_done(sentence, choice.at, amiss)
        return Choice(Kind.STEP, 0.5, choice.at, doubt)
    return choice


def _step(sentence: Sentence) -> Choice | None:
    why = next(iter(sentence.tagged("because")), len(sentence.words))
    past = [
        at
        for at in sentence.tagged("make:past", "close:past", "step")
        if at < why and not _was_shut(sentence, at)
    ]
    past = [
        at
        for at in past
        if not (
            _with_instrument(sentence, at)
            or _that_was(sentence, at)
            or _once_done(sentence, at)
        )
    ]
    if past and _ends_bent(sentence, past[0]):
        return Choice(Kind.STEP, 0.5, past[0], broke_or_done(sentence, past[0]))
    if past and _stripped_of(sentence, past[0]):
        return Choice(Kind.STEP, 0.5, past[0], broke_or_done(sentence, past[0]))
    if past and not _noun_phrase(sentence, past[0]):
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


def _once_done(sentence: Sentence, at: int) -> bool:
    """See “moves less once oiled”: how it goes then, no work told."""
    before = sentence.word(at - 1) if at > 1 else None
    return before is not None and before.low in ("once", "if", "unless", "when")


def _that_was(sentence: Sentence, at: int) -> bool:
    """See “the crossbar I made yesterday is 178.35”: which one it is, measured."""
    who = sentence.word(at - 1) if at > 1 else None
    if who is None or who.low not in ("i", "we", "he", "she", "they"):
        return False
    rest = {tag for word in sentence.words[at + 1 :] for tag in word.tags}
    return sentence.words[at - 2].name is not None and "is" in rest


def _with_instrument(sentence: Sentence, at: int) -> bool:
    """See “put the caliper on the crossbar”: it was measured, no work was done.

    So it was where the thing is put on the scale.
    """
    noun = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    if "instrument" in sentence.tags(noun):
        return True
    put = sentence.words[at].low.split(" ")[0] in ("put", "laid", "placed", "set")
    return put and any(
        "instrument" in sentence.tags(one)
        and {sentence.words[one - 1].low, sentence.words[one - 2].low}
        & {"on", "on the", "under", "under the"}
        for one in range(at + 3, len(sentence.words))
    )


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


def _was_shut(sentence: Sentence, at: int) -> bool:
    """Tell a yard that was shut from a lid that is: nothing known was named."""
    shut = "shut" in sentence.tags(at) and "is" in sentence.tags(at - 1 if at else -1)
    return shut and not any(word.name is not None for word in sentence.words[:at])


_BY_ITSELF = frozenset({"moved", "turned", "pulled", "shifted", "stretched", "rounded"})


def _ends_bent(sentence: Sentence, at: int) -> bool:
    """See “shaft bent”, “bed moved 0.4”: by itself, or on purpose."""
    word, following = sentence.words[at], sentence.word(at + 1)
    if at == 0 or not (word.low in _BY_ITSELF or word.low in ("bent", "twisted")):
        return False
    before = sentence.words[at - 1]
    subject = before.name is not None or bool(before.tags & {"fastener", "structure"})
    if following is None:
        return True
    told = following.sort in FIGURES or following.low in ("with", "when", "after")
    if word.low in ("bent", "twisted") and "locative" in following.tags:
        tool = any("tool" in one.tags for one in sentence.words[at + 1 :])
        return following.low == "under" or not tool  # Nobody bends under a tool.
    happened = following.low in ("when", "while", "during", "in transit", "on the way")
    return subject and ((told and word.low in _BY_ITSELF) or happened)


def _stripped_of(sentence: Sentence, at: int) -> bool:
    """See “lid scr stripped”: a thing nobody knows may have failed."""
    before = sentence.words[at - 1] if at else None
    if before is None or "fail:past" not in sentence.tags(at):
        return False
    return before.sort is Sort.WORD and not before.tags and before.name is None


def _noun_phrase(sentence: Sentence, at: int) -> bool:
    """Tell “cut width 3.2” and “drilled holes are…” from work done."""
    word, following = sentence.words[at], sentence.word(at + 1)
    before = sentence.tags(at - 1) if at else frozenset()
    if "step" in word.tags:
        if not parts_named(sentence):
            return True
        if word.low.startswith("off ") and any(
            one.sort in FIGURES and one.dimension != "time" for one in sentence.words
        ):
            return True
        goes_on = following is not None and following.sort is Sort.WORD
        return goes_on and word.low.startswith("is ")
    if "article" in before and following is not None and following.sort is Sort.WORD:
        return True
    made_of = "preposition" in before and not before & {"article"}
    if made_of and following is not None and following.sort is Sort.WORD:
        return not following.tags & {"article", "preposition", "generic"}
    both = word.tags & {"make:base"}
    if at == 0 and (_finished_noun(sentence) or _compares(sentence)):
        return True
    if both and at > 0 and not _subject_only(sentence.words[:at]):
        return True
    if "fastener" in word.tags and at > 0:
        noun = following is not None and following.name is not None
        return not (noun or (following is not None and "article" in following.tags))
    return bool(both and at > 0 and "measures" in word.tags)


def _subject_only(before: list[Word]) -> bool:
    """Tell “lid cut” and “yesterday cut” from “burr on the base cut the cable”."""
    return all(
        word.sort in (Sort.WHEN, Sort.MARK)
        or word.name is not None
        or word.tags & {"article", "is", "generic"}
        for word in before
    )


_LATE = frozenset({"last", "to suit", "made to suit"})


def _meant(sentence: Sentence) -> Choice | None:
    """See a plan in a verb that has no other past: cut the bar last, to the opening.

    Where it only may be one, it is asked.
    """
    tags = sentence.tags(0)
    if not any(f"{verb}:base" in tags for verb in ("make", "close")):
        return None
    lows = {word.low for word in sentence.words}
    if lows & _LATE and not sentence.sorts(*FIGURES):
        return Choice(Kind.DECISION, 0.75, 0)
    if sentence.has("negation") or lows & (_LATE | ORDERED):
        return Choice(Kind.STEP, 0.5, 0, done_or_to_do(sentence))
    return None


def _compares(sentence: Sentence) -> bool:
    """See “mounted slides are thicker than strips”: how things are, nothing done."""
    lows = [word.low for word in sentence.words]
    led = "article" in sentence.tags(1)
    return not led and "than" in lows and bool({"is", "are"} & set(lows[1:5]))


def _finished_noun(sentence: Sentence) -> bool:
    """Tell “folded edge 89.2°” from “drilled holes 2.5”."""
    following, third = sentence.word(1), sentence.word(2)
    if following is None or third is None or following.low.endswith("s"):
        return False
    return "structure" in following.tags and third.sort in FIGURES


def _orders_work(sentence: Sentence) -> bool:
    following = sentence.word(1)
    if following is None or following.tags & {"is", "off_strong", "length_adjective"}:
        return following is None
    if following.sort in FIGURES:
        return False
    return following.name is not None or bool(
        following.tags & {"article", "structure", "fastener", "adjective", "generic"}
        or following.sort in (Sort.COUNT, Sort.THREAD)
    )
