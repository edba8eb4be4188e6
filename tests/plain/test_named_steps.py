"""A step is told by its own title, whatever is said behind it."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from tests.plain.judge import NOW

STEP = "put the cable in its channel"
WORDS = Vocabulary(
    NOW,
    parts={"cable": (), "lamp": (), "lid": ()},
    steps=(STEP, "screw the lid on", "fit the lamp and the felt", "test it"),
    numbered={6: STEP, 7: "screw the lid on"},
)


@pytest.mark.parametrize(
    "line",
    [
        STEP,
        f"{STEP}, lamp lights",
        f"{STEP} and the lamp lights",
        f"I {STEP}, took ten minutes",
        "cable is in its channel and the lamp lights",
        "the cable lies in its channel now",
        "now put the cable in its channel; the lid shuts flat",
        f"{STEP} done",
        f"{STEP} is done, lamp lights",
        f"{STEP}: finished",
    ],
)
def test_its_title_or_its_main_words_close_a_step(line: str) -> None:
    found = understand(line, WORDS)
    assert (found.verdict, found.kind) == (Verdict.TAKEN, Kind.STEP)
    assert found.facts.step == STEP


@pytest.mark.parametrize(
    "line",
    [
        f"{STEP}, not yet",
        f"{STEP} not done",
        f"{STEP}, not done",
        f"{STEP}?",
        "is the cable in its channel",
        "the cable is not in its channel",
        "the cable is in its channel but the lamp does not light",
        f"{STEP}, came out again",
        "cable channel",
        f"still to {STEP}",
        "the lamp is in its channel",
        "test it tomorrow",
    ],
)
def test_what_says_more_or_less_closes_none(line: str) -> None:
    found = understand(line, WORDS)
    assert (found.kind, found.facts.step) != (Kind.STEP, STEP)


def test_a_title_with_and_in_it_is_taken_whole() -> None:
    assert understand("fit the lamp and the felt, it sits", WORDS).facts.step == (
        "fit the lamp and the felt"
    )


def test_what_else_is_told_of_work_stays() -> None:
    found = understand("screw the lid on, took 25 min", WORDS)
    assert found.facts.step == "screw the lid on"
    assert str(found.facts.minutes) == "25 min"


@pytest.mark.parametrize(
    "line",
    ["screw the lid on done", "screw the lid on is done", "screw the lid on: done"],
)
def test_a_title_said_to_be_done_is_the_step_done(line: str) -> None:
    found = understand(line, WORDS)
    assert (found.verdict, found.kind) == (Verdict.TAKEN, Kind.STEP)
    assert found.facts.step == "screw the lid on"


@pytest.mark.parametrize(
    "line", ["screw the lid on half done", "screw the lid on done?"]
)
def test_a_title_said_to_be_half_done_is_not(line: str) -> None:
    found = understand(line, WORDS)
    assert (found.verdict, found.kind) != (Verdict.TAKEN, Kind.STEP)


@pytest.mark.parametrize(
    "line",
    [
        "step 6 done",
        "6 done",
        "Step 6: done.",
        "finished step 6",
        "i did step 6, 20 min",
    ],
)
def test_its_number_in_the_order_of_work_closes_a_step(line: str) -> None:
    found = understand(line, WORDS)
    assert (found.verdict, found.kind) == (Verdict.TAKEN, Kind.STEP)
    assert found.facts.step == STEP


@pytest.mark.parametrize(
    "line",
    ["step 5 done", "step 6 not done", "6 done, 4 to go", "step 6 done?", "step 6",
     "step 6 done but the lid is open"],
)  # fmt: skip
def test_what_names_no_step_by_number_closes_none(line: str) -> None:
    assert understand(line, WORDS).facts.step != STEP


def test_a_title_with_one_slip_is_asked_about_and_is_the_step_when_answered() -> None:
    found = understand("put the cable in its chanel", WORDS)
    doubt = found.question
    assert (found.verdict, found.kind) == (Verdict.ASKED, Kind.NOTE)
    assert doubt is not None
    assert doubt.choices == (STEP, "only a note")
    done = answered(found, doubt, STEP, WORDS)
    assert (done.verdict, done.kind, done.facts.step) == (
        Verdict.TAKEN,
        Kind.STEP,
        STEP,
    )
    assert answered(found, doubt, "only a note", WORDS).kind is Kind.NOTE


@pytest.mark.parametrize(
    "line", ["put the cable in its chanell box", "is the cable in its chanel?"]
)
def test_more_than_one_slip_asks_of_no_step(line: str) -> None:
    doubt = understand(line, WORDS).question
    assert doubt is None or doubt.about != "step"


DONE = Vocabulary(
    NOW,
    parts=dict.fromkeys(
        ("hose-spigot", "shell", "lid", "left foot", "right foot"), ()
    ),
    steps=(
        "press the spigot into the shell", "rivet the top lid over the fan wiring",
        "bend the shell", "carry the lid out", "clip the shell in",
    ),
)  # fmt: skip


@pytest.mark.parametrize(
    ("line", "step"),
    [
        ("pressed the spigot into the shell", 0),
        ("pressed spigot into shell, took 5 min", 0),
        ("riveted the top lid over the fan wiring", 1),
        ("I bent the shell", 2),
        ("carried the lid out", 3),
        ("clipped the shell in", 4),
    ],
)
def test_the_words_of_a_step_in_the_past_are_that_step(line: str, step: int) -> None:
    found = understand(line, DONE)
    assert (found.verdict, found.kind) == (Verdict.TAKEN, Kind.STEP)
    assert found.facts.step == DONE.steps[step]


@pytest.mark.parametrize(
    "line",
    [
        "screwed the spigot into the shell",
        "pressed the spigot out of the shell",
        "pressed the spigot into the shell, it cracked",
        "riveted the top lid",
        "pressed the spigot into the shell?",
    ],
)
def test_another_verb_or_end_is_not_that_step(line: str) -> None:
    assert understand(line, DONE).facts.step == ""


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("screwed the spigot into the shell", "hose-spigot"),
        ("glued the spigot onto the lid", "hose-spigot"),
        ("screwed spigot through the shell", "hose-spigot"),
    ],
)
def test_what_is_put_there_is_known_by_the_end_of_its_name(
    line: str, part: str
) -> None:
    found = understand(line, DONE)
    assert (found.verdict, found.kind) == (Verdict.TAKEN, Kind.STEP)
    assert found.facts.part == part


def test_of_two_whose_names_end_so_it_is_asked() -> None:
    doubt = understand("screwed the foot into the shell", DONE).question
    assert doubt is not None
    assert {"left foot", "right foot"} <= {*doubt.choices}
