"""Collections in pieces are what the plain ones are, and share what did not change."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds.happenings import Note
from logbook.records.together.ordered import (
    PIECE,
    Joined,
    Ordered,
    age,
    apart,
    in_order,
    put_right,
)
from logbook.records.together.spread import Table, with_changes

BEGAN = datetime(2026, 3, 14, tzinfo=UTC)
MANY = 5 * PIECE
PLACES = st.integers(0, MANY - 1)
SLICES = st.slices(MANY)


def note(number: int, text: str = "") -> Note:
    when = BEGAN + timedelta(minutes=number // 3)
    return Note(id=f"{number:08}", title=f"note {number}{text}", when=when)


NOTES = [note(number) for number in range(MANY)]


def test_few_are_a_tuple_and_many_are_kept_in_pieces() -> None:
    assert in_order([]) == ()
    assert in_order(NOTES[:PIECE]) == tuple(NOTES[:PIECE])
    many = in_order(NOTES)
    assert isinstance(many, Ordered)
    assert many == NOTES
    assert many != NOTES[1:]
    assert list(reversed(many)) == NOTES[::-1]


@given(PLACES, SLICES)
def test_places_and_slices_are_those_of_a_list(place: int, stretch: slice) -> None:
    for many in (
        in_order(NOTES),
        Joined(in_order(NOTES[:place]), in_order(NOTES[place:])),
    ):
        assert many[place] is NOTES[place]
        assert many[place - MANY] is NOTES[place - MANY]
        assert many[stretch] == tuple(NOTES[stretch])
        assert len(many) == MANY
        for beyond in (MANY, -MANY - 1):
            try:
                many[beyond]
            except IndexError:
                continue
            raise AssertionError(beyond)


@given(st.lists(st.sets(PLACES, max_size=40), max_size=6), st.sets(PLACES))
def test_records_that_go_and_come_leave_all_in_order(
    turns: list[set[int]], there: set[int]
) -> None:
    held = in_order([one for number, one in enumerate(NOTES) if number not in there])
    now = {one.id: one for one in held}
    for turn in turns:
        went = [now.pop(key) for key in [f"{n:08}" for n in turn] if key in now]
        came = [NOTES[number] for number in turn if number % 3 or not went]
        came = [one for one in came if one.id not in now]
        now |= {one.id: one for one in came}
        held = put_right(held, went, came)
        assert list(held) == sorted(now.values(), key=age)
        assert len(held) == len(now)


def test_all_pieces_but_those_that_changed_are_the_same_ones() -> None:
    before = in_order(NOTES)
    after = put_right(before, [NOTES[7]], [note(7, " again")])
    assert isinstance(before, Ordered)
    assert isinstance(after, Ordered)
    shared = set(map(id, before._pieces)) & set(map(id, after._pieces))
    assert len(shared) == len(before._pieces) - 1
    assert put_right(before, [], []) is before


def test_pieces_grow_and_shrink_with_what_they_hold() -> None:
    held = in_order(NOTES)
    late = [note(MANY + number) for number in range(4 * PIECE)]
    for one in late:
        held = put_right(held, [], [one])
    assert list(held) == [*NOTES, *late]
    assert isinstance(held, Ordered)
    assert max(map(len, held._pieces)) <= 2 * PIECE
    for one in NOTES:
        held = put_right(held, [one], [])
    assert list(held) == late
    assert list(put_right(held, late, NOTES[:2])) == NOTES[:2]


@given(
    st.integers(0, 3 * PIECE),
    st.lists(st.tuples(st.sets(PLACES, max_size=20), st.sets(PLACES, max_size=20))),
)
def test_a_table_is_what_a_dict_is(
    many: int, turns: list[tuple[set[int], set[int]]]
) -> None:
    plain = {str(number): number for number in range(many)}
    held: Mapping[str, int] = dict(plain)
    for turn, (gone, fresh) in enumerate(turns):
        new = {str(number): number + turn for number in fresh}
        before, kept = held, dict(plain)
        held = with_changes(held, map(str, gone), new)
        for number in gone:
            plain.pop(str(number), None)
        plain |= new
        assert held == plain
        assert len(held) == len(plain)
        assert sorted(held) == sorted(plain)
        assert sorted(held.values()) == sorted(plain.values())
        assert sorted(held.items()) == sorted(plain.items())
        assert [held.get(str(one)) for one in gone] == [
            plain.get(str(one)) for one in gone
        ]
        assert all((str(one) in held) is (str(one) in plain) for one in gone | fresh)
        assert before == kept


def test_a_large_table_shares_all_pieces_but_those_that_changed() -> None:
    before = with_changes({str(one): one for one in range(MANY)}, (), {"new": 1})
    after = with_changes(before, ("3",), {"new": 2})
    assert isinstance(before, Table)
    assert isinstance(after, Table)
    other = [one for one in after._pieces if not any(one is p for p in before._pieces)]
    assert 1 <= len(other) <= 2
    assert before["new"] == 1
    assert after["new"] == 2
    assert before["3"] == 3
    assert "3" not in after


@given(st.sets(PLACES, max_size=4), st.sets(PLACES, max_size=4))
def test_what_only_one_of_two_holds_is_told_apart(
    gone: set[int], changed: set[int]
) -> None:
    went = [NOTES[number] for number in sorted(gone | changed)]
    came = [note(number, " anew") for number in sorted(changed)]
    before = in_order(NOTES)
    after = put_right(before, went, came)
    assert apart(before, after) == (went, came)
    assert apart(tuple(NOTES), tuple(after)) == (went, came)
    assert apart(before, before) == apart((), ()) == ([], [])
    assert apart(before, ()) == (NOTES, [])
