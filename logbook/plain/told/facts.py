"""The facts of a line once its kind is known, each with the words it was read in."""

from __future__ import annotations

from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.drawn import as_drawn, limits_told
from logbook.plain.kinds.sizes import unmeasured
from logbook.plain.told.causes import cause
from logbook.plain.told.choices import (
    instead_of,
    instead_said,
    part_replaced,
    revision_of,
    revision_of_piece,
)
from logbook.plain.told.counted import remaining_of, what_was_counted
from logbook.plain.told.ordered import ordered_item, ordered_part
from logbook.plain.told.outcomes import blame, cure, disposition
from logbook.plain.told.part import part_of
from logbook.plain.told.sizes import sizes_of
from logbook.plain.told.so_many import only_counted
from logbook.plain.told.where import apart_from_why, where
from logbook.plain.told.work import (
    closing_of,
    fastener_of,
    how_many,
    layers_of,
    price_of,
)
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Absent


def gather(sentence: Sentence, values: Values, choice: Choice) -> dict[str, Any]:
    """Give the facts of the line as the fields of `Facts`."""
    facts: dict[str, Any] = {}
    fate = choice.at if choice.kind is Kind.DISPOSITION else -1
    facts.update(part_of(sentence, failed=choice.kind is Kind.FAILURE, told=fate))
    if choice.kind is Kind.STEP and only_counted(sentence):
        facts.pop("so_many", None)  # Cut 6 slats: how many were, and work done once.
        sentence.spans.pop("so_many", None)
    facts.update(sizes_of(sentence, values, choice))
    if choice.kind is Kind.READING:
        facts.update(limits_told(sentence, facts))
    facts.update(_named(sentence))
    for reader in _READERS.get(choice.kind, ()):
        facts.update(reader(sentence, choice))
    facts.update(part_replaced(sentence, facts))
    facts.update(blame(sentence, choice))
    return apart_from_why(sentence, facts)


def _named(sentence: Sentence) -> dict[str, Any]:
    """Give the build, machine, stock and step that the project knows by name."""
    facts: dict[str, Any] = {}
    for role in ("build", "machine", "stock", "step"):
        for at in sentence.named(role)[:1]:
            word = sentence.words[at]
            sentence.note(role, word)
            facts[role] = word.name.thing if word.name else ""
    facts["instrument_known"] = bool(sentence.named("instrument"))
    if "build" not in facts:
        for at in sentence.sorts(Sort.LABEL):
            word = sentence.words[at]
            if word.low.startswith("build "):
                sentence.note("build", word)
                facts["build"] = word.text
    return facts


def _absence(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    found = unmeasured(sentence)
    if not found:
        return {}
    word = sentence.words[found[0]]
    sentence.note("absent", word)
    absent = Absent.UNTRIED if "untried" in word.tags else Absent.NOT_MEASURED
    facts: dict[str, Any] = {"absent": absent}
    measures: list[Word] = []
    if choice.kind is Kind.READING and absent is Absent.NOT_MEASURED:
        measures = _behind_colon(sentence, found[0])
    measures = measures or [
        sentence.words[at]
        for at in sentence.tagged("measures", "structure")
        if at not in found and sentence.words[at].name is None
    ]
    known = [sentence.words[at] for at in sentence.named("characteristic")]
    if known and choice.kind is Kind.READING and absent is Absent.NOT_MEASURED:
        measures = known[:1]
    if measures and choice.kind is Kind.READING:
        sentence.note("what", *measures)
        named = (one.name.thing if one.name else one.low for one in measures)
        facts["what"] = " ".join(named)
    return facts


def _behind_colon(sentence: Sentence, at: int) -> list[Word]:
    """Give what a list of things not measured names: “not measured: weld shrinkage”."""
    colon = sentence.word(at + 1)
    if colon is None or colon.low not in (":", "-", "is"):
        return []
    end = next(iter(end for start, end in clauses(sentence) if end > at + 2), 0)
    words = sentence.words[at + 2 : end]
    return [
        one
        for one in words
        if one.name is None
        and one.sort is Sort.WORD
        and not one.tags & {"article", "preposition"}
    ]


def _feeling(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    found = sentence.tagged("fit")
    words = [sentence.words[at] for at in found]
    sentence.note("feels", *words)
    del choice
    return {"feels": ", ".join(word.low for word in words)}


_READERS = {
    Kind.READING: (_absence, cause, revision_of_piece),
    Kind.STOCK: (remaining_of,),
    Kind.DRAWN: (as_drawn,),
    Kind.FIT: (_feeling,),
    Kind.FAILURE: (
        where, cause, cure, disposition, fastener_of, revision_of_piece,
    ),
    Kind.DECISION: (instead_said, cause, disposition, how_many, fastener_of),
    Kind.REVISION: (revision_of, cause, _absence, fastener_of),
    Kind.SUBSTITUTION: (instead_of, cause, how_many, fastener_of),
    Kind.DISPOSITION: (disposition, cause, how_many, revision_of_piece),
    Kind.STEP: (closing_of, how_many, fastener_of),
    Kind.JOINT: (fastener_of, layers_of, how_many),
    Kind.ORDER: (ordered_part, how_many, price_of, fastener_of, ordered_item),
    Kind.COUNT: (what_was_counted,),
    Kind.QUESTION: (),
    Kind.NOTE: (),
}  # fmt: skip
