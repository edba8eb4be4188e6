"""How likely a line is of the kind it was read as, by its words and by its form.

What the words of lines known before say of a kind is not all: some lines tell their
kind by their very form, and some kinds tell of another one too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction

from logbook.plain.kinds.amiss import amiss_at, fails_told_first
from logbook.plain.kinds.chosen_over import chosen_over
from logbook.plain.kinds.chosen_plainly import chosen_plainly
from logbook.plain.kinds.dispositions import fate_told_first
from logbook.plain.kinds.grounded import kept_to_at
from logbook.plain.kinds.left_be import left_at
from logbook.plain.kinds.made_otherwise import made_otherwise_at
from logbook.plain.kinds.missing import bottoms_at, missing_at
from logbook.plain.kinds.next_time import (
    for_next_time_at,
    in_another_size_at,
    sized_next_time_at,
)
from logbook.plain.kinds.of_releases import (
    becomes_at,
    for_a_release_at,
    published_at,
)
from logbook.plain.kinds.orders import gone_out, in_work_elsewhere, out_at_a_price
from logbook.plain.kinds.rows_of_work import (
    done_to_it,
    row_of_work,
    work_told_first,
)
from logbook.plain.kinds.set_into import set_into
from logbook.plain.kinds.sizes import unmeasured_at, weighed_at
from logbook.plain.kinds.taken_back import worked_till_it_goes
from logbook.plain.kinds.thrown_away import thrown_away_at
from logbook.plain.kinds.work_in_doubt import did_not
from logbook.plain.named.given_back import given_back_at
from logbook.plain.named.more_of_them import more_wanted_at
from logbook.plain.named.own_machine import own_machine
from logbook.plain.sure.likely import speaks_for
from logbook.plain.understanding import Kind, Understanding
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.smallest_to_largest import leads_from

_PAPERS = frozenset({"drawing", "file", "plan", "model", "dxf", "stl"})
_NOW = re.compile(r"(?i)\bnow\s+[\d.,]+")
_CURED = (
    "fixed that",
    "cured that",
    "solved that",
    "stopped that",
    "fixed it",
    "cured it",
    "solved it",
    "stopped it",
    "did it",
    "did the trick",
)
_HARDLY = 0.05
_NEARLY = Fraction(1, 50)


def chance_of(
    sentence: Sentence, line: Understanding, by_kind: Mapping[Kind, float]
) -> float:
    """Give how likely a line is what it was read as."""
    chance = _by_words(line, by_kind)
    if _by_form(sentence, line, chance):
        return 1.0
    return chance + _told_beside(sentence, line, by_kind)


def _by_words(line: Understanding, by_kind: Mapping[Kind, float]) -> float:
    """Give what its words say; a piece used as it is was decided on and disposed of."""
    both = (Kind.DECISION, Kind.DISPOSITION)
    if line.kind in both and line.facts.disposition:
        return sum(by_kind[one] for one in both)
    return speaks_for(line.kind, by_kind)


def _by_form(sentence: Sentence, line: Understanding, chance: float) -> bool:
    """Tell whether a line tells its kind by its very form, whatever its words."""
    facts, kind = line.facts, line.kind
    if surely_so(sentence, kind):
        return True
    if facts.became is not None or facts.beside is not None:
        return True  # Hole is 2.8, drilled it to 3.2.
    if kind is Kind.READING and facts.what == "thickness" and facts.cause is not None:
        return True  # Plate of another thickness, the right one was not to be had.
    made = facts.wanted and made_otherwise_at(sentence) is not None
    if kind is Kind.READING and (made or _hardly_off(line)):
        return True  # Bore 5.84 should be 6; 178.1 instead of 178.3.
    if kind is Kind.READING and any(
        leads_from(sentence, at) for at in range(len(sentence.words))
    ):
        return True  # Holes range from 3.1 to 3.3.
    if kind is Kind.READING and _headed_by_measure(sentence, line):
        return True  # Torque on the lid screws 0.4 N·m, with washers.
    if kind is Kind.ORDER and out_at_a_price(sentence) is not None:
        return True  # Four plates out for plating, 22.00, back friday.
    if kind is Kind.DECISION and _from_now_on(line):
        return True  # M4x20 from now on, M4x16 too short.
    cured = facts.cure.lower().endswith(_CURED)  # Washers under it fixed that.
    if kind is Kind.FAILURE and cured:
        return True
    return kind is Kind.STEP and _work_by_form(sentence, line, chance)


_SURE_FORMS: Mapping[Kind, tuple[Callable[[Sentence], int | None], ...]] = {
    Kind.READING: (weighed_at, unmeasured_at),
    Kind.STEP: (row_of_work, done_to_it, work_told_first, set_into),
    Kind.DISPOSITION: (
        fate_told_first, thrown_away_at, worked_till_it_goes, given_back_at,
    ),
    Kind.DECISION: (
        for_a_release_at, becomes_at, published_at, in_another_size_at, left_at,
        for_next_time_at, kept_to_at, chosen_over, sized_next_time_at,
        more_wanted_at, own_machine, chosen_plainly,
    ),
    Kind.FAILURE: (amiss_at, missing_at, bottoms_at, fails_told_first),
    Kind.ORDER: (in_work_elsewhere, gone_out),
}  # fmt: skip


def surely_so(sentence: Sentence, kind: Kind) -> bool:
    """Tell whether a line says its kind in so many words, whatever else it tells.

    Reworked the lid: …, threw the mask in the bin, release 1.1 will use pan heads.
    """
    return any(form(sentence) is not None for form in _SURE_FORMS.get(kind, ()))


def _headed_by_measure(sentence: Sentence, line: Understanding) -> bool:
    """Tell whether a line begins with the measure of its value, and does nothing."""
    first = 1 if "article" in sentence.tags(0) else 0
    told = sentence.word(first)
    if told is None or "measures" not in told.tags or not line.facts.readings:
        return False
    past = any(tag.endswith(":past") for word in sentence.words for tag in word.tags)
    of_it = line.facts.readings[0].what.casefold().startswith(told.low)
    return of_it and not past and line.facts.readings[0].value.dimension != "length"


def _work_by_form(sentence: Sentence, line: Understanding, chance: float) -> bool:
    facts = line.facts
    if any(did_not(sentence, at) for at in range(len(sentence.words))):
        return True  # Drilled, no crack this time: its words speak of a failure.
    if facts.readings and facts.part and _NOW.search(line.line):
        return True  # Sanded the bar, now 178.45: work, by whatever name.
    if facts.inside and line.told_by is None:
        return True  # The cable sits inside the channel.
    return facts.undone and chance >= _HARDLY  # Drilled out again.


def _told_beside(
    sentence: Sentence, line: Understanding, by_kind: Mapping[Kind, float]
) -> float:
    """Give how likely a line is of another kind that its own tells of too.

    One that is scrapped for its size tells of the size; what is wrong in a drawing
    failed, and says whose fault it is; whose fault a size or a failure is, is a
    decision that tells of them.
    """
    facts, kind, beside = line.facts, line.kind, 0.0
    if kind is Kind.DISPOSITION and facts.piece and facts.cause:
        beside += by_kind[Kind.FAILURE]  # Reworked because the sole had let go.
    if kind is Kind.DISPOSITION and (facts.wanted or facts.off):
        beside += by_kind[Kind.READING] + by_kind[Kind.FAILURE]
    if kind is Kind.FAILURE and not _PAPERS.isdisjoint(sentence.text.lower().split()):
        beside += by_kind[Kind.DECISION]
    if kind is Kind.DECISION and facts.met_by_others:
        beside += by_kind[Kind.READING] + by_kind[Kind.FAILURE]
    return beside


def _from_now_on(line: Understanding) -> bool:
    """Tell whether a line says in its own words that it holds from now on."""
    told = line.told_by
    said = line.line[told.start : told.end] if told else ""
    return said.casefold() in ("from now on", "from here on")


def _hardly_off(line: Understanding) -> bool:
    """Tell whether a value is told with one that it misses by next to nothing."""
    if len(line.facts.readings) != 1 or len(line.facts.wanted) != 1:
        return False
    value, wanted = line.facts.readings[0].value, line.facts.wanted[0]
    if value.metal or wanted.metal or value.dimension != wanted.dimension:
        return False
    return abs(value.to(wanted.unit) - wanted.value) <= abs(wanted.value) * _NEARLY
