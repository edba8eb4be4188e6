"""What is dated before its build began is taken, and it is said."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop

SAID = "dated 13 Mar 10:00, before build 2 began (14 Mar 09:00)"


@pytest.fixture
def begun(shop: Shop) -> Shop:
    shop.asked("part", "crossbar", "--when", "2026-03-10T08:00")
    shop.asked("build", "build 1", "--when", "2026-03-10T09:00")
    shop.asked("build", "build 2", "--when", "2026-03-14T09:00")
    return shop


@pytest.mark.parametrize(
    "words",
    [
        ("step", "sawed the crossbar", "--done"),
        ("measure", "crossbar", "length", "178.4"),
        ("note", "sawed the crossbar"),
        ("say", "--yes", "sawed the crossbar"),
    ],
)
def test_it_is_said_once_and_taken(begun: Shop, words: tuple[str, ...]) -> None:
    said = begun.logbook(*words, "--when", "2026-03-13T10:00")
    assert said.code == 0, said.err
    assert (said.out + said.err).count(SAID) == 1


def test_nothing_is_said_of_a_day_within_the_build(begun: Shop) -> None:
    said = begun.logbook("note", "sawed it", "--when", "2026-03-14T10:00")
    assert "dated" not in said.out + said.err


def test_the_first_line_of_a_project_begins_its_build(shop: Shop) -> None:
    said = shop.logbook("say", "--yes", "crossbar length 178.4 yesterday")
    assert "dated" not in said.out + said.err
