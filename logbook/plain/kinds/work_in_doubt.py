"""When a line that tells of work may tell something else: what to ask then."""

from __future__ import annotations

from logbook.plain.kinds.failing import slipped_on
from logbook.plain.kinds.verbs import adjectival
from logbook.plain.understanding import Doubt
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def of_it(sentence: Sentence, at: int) -> bool:
    """See “re-soldered it”: what it is was told in another line."""
    it = sentence.word(at + 1)
    about = it is not None and it.low in ("it", "them")
    return about and not any(word.name is not None for word in sentence.words)


def two_things(sentence: Sentence, at: int) -> bool:
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


def done_and_measured() -> Doubt:
    """Say that a line tells of work and of a size."""
    return Doubt(
        "kind", "this tells of work and of a size: type one line for each",
        ("only a note",),
    )  # fmt: skip


_AMISS = frozenset(
    {"fail", "negative", "negation", "too_bad", "off_strong", "defect", "adverse"}
)


def spoiled_too(sentence: Sentence, at: int) -> int | None:
    """Give where a line of work also tells what is amiss, or how things compare.

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
                return place
        elif did_not(sentence, place) or slipped_on(sentence, place):
            continue
        elif place > at and word.low == "but" and _left_outside(sentence, place + 1):
            return place + 1
        elif word.low == "than" or (
            word.tags & _AMISS and not _described(sentence, place)
        ):
            return place
    return None


_OUTSIDE = frozenset(
    {"outside", "out", "missing", "left out", "not in", "still out", "open", "loose",
     "still outside", "not inside", "still missing", "forgotten", "still open"}
)  # fmt: skip


def _left_outside(sentence: Sentence, start: int) -> bool:
    """See the end of “lid is on but the cable is outside”."""
    named = any(word.name is not None for word in sentence.words[start:])
    said = [low for word in sentence.words[start:] for low in word.low.split(" ")]
    ends = any(" ".join(said[-size:]) in _OUTSIDE for size in (1, 2))
    return named and ends


def did_not(sentence: Sentence, at: int) -> bool:
    """Tell whether a word says what did not happen: no crack, it didn't crack."""
    first = at + 1 if "negation" in sentence.tags(at) else at
    denied = first > 0 and "negation" in sentence.tags(first - 1)
    return denied and bool(sentence.tags(first) & {"fail:base", "defect"})


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
        "no way",
        "no going",
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


def after_a_symptom(sentence: Sentence, at: int) -> bool:
    """See work told last: “clip comes off, made the nose longer” is a cure."""
    rows = list(clauses(sentence))
    if not rows or rows[0][0] <= at < rows[0][1] or "step" in sentence.tags(at):
        return False
    first = sentence.words[slice(*rows[0])]
    if "fit" in {tag for word in first for tag in word.tags} and not any(
        word.tags & _AMISS for word in first
    ):
        return False  # Collar fits, screwed it down.
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


def repeated(values: Values) -> bool:
    """Tell whether one dimension has several exact values: a measuring run."""
    found = [one for one in values.readings if one.value.step < 1]
    return len(found) > 1 and len({(one.what, one.place) for one in found}) == 1


def done_or_measured(values: Values) -> Doubt:
    """Ask whether a size was made or measured."""
    shown = values.readings[0].value.text
    return Doubt("kind", f"{shown}: was it made so, or measured?", ("measured", "done"))


def someone_else(sentence: Sentence, at: int) -> bool:
    """See work with a doer that is no part: the kerf made it small."""
    before = sentence.word(at - 1) if at > 0 else None
    if before is None or before.sort is not Sort.WORD or before.name is not None:
        return False
    return bool(before.tags & {"measures", "tool"}) and not before.tags & {
        "structure", "generic", "material",
    }  # fmt: skip


def broke_or_done(sentence: Sentence, at: int, amiss: int | None = None) -> Doubt:
    """Ask whether something failed or was meant, by the words that are amiss."""
    rows = [
        row for row in clauses(sentence) if amiss is not None and amiss in range(*row)
    ]
    apart = [(start, end) for start, end in rows if not start <= at < end]
    if amiss is not None and sentence.words[amiss - 1].low == "but":
        apart = [(amiss, end) for _, end in rows]  # But the cable is outside.
    if apart:
        said = sentence.between(apart[0][0], apart[0][1] - 1)
        question = f"“{said}”: log the line as something failed, or as work done?"
        return Doubt("kind", question, ("one failure", "done"))
    verb = sentence.words[at].text
    return Doubt(
        "kind", f"“{verb}”: did it fail, or was it meant?", ("one failure", "done")
    )


def doing_or_deciding(sentence: Sentence) -> Doubt:
    """Ask whether work is being done or only planned."""
    verb = sentence.words[0].text
    return Doubt("kind", f"“{verb}”: done, or only planned?", ("being done", "decided"))


ORDERED = frozenset({"first", "before", "only then", "only after", "afterwards"})


def which_part() -> Doubt:
    """Ask which part it was."""
    return Doubt("part", "which part was that?")


def done_or_to_do(sentence: Sentence) -> Doubt:
    """Ask whether work is done or still to do."""
    verb = sentence.words[0].text
    return Doubt("kind", f"“{verb}”: done already, or still to do?", ("done", "to do"))
