"""A build by a release with known faults: what is warned of before it is done."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop

SAGS = "STOP, known fault: gate sagged at 58 °C"
CRACKS = "known fault: diffuser cracked at a corner screw"


@pytest.fixture
def older(shop: Shop) -> Shop:
    """A build by release 1.0, whose gate sags and whose diffuser cracks."""
    for part in ("gate", "diffuser", "lid", "M3 countersunk screw"):
        shop.asked("part", part)
        shop.asked("line", part, "1")
    shop.asked("step", "put the gate in", "--uses", "gate")
    shop.asked("release", "1.0", "--anyway")
    blame = ("--met-by", "drawing", "--do", "scrap", "--cure")
    shop.asked("failure", "gate", "gate sagged at 58 °C", *blame, "print it in PETG")
    cause = ("--cause", "the countersunk head wedged the hole")
    cracked = ("failure", "diffuser", "diffuser cracked at a corner screw")
    shop.asked(*cracked, *cause, *blame, "use pan heads")
    until = ("--stop-using-until", "one in PETG is in its place")
    shop.asked("erratum", "gate sagged at 58 °C", *until)
    for part, fault in (
        ("gate", "gate sagged at 58 °C"),
        ("diffuser", "diffuser cracked at a corner screw"),
    ):
        change = ("--changed", "cured", "--because", fault, "--remake", "yes")
        shop.asked("revise", part, *change)
    shop.asked("line", "M3 countersunk screw", "0")
    shop.asked("release", "1.1", "--anyway")
    shop.asked("build", "shed-1", "--of", "1.0")
    return shop


def say(shop: Shop, line: str) -> str:
    said = shop.logbook("say", "--yes", line)
    assert said.code == 0
    return said.out


@pytest.mark.parametrize(
    ("line", "warned"),
    [
        ("printed the gate in PLA", SAGS),
        ("put the gate in", SAGS),
        ("ordered 2 gates", SAGS),
        ("screwed the diffuser on with four countersunk screws", CRACKS),
        ("ordered 10 M3 countersunk screws", CRACKS),
    ],
)
def test_a_line_that_touches_a_known_fault_says_it_before_it_is_taken(
    older: Shop, line: str, warned: str
) -> None:
    shown = say(older, line)
    assert warned in shown
    assert shown.index(warned) < shown.index("kept:")


def test_what_not_to_use_comes_first_and_with_what_to_do(older: Shop) -> None:
    shown = say(older, "fitted gate and diffuser")
    assert shown.index(SAGS) < shown.index(CRACKS)
    assert "do not use it until one in PETG is in its place" in shown
    assert "do this now: print it in PETG" in shown


def test_each_fault_is_told_once_in_a_build(older: Shop) -> None:
    assert SAGS in say(older, "printed the gate in PLA")
    assert "known fault" not in say(older, "put the gate in")
    older.asked("build", "shed-2", "--of", "1.0")
    assert SAGS in say(older, "printed the gate in PLA")


@pytest.mark.parametrize(
    "line",
    [
        "printed gate rev A in PETG",
        "lid width 40.02 mm",
        "printed the lid",
        "note: the gate looks fine",
    ],
)
def test_what_touches_no_known_fault_is_not_warned_of(older: Shop, line: str) -> None:
    assert "known fault" not in say(older, line)


def test_a_build_by_a_release_without_the_fault_is_not_warned(older: Shop) -> None:
    older.asked("build", "shed-3", "--of", "1.1")
    assert "known fault" not in say(older, "printed the gate in PETG")


def test_beginning_a_build_says_how_many_faults_its_release_has(older: Shop) -> None:
    told = "release 1.0 has 2 known faults, 1 with STOP; read them before you begin"
    assert told in older.logbook("build", "shed-4", "--of", "1.0").out
    assert told in say(older, "start build 5 by release 1.0")
    assert "known fault" not in older.logbook("build", "shed-6", "--of", "1.1").out


@pytest.mark.parametrize(
    ("words", "warned"),
    [
        (("piece", "gate"), SAGS),
        (("measure", "gate", "height", "20.1 mm"), SAGS),
        (("step", "put the gate in", "--done"), SAGS),
        (("failure", "diffuser", "diffuser cracked again"), CRACKS),
    ],
    ids=["piece", "measure", "step", "failure"],
)
def test_an_exact_verb_says_the_fault_as_a_line_does_once(
    older: Shop, words: tuple[str, ...], warned: str
) -> None:
    first = older.logbook(*words)
    assert first.code == 0, first.err
    assert first.err.count(warned) == 1
    assert "known fault" not in older.logbook(*words).err


def test_a_program_is_told_the_fault_too(older: Shop) -> None:
    assert older.asked("piece", "gate")["known_faults"][0].startswith(SAGS)
    assert older.asked("piece", "lid")["known_faults"] == []
