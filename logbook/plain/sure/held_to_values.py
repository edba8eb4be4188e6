"""What is asked last: whether the values of a line are what they were read as.

These signs hold however strongly the words of the line speak for its kind.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from logbook.plain.sure.of_neighbours import (
    as_a_condition,
    at_another_time,
    called_across_a_stop,
    deep_as_what,
    how_far_it_went,
    how_warm,
    in_whose_state,
    less_than_drawn,
    named_after_all,
    named_behind_it,
    of_another_one,
    of_no_size,
    of_the_next_piece,
    of_which_unit,
    off_there_too,
    only_a_limit,
    times_unread,
    wanted_of_none,
)
from logbook.plain.sure.of_no_size import (
    counted_with_sizes,
    from_hour_to_hour,
    none_left,
    of_a_later_clause,
    of_the_new_one,
    part_put_right,
    read_while_it_ran,
    so_many_more,
    so_much_of_it,
    which_it_was,
    work_with_its_reason,
)
from logbook.plain.sure.of_whose import (
    did_it_to,
    is_in_the_other,
    of_the_other_side,
    of_which_of_a_kind,
    of_which_stuff,
    part_of_a_longer_name,
    so_many_of_them,
    told_before_it,
    told_of_another,
)
from logbook.plain.sure.unread import Unread, in_full
from logbook.plain.understanding import Doubt, Kind, Understanding, Verdict
from logbook.plain.words.sentence import Sentence


def held_to_its_values(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line, asked about first where a value in it may be something else."""
    if line.verdict is not Verdict.TAKEN or line.facts.step:
        return line
    reading = Unread(sentence, line)
    for sign in (*_SIGNS.get(line.kind, ()), *_ANY):
        for doubt in sign(reading):
            return replace(line, doubts=(in_full(doubt, line.kind), *line.doubts))
    return line


_SIGNS: Mapping[Kind, tuple[Callable[[Unread], Iterator[Doubt]], ...]] = {
    Kind.READING: (
        how_far_it_went, of_no_size, called_across_a_stop, of_the_next_piece,
        in_whose_state, deep_as_what, told_of_another, wanted_of_none, off_there_too,
        times_unread, how_warm, as_a_condition, less_than_drawn, is_in_the_other,
        told_before_it, of_which_unit, of_another_one, named_behind_it,
        named_after_all, of_the_other_side, only_a_limit, at_another_time,
        of_which_stuff,
    ),
    Kind.FAILURE: (so_much_of_it, did_it_to, work_with_its_reason),
    Kind.STEP: (of_a_later_clause, read_while_it_ran, of_no_size),
    Kind.DISPOSITION: (
        of_the_new_one, which_it_was, so_many_more, of_which_stuff,
    ),
    Kind.COUNT: (counted_with_sizes,),
    Kind.DECISION: (none_left, from_hour_to_hour),
}  # fmt: skip
"""The signs that count for a line of each kind."""
_ANY = (
    part_put_right, of_which_of_a_kind, so_many_of_them, part_of_a_longer_name,
)  # fmt: skip
