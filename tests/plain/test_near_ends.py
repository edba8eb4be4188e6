"""Looked for among few names, a slip is found as among all of them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from logbook.plain.words.lexicon import one_slip
from logbook.plain.words.near_ends import NearEnds

WORDS = st.text("abm-2é", max_size=6)


@given(WORDS, st.lists(WORDS, max_size=12))
def test_every_name_that_ends_so_or_nearly_so_is_looked_at(
    word: str, ends: list[str]
) -> None:
    near = NearEnds(ends).of(word)
    assert list(near) == sorted({*near})
    for at, end in enumerate(ends):
        if end == word or one_slip(word, end, replaced=False):
            assert at in near, (word, end)


@given(st.sampled_from(["mask", "diffuser", "base"]), st.data())
def test_one_letter_dropped_added_or_swapped_is_near(
    end: str, data: st.DataObject
) -> None:
    at = data.draw(st.integers(0, len(end) - 1))
    letter = data.draw(st.sampled_from("aeksz"))
    dropped = end[:at] + end[at + 1 :]
    added = end[:at] + letter + end[at:]
    swapped = end[:at] + end[at : at + 2][::-1] + end[at + 2 :]
    ends = NearEnds(["bed", end, "bed"])
    for word in (end, dropped, added, swapped):
        assert 1 in ends.of(word), word
    assert list(ends.of("collar")) == []


def test_a_thousand_other_names_are_not_looked_at() -> None:
    ends = NearEnds(f"{number}" for number in range(1000))
    assert list(ends.of("swept")) == []
