"""Ids, references and the names made of titles."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds.ids import (
    ALPHABET,
    Ref,
    formula_name,
    is_id,
    new_id,
    parse_ref,
    slug,
    spoken,
)
from tests.records.strategies import refs


def test_new_ids_have_the_form_of_an_id_and_differ() -> None:
    made = {new_id() for _ in range(1000)}
    assert len(made) == 1000
    assert all(is_id(one) for one in made)
    assert not set("ilou") & set(ALPHABET)


@given(refs())
def test_a_reference_reads_back_as_written(ref: Ref) -> None:
    assert parse_ref(str(ref)) == ref


def test_a_name_alone_is_a_reference_without_id() -> None:
    assert parse_ref(" left  bracket ") == Ref("left bracket")
    assert not Ref("")


def test_lookalikes_are_read_as_the_digits_they_stand_for() -> None:
    assert spoken(" 4HXO-CITL ") == "4hx0c1t1"


@given(st.text(max_size=80))
def test_slugs_and_formula_names_are_plain(text: str) -> None:
    assert slug(text).replace("-", "").isalnum()
    assert slug(text).isascii()
    assert len(slug(text)) <= 40
    assert formula_name(text).isidentifier()


@pytest.mark.parametrize(
    ("text", "made"), [("Left Bracket!", "left_bracket"), ("3 mm lid", "n_3_mm_lid")]
)
def test_formula_names(text: str, made: str) -> None:
    assert formula_name(text) == made
