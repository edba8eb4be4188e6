"""Names typed to exact verbs: known as `say` knows them, near ones told or refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput, NotFound
from logbook.plain.stated.part_names import one_slip_off
from tests.cli.shop import Shop


@pytest.fixture
def named(shop: Shop) -> Shop:
    """A logbook with a crossbar of one length, and an upper leg with one piece."""
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1", "--also", "rail")
    shop.asked("part", "upper leg left side")
    shop.asked("piece", "upper leg left side")
    return shop


@pytest.mark.parametrize(
    "words",
    [
        ("measure", "crosbar", "length=5"),
        ("failure", "crossbra", "it bent"),
        ("deviation", "crossbaar", "it is short"),
        ("note", "it rattles", "--part", "crosbar"),
        ("decision", "saw it last", "--part", "crosbar"),
        ("part", "crosbar"),
        ("line", "crosbar", "1"),
        ("step", "fit it", "--uses", "crosbar"),
    ],
)
def test_a_name_one_slip_off_a_part_makes_no_new_one(
    named: Shop, words: tuple[str, ...]
) -> None:
    before = len(named.records("parts"))
    said = named.logbook(*words)
    assert said.code == BadInput.exit_code
    assert "accepted: “crossbar”, or --new to make one" in said.err
    assert len(named.records("parts")) == before
    assert named.logbook(*words, "--new").code == 0
    assert len(named.records("parts")) == before + 1


@pytest.mark.parametrize(
    "words",
    [
        ("part", "crossbar", "--crosses", "length=2 bends on the folder"),
        ("piece", "crossbar", "--on", "folder"),
    ],
)
def test_a_machine_nobody_named_yet_is_refused_with_the_line_that_names_it(
    named: Shop, words: tuple[str, ...]
) -> None:
    said = named.logbook(*words)
    assert said.code != 0
    assert "no machine is called “folder”" in said.err
    assert "logbook machine folder --process …" in said.err
    assert named.logbook("machine", "folder", "--process", "folding").code == 0
    assert named.logbook(*words).code == 0


def test_the_end_of_a_longer_name_is_not_made_anew_by_a_slip_either(
    named: Shop,
) -> None:
    named.asked("part", "quadruped foot")
    for typed in ("fot", "quadruped fot", "foott"):
        said = named.logbook("measure", typed, "length=5")
        assert said.code == BadInput.exit_code
        assert "accepted: “quadruped foot”, or --new" in said.err


def test_a_dimension_one_slip_off_is_refused_too(named: Shop) -> None:
    said = named.logbook("measure", "crossbar", "lenght=179.7")
    assert said.code == BadInput.exit_code
    assert "no dimension of crossbar is called “lenght”; accepted: “length”" in said.err
    assert named.logbook("measure", "crossbar", "lenght=179.7", "--new").code == 0


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("upper leg", "upper leg left side"),
        ("crossbars", "crossbar"),
        ("Rail", "crossbar"),
    ],
)
def test_exact_verbs_know_a_part_as_say_does(
    named: Shop, typed: str, title: str
) -> None:
    for verb in ("show", "history"):
        said = named.logbook(verb, typed)
        assert said.code == 0, said.err
    assert f"# {title}" in named.logbook("show", typed).out
    said = named.logbook("note", "it is fine", "--part", typed)
    assert said.code == 0
    told = f"“{typed}” is taken for the part {title}\n"
    assert (said.err == told) is (typed != "Rail")


def test_a_piece_is_known_by_the_short_name_of_its_part(named: Shop) -> None:
    assert "# upper leg left side-1" in named.logbook("show", "upper leg-1").out
    assert named.logbook("dispose", "upper leg-1", "scrap").code == 0


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("crosbar", "“crossbar”"),
        ("bar", "“crossbar”"),
        ("lower leg left side", "“upper leg left side”"),
    ],
)
def test_what_is_not_found_tells_what_is_near(
    named: Shop, typed: str, near: str
) -> None:
    for verb in ("show", "history"):
        said = named.logbook(verb, typed)
        assert said.code == NotFound.exit_code
        assert f"nothing is called “{typed}”; near it: {near}" in said.err


def test_of_a_part_and_its_line_the_part_is_shown(named: Shop) -> None:
    named.asked("gap", "crossbar", "base.opening - crossbar.length")
    said = named.logbook("show", "crossbar")
    assert said.code == 0, said.err
    assert 'kind = "part"' in said.out


@pytest.mark.parametrize("name", ["", "  "])
def test_a_part_without_a_name_is_refused(named: Shop, name: str) -> None:
    said = named.logbook("measure", name, "length", "5")
    assert said.code == BadInput.exit_code
    assert "the part has no name" in said.err


@given(st.text("abcdefgh -_0123", max_size=12), st.text("abcdefgh -_0123", max_size=12))
def test_nearness_is_mutual_and_never_of_a_name_and_itself(one: str, two: str) -> None:
    assert not one_slip_off(one, one)
    if abs(len(one) - len(two)) != 0:
        assert one_slip_off(one, two) == one_slip_off(two, one)


@pytest.mark.parametrize(
    ("one", "two"),
    [("lid 1", "lid 2"), ("leg left", "leg right"), ("pin", "pan"), ("m3x8", "m3x6")],
)
def test_numbers_sides_and_short_words_are_meant_as_they_stand(
    one: str, two: str
) -> None:
    assert not one_slip_off(one, two)


@pytest.mark.parametrize("verb", ["decision", "note"])
def test_the_part_may_stand_before_the_words_as_for_a_failure(
    named: Shop, verb: str
) -> None:
    [made] = named.asked(verb, "rail", "saw it last", "--when", "2026-03-01")[
        "records"
    ][-1:]
    assert made["title"] == "saw it last"
    assert made["part"].startswith("crossbar ")
    assert named.asked(verb, "saw it last")["records"][-1].get("part") is None
    for words in (("rail", "saw", "it"), ("rail", "it", "--part", "rail")):
        said = named.logbook(verb, *words)
        assert said.code == BadInput.exit_code
        assert "in quotes" in said.err


def test_the_reason_of_a_decision_may_be_called_why_as_in_a_revision(
    named: Shop,
) -> None:
    [made] = named.asked("decision", "saw it last", "--why", "it is made to suit")[
        "records"
    ][-1:]
    assert made["because"] == "it is made to suit"
