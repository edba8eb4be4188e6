"""What a size was, and what work brought it to: hole is 2.8, drilled it to 3.2.

The first is a size that is out, whoever else may meet it; the second is what it is now.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.choosing import choose
from logbook.plain.kinds.work_in_doubt import which_part
from logbook.plain.told.facts import gather
from logbook.plain.understanding import Kind
from logbook.plain.values.readings import find_values
from logbook.plain.words.clauses import clauses, find_cure, reworks, without
from logbook.plain.words.figures import FIGURES, Word
from logbook.plain.words.sentence import Sentence

_TO = frozenset({"to", "out to", "up to", "down to", "open to"})
_AT_MOST = 5
"""So many words before the size it was brought to: drilled the hole out to 3.2."""


def brought_to(
    sentence: Sentence,
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read a size told first, and the work that brought it to another."""
    found = find_cure(sentence)
    rows = [*clauses(sentence)]
    if found is None or len(rows) < 2 or rows[0][1] > found[0]:
        return None
    now = _size_at_its_end(sentence, *found)
    first = replace(sentence, words=sentence.words[: rows[0][1]], spans={})
    values = find_values(first)
    choice = choose(first, values)
    told = values.wanted or values.off or len(values.readings) != 1
    if now is None or choice.kind is not Kind.READING or told:
        return None
    facts = gather(first, values, choice)
    [was], [became] = facts["readings"], now.quantities(sentence.vocabulary.unit)
    if became.metal or was.value.metal or became.dimension != was.value.dimension:
        return None
    rest = without(sentence, *found)
    if wanted := find_values(rest).wanted:
        facts["wanted"] = tuple(wanted)
        first.note("wanted", *rest.spans.get("wanted", ()))
    words = sentence.words[slice(*found)]
    facts["cure"] = sentence.text[words[0].start : words[-1].end]
    facts["became"] = became
    first.note("cure", *words)
    first.note("became", now)
    if done := reworks(sentence, found[0]):
        facts["disposition"] = done
        first.note("disposition", words[0])
    if not facts.get("part") and (choice.doubt is None or choice.doubt.faint):
        choice = replace(choice, doubt=which_part())
    return first, choice, facts


def _size_at_its_end(sentence: Sentence, start: int, end: int) -> Word | None:
    """Give the 3.2 that work ends in: drilled it to 3.2, reamed out to 3.2 mm."""
    last, to = sentence.words[end - 1], sentence.words[end - 2]
    works = sentence.tags(start) & {"take_back:past", "rework:past", "make:past"}
    sized = last.sort in FIGURES and len(last.amounts) == 1
    if not (works and sized and to.low in _TO and end - start <= _AT_MOST + 2):
        return None
    return last
