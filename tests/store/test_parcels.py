"""What comes out of a parcel is what was put in."""

from __future__ import annotations

import io
import pickle
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import Problem
from logbook.records.written.text import Parsed
from logbook.store.reading.parcels import IN_A_PARCEL, File, send, take
from tests.records.strategies import records, words

problems = st.builds(Problem, words, st.integers(0, 9), words, words, words)
beyond = st.dictionaries(words, words | st.integers() | st.booleans(), max_size=2)
told = st.builds(lambda one, extra: replace(one, extra=extra), records, beyond)
parsed = st.builds(Parsed, st.none() | told, st.lists(problems).map(tuple))
files = st.tuples(words, st.tuples(words, parsed))


def sent(given_files: list[File]) -> io.BytesIO:
    pipe = io.BytesIO()
    send(given_files, pipe)
    pipe.seek(0)
    return pipe


@given(st.lists(files, max_size=4))
def test_every_file_arrives_as_it_was_typed(given_files: list[File]) -> None:
    arrived = list(take(sent(given_files)))
    assert arrived == given_files
    assert repr(arrived) == repr(given_files)  # equal sizes may be typed differently


@pytest.mark.parametrize("count", [0, IN_A_PARCEL, 3 * IN_A_PARCEL + 1])
def test_however_many_they_are(count: int) -> None:
    given_files = [(f"{n}.md", ("", Parsed(None))) for n in range(count)]
    pipe = sent(given_files)
    assert list(take(pipe)) == given_files
    assert not pipe.read()


def test_one_that_ends_in_the_middle_is_noticed() -> None:
    given_files = [(f"{n}.md", ("", Parsed(None))) for n in range(2 * IN_A_PARCEL)]
    whole = sent(given_files).getvalue()
    cut = io.BytesIO(whole[: len(whole) * 2 // 3])
    with pytest.raises((EOFError, pickle.UnpicklingError)):
        list(take(cut))
