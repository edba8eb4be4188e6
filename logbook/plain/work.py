"""Work done, things ordered, joints made, fasteners counted."""

from __future__ import annotations

from logbook.plain.choice import (
    FIGURES,
    Choice,
    adjectival,
    first_past,
    money,
    parts_named,
    priced,
)
from logbook.plain.clauses import clauses
from logbook.plain.figures import Sort, Word
from logbook.plain.readings import Values
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import Doubt, Kind


def ordered(sentence: Sentence, values: Values) -> Choice | None:
    """See something ordered, bought, sent out or received."""
    found = [
        at
        for at in sentence.tagged("order_done")
        if "order_done:base" not in sentence.tags(at)
        or "order_done:past" in sentence.tags(at)
    ]
    found = [
        at
        for at in found
        if "order_done:now" not in sentence.tags(at)
        and not _by_the_way(sentence, at)
        and not _got_done(sentence, at)
    ]
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
    if (gone := _gone_out(sentence)) is not None:
        return Choice(Kind.ORDER, 0.85, gone)
    if priced(sentence) and parts_named(sentence):
        return Choice(Kind.ORDER, 0.75, -1)
    got = sentence.tagged("order_got")
    if got and got[0] == 0:
        following = sentence.word(1)
        if following is not None and following.sort not in FIGURES:
            return Choice(Kind.ORDER, 0.75, 0)
        if following is not None and _so_much_of(sentence, 1):
            return Choice(Kind.ORDER, 0.75, 0)
    if sentence.has("due") and sentence.sorts(Sort.WHEN) and sentence.sorts(Sort.COUNT):
        return Choice(Kind.ORDER, 0.75, sentence.tagged("due")[0])
    return None


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
    noun = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    done = sentence.tags(noun + 1) & {"make:past", "close:past", "step"}
    named = sentence.word(noun)
    return got and bool(done) and named is not None and named.name is not None


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


_GONE = frozenset({"gone", "out", "off", "away", "dropped", "taken", "took", "left",
                   "brought", "handed", "went"})  # fmt: skip


def _gone_out(sentence: Sentence) -> int | None:
    """See what went to somebody else to be made: base gone to the powder coater."""
    for at in sentence.tagged("outside_work"):
        led = [word.low for word in sentence.words[max(0, at - 3) : at]]
        before = {one for word in sentence.words[:at] for one in word.low.split()}
        to = {one for low in led for one in low.split()} & {"to", "at", "with", "for"}
        if to and before & _GONE and parts_named(sentence):
            return at
    return None


def joint_made(sentence: Sentence, _: Values) -> Choice | None:
    """See a fastener as fitted through its layers."""
    fastener = sentence.sorts(Sort.THREAD) or sentence.tagged("fastener")
    parts = parts_named(sentence)
    if not parts:
        return None
    way = sentence.tagged("in_the_way")
    if way:
        return Choice(Kind.FAILURE, 0.5, way[0], _in_the_way(sentence, way[0]))
    if not fastener:
        return None
    through = sentence.tagged("through_sure")
    held = [at for at in sentence.tagged("hold") if not _commanded(sentence, at)]
    stands = [
        at
        for at in range(len(sentence.words))
        if sentence.words[at].low in ("stands", "sticks", "protrudes")
    ]
    two = len({sentence.words[at].name for at in parts}) >= 2
    if through and (two or sentence.sorts(Sort.THREAD)):
        return Choice(Kind.JOINT, 0.88, through[0])
    to = [word for word in sentence.words if word.low in ("to", "with", "on")]
    if two and to and sentence.sorts(Sort.THREAD) and first_past(sentence) is None:
        return Choice(Kind.JOINT, 0.8, sentence.sorts(Sort.THREAD)[0])
    if held and two:
        return Choice(Kind.JOINT, 0.82, held[0])
    if stands and sentence.sorts(Sort.THREAD):
        return Choice(Kind.JOINT, 0.8, stands[0])
    return None


def _commanded(sentence: Sentence, at: int) -> bool:
    """Tell the screw of “screw the bed on first” from screws that hold it."""
    tags = sentence.tags(at)
    return at == 0 and "hold:base" in tags and "hold:past" not in tags


def _in_the_way(sentence: Sentence, at: int) -> Doubt:
    """Ask of “the bolt runs into the cable”: a wire may be led into its channel."""
    verb = sentence.words[at].text
    question = f"“{verb}”: is one in the way of the other?"
    return Doubt("kind", question, ("one failure", "only a note"))


def counted(sentence: Sentence, _: Values) -> Choice | None:
    """See a count told: used 6 of 8 inserts."""
    counts = sentence.sorts(Sort.COUNT)
    if "make:base" in sentence.tags(0) and "make:past" not in sentence.tags(0):
        return None  # Make 3 spares: to be made, not counted.
    listed = sentence.tagged("list_says")
    used = sentence.tagged("used")
    left = sentence.tagged("count_left")
    whole = [
        at
        for at, word in enumerate(sentence.words)
        if word.whole is not None and not word.unit
    ]
    if counts and listed and len(whole) >= 2:
        return Choice(Kind.COUNT, 0.82, listed[0])
    whole_part = (
        any(at < counts[0] for at in parts_named(sentence)) if counts else False
    )
    used_up = used and used[0] == 0 and not sentence.has("through_sure")
    if counts and used_up and not whole_part:
        return Choice(Kind.COUNT, 0.78, used[0])
    if counts and left and left[0] > counts[0] and first_past(sentence) is None:
        return Choice(Kind.COUNT, 0.78, left[0])
    if left and left[0] == 0 and whole and len(sentence.words) <= 4:
        return Choice(Kind.COUNT, 0.75, 0)
    return None


def step_done(sentence: Sentence, values: Values) -> Choice | None:
    """See work done; work in the imperative is asked about."""
    choice = _step(sentence)
    if choice is None or choice.doubt is not None:
        return choice
    if values.readings and (values.wanted or _repeated(values)):
        return Choice(Kind.STEP, 0.5, choice.at, _done_or_measured(values))
    if _comes_first(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, _done_or_to_do(sentence))
    turned = choice.at > 0 and any(
        word.low == "but" for word in sentence.words[: choice.at]
    )
    late = _after_a_symptom(sentence, choice.at)
    if turned or late or _someone_else(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, _broke_or_done(sentence, choice.at))
    if _of_it(sentence, choice.at):
        return Choice(Kind.STEP, choice.confidence, choice.at, _which_part())
    if _two_things(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, _done_and_measured())
    if _spoiled_too(sentence, choice.at):
        return Choice(Kind.STEP, 0.5, choice.at, _broke_or_done(sentence, choice.at))
    return choice


def _comes_first(sentence: Sentence, at: int) -> bool:
    """See “put the rivets in first, no room after”: an order of work, or done so."""
    lows = {word.low for word in sentence.words}
    base = any(tag.endswith(":base") for tag in sentence.tags(at))
    return (
        at == 0
        and base
        and bool(lows & _ORDERED)
        and sentence.has("negative", "negation")
    )


def _of_it(sentence: Sentence, at: int) -> bool:
    """See “re-soldered it”: what it is was told in another line."""
    it = sentence.word(at + 1)
    about = it is not None and it.low in ("it", "them")
    return about and not any(word.name is not None for word in sentence.words)


def _two_things(sentence: Sentence, at: int) -> bool:
    """See a size of a part that only a later clause names: wired it, stem 38 C."""
    named = parts_named(sentence)
    mine = {
        sentence.words[one].name
        for start, end in clauses(sentence)
        for one in named
        if start <= at < end and start <= one < end
    }
    for start, end in clauses(sentence):
        row = sentence.words[start:end]
        parts = {sentence.words[one].name for one in named if start <= one < end}
        here = start > at and bool(parts - mine)
        if here and any(
            word.sort in FIGURES and word.dimension != "time" for word in row
        ):
            return True
    return False


def _done_and_measured() -> Doubt:
    return Doubt(
        "kind", "this tells of work and of a size: type one line for each",
        ("only a note",),
    )  # fmt: skip


_AMISS = frozenset(
    {"fail", "negative", "negation", "too_bad", "off_strong", "defect", "adverse"}
)


def _spoiled_too(sentence: Sentence, at: int) -> bool:
    """See a line of work that also tells what is amiss, or how things compare.

    Its verb alone does not tell whether that was the work's doing, or its reason.
    """
    why = next(iter(sentence.tagged("because")), len(sentence.words))
    settings = sentence.settings()
    for place, word in enumerate(sentence.words[:why]):
        if word in settings or word.name is not None or word.sort is not Sort.WORD:
            continue
        if place == at:
            follows = sentence.tags(at + 1) & {"structure"}
            label = sentence.word(at + 1)
            label_follows = label is not None and label.sort is Sort.LABEL
            if "fail:past" in word.tags and (follows or label_follows):
                return True
        elif word.low == "than" or (
            word.tags & _AMISS and not _described(sentence, place)
        ):
            return True
    return False


def _described(sentence: Sentence, at: int) -> bool:
    """Tell a word that only describes what was worked on: the cracked board, no gap."""
    word = sentence.words[at]
    good = " ".join(one.low for one in sentence.words[at : at + 2])
    if "off_strong" in word.tags and not word.low.startswith(("too ", "out of ")):
        return True
    if good in (
        "no problem",
        "no trouble",
        "no issues",
        "no fuss",
        "no rattle",
        "no play",
        "no gap",
        "no gaps",
        "no burrs",
        "without glue",
    ):
        return True
    noun = bool(
        word.tags & {"structure", "measures", "make:past", "close:past", "material"}
    )
    return noun or adjectival(sentence, at) or "no " in word.low


def _after_a_symptom(sentence: Sentence, at: int) -> bool:
    """See work told last: “clip comes off, made the nose longer” is a cure."""
    rows = list(clauses(sentence))
    if not rows or rows[0][0] <= at < rows[0][1] or "step" in sentence.tags(at):
        return False
    first = sentence.words[slice(*rows[0])]
    named = any(word.name is not None or "fail" in word.tags for word in first)
    verbs = [word for word in first if word.sort is Sort.WORD and _tells(word)]
    return named and bool(verbs) and not any(word.low in _DONE for word in first)


_DONE = frozenset({"ok", "done", "ready", "finished", "measured", "checked", "tested"})


def _tells(word: Word) -> bool:
    """Tell a word that says something of the thing: rubs, is, too, unknown ones."""
    if word.name is not None:
        return False
    now = any(tag.endswith(":now") for tag in word.tags)
    return now or bool(word.tags & {"plain_verb", "is", "off_strong"}) or not word.tags


def _repeated(values: Values) -> bool:
    """Tell whether one dimension has several exact values: a measuring run."""
    found = [one for one in values.readings if one.value.step < 1]
    return len(found) > 1 and len({(one.what, one.place) for one in found}) == 1


def _done_or_measured(values: Values) -> Doubt:
    shown = values.readings[0].value.text
    return Doubt("kind", f"{shown}: was it made so, or measured?", ("measured", "done"))


def _someone_else(sentence: Sentence, at: int) -> bool:
    """See work with a doer that is no part: the kerf made it small."""
    before = sentence.word(at - 1) if at > 0 else None
    if before is None or before.sort is not Sort.WORD or before.name is not None:
        return False
    return bool(before.tags & {"measures", "tool"}) and not before.tags & {
        "structure", "generic", "material",
    }  # fmt: skip


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
        if not (_with_instrument(sentence, at) or _that_was(sentence, at))
    ]
    if past and _ends_bent(sentence, past[0]):
        return Choice(Kind.STEP, 0.5, past[0], _broke_or_done(sentence, past[0]))
    if past and not _noun_phrase(sentence, past[0]):
        if past[0] == 0 and (plan := _meant(sentence)):
            return plan
        bare = len(sentence.words) == 1
        doubt = _which_part() if bare else None
        return Choice(Kind.STEP, 0.85, past[0], doubt)
    if (going := _going_on(sentence)) is not None:
        return going
    took, second = sentence.word(0), sentence.word(1)
    timed = second is not None and second.dimension == "time"
    if took is not None and took.low == "took" and timed:
        return Choice(Kind.STEP, 0.75, 0)
    base = sentence.tagged("make:base", "close:base")
    later = {word.low for word in sentence.words} & {"next one", "next time"}
    if base and base[0] == 0 and later and _orders_work(sentence):
        return Choice(Kind.DECISION, 0.75, 0)
    if base and base[0] == 0 and _orders_work(sentence):
        return Choice(Kind.STEP, 0.5, 0, _done_or_to_do(sentence))
    return None


def _that_was(sentence: Sentence, at: int) -> bool:
    """See “the crossbar I made yesterday is 178.35”: which one it is, measured."""
    who = sentence.word(at - 1) if at > 1 else None
    if who is None or who.low not in ("i", "we", "he", "she", "they"):
        return False
    rest = {tag for word in sentence.words[at + 1 :] for tag in word.tags}
    return sentence.words[at - 2].name is not None and "is" in rest


def _with_instrument(sentence: Sentence, at: int) -> bool:
    """See “put the caliper on the crossbar”: it was measured, no work was done."""
    noun = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    return "instrument" in sentence.tags(noun)


def _going_on(sentence: Sentence) -> Choice | None:
    """See work told in its -ing form: soldering done, spent 40 min reaming."""
    ing = sentence.tagged("make:ing", "close:ing")
    timed = any(word.dimension == "time" for word in sentence.words)
    going_on = timed or sentence.has("time:now", "is")
    if ing and "measures" in sentence.tags(ing[0] + 1):
        ing = []  # Coating thickness is no coating.
    if ing and ing[0] == 0 and not going_on and not sentence.has("hypothetical"):
        return Choice(Kind.STEP, 0.5, 0, _doing_or_deciding(sentence))
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
        return not any("tool" in one.tags for one in sentence.words[at + 1 :])
    happened = following.low in ("when", "while", "during", "in transit", "on the way")
    return subject and ((told and word.low in _BY_ITSELF) or happened)


def _broke_or_done(sentence: Sentence, at: int) -> Doubt:
    verb = sentence.words[at].text
    return Doubt(
        "kind", f"“{verb}”: did it fail, or was it meant?", ("one failure", "done")
    )


def _doing_or_deciding(sentence: Sentence) -> Doubt:
    verb = sentence.words[0].text
    return Doubt("kind", f"“{verb}”: done, or only planned?", ("being done", "decided"))


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
_ORDERED = frozenset({"first", "before", "only then", "only after", "afterwards"})


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
    if sentence.has("negation") or lows & (_LATE | _ORDERED):
        return Choice(Kind.STEP, 0.5, 0, _done_or_to_do(sentence))
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


def _which_part() -> Doubt:
    return Doubt("part", "which part was that?")


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


def _done_or_to_do(sentence: Sentence) -> Doubt:
    verb = sentence.words[0].text
    return Doubt("kind", f"“{verb}”: done already, or still to do?", ("done", "to do"))
