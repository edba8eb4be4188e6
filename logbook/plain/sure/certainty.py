"""How sure the reading of a line is, told by what of the line it left unread.

Rules read the words they know. A line they were not written for shows it: the clause
that stays unread, the noun nobody knows where a part belongs, the verb that is not the
first, a figure no fact took. Such a line is asked about and not taken for what it says
to those who wrote the rules. Each sign was kept because, on lines no rule had seen, it
stood on wrong readings far oftener than on right ones.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from logbook.plain.kinds.chosen_plainly import chosen_plainly
from logbook.plain.named.given_back import bought_so
from logbook.plain.named.own_machine import own_machine
from logbook.plain.sure.chances import surely_so
from logbook.plain.sure.of_causes import cure_or_cause, may_tell_why, no_clue
from logbook.plain.sure.of_clauses import clauses_disagree, mostly_unread
from logbook.plain.sure.of_events import (
    also_fails,
    by_our_own,
    came_out,
    corrects,
    head_unread,
    how_it_is,
    still_so,
    undone_again,
)
from logbook.plain.sure.of_features import bought_by_the_way, feature_that_failed
from logbook.plain.sure.of_figures import figure_left, heat_or_angle, only_beside
from logbook.plain.sure.of_parts import (
    cut_off,
    end_of_a_known,
    new_by_the_way,
    next_of_unknown,
    object_unknown,
    of_another_name,
    of_the_machine,
    of_turned_name,
    of_which_part,
    part_goes_on,
    stock_of_part,
    subject_unknown,
)
from logbook.plain.sure.of_sizes import (
    figure_unread,
    head_unheard,
    named_across_a_stop,
    named_by_a_guess,
    numbers_a_thing,
    place_unread,
    says_more,
    than_another,
    which_size,
)
from logbook.plain.sure.unread import Unread, in_full
from logbook.plain.understanding import (
    Doubt,
    Kind,
    Understanding,
    Verdict,
)
from logbook.plain.words.sentence import Sentence

_PLAIN = (Kind.NOTE, Kind.QUESTION)


def made_sure(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line, to be asked about first where it bears a sign of a misreading."""
    reading = Unread(sentence, line)
    if line.verdict is Verdict.KEPT or line.kind in _PLAIN:
        denied = line.verdict is Verdict.KEPT and _denies(sentence)
        doubts = corrects(reading) if denied else iter(())
        return next((replace(line, doubts=(doubt,)) for doubt in doubts), line)
    for doubt in corrects(reading):
        return replace(line, doubts=(doubt,))
    if line.verdict is not Verdict.TAKEN:
        return line
    brought = line.facts.became is not None
    told = line.kind in (Kind.STEP, Kind.READING)
    row = told and surely_so(sentence, line.kind)
    row = row or (line.kind is Kind.DECISION and chosen_plainly(sentence) is not None)
    row = row or own_machine(sentence) is not None  # My saw leaves 0.3 too much.
    row = row or bought_so(sentence)  # Sending the pumps back, wrong voltage.
    row = row or line.kind is Kind.REVISION  # Told by its label; all is kept in it.
    for sign in _OF_THE_PART if brought or row else _SIGNS:
        for doubt in sign(reading):
            return replace(line, doubts=(in_full(doubt, line.kind), *line.doubts))
    return line


def _denies(sentence: Sentence) -> bool:
    """See the not of “sorry, it was PETG not PLA”, with what is so beside it."""
    return any(word.low == "not" for word in sentence.words[1:])


_OF_THE_PART: tuple[Callable[[Unread], Iterator[Doubt]], ...] = (
    which_size, new_by_the_way, part_goes_on, of_another_name, of_turned_name,
    next_of_unknown,
)  # fmt: skip
"""The signs that count where the kind is told by its form: 2.8, drilled it to 3.2."""
_SIGNS: tuple[Callable[[Unread], Iterator[Doubt]], ...] = (
    heat_or_angle,
    feature_that_failed, bought_by_the_way,
    by_our_own, still_so, which_size, new_by_the_way, object_unknown, subject_unknown,
    part_goes_on, of_another_name, of_turned_name,
    came_out, says_more, of_the_machine, of_which_part, also_fails, head_unread,
    how_it_is, figure_unread, head_unheard, cut_off, place_unread, no_clue,
    may_tell_why, cure_or_cause, end_of_a_known, figure_left, only_beside,
    named_by_a_guess, named_across_a_stop, numbers_a_thing, than_another,
    clauses_disagree, mostly_unread, stock_of_part,
    undone_again,
)  # fmt: skip
