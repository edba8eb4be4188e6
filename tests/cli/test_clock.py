"""`logbook clock`: the one clock of a project, by verbs, shared with the windows."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Work
from logbook.store.typed.work_clock import read_clock, started
from tests.cli.shop import Shop
from tests.clocks import put_clock, set_back


@pytest.fixture
def steps(shop: Shop) -> Shop:
    for name in ("fold the base", "file the crossbar", "file the base"):
        shop.asked("step", name)
    return shop


def stands(shop: Shop) -> Any:
    return shop.asked("clock")["clock"]


def works(shop: Shop) -> list[tuple[str, str]]:
    found = Project.open(shop.folder).snapshot.all(Work)
    return [(str(one.time), one.step.name if one.step else "") for one in found]


def start(shop: Shop, subject: str, minutes: int) -> None:
    """Start the clock on these words, and let it have run so long."""
    assert shop.logbook("clock", "start", subject).code == 0
    set_back(shop.folder, minutes)


def test_a_clock_is_started_says_how_it_stands_and_is_logged(steps: Shop) -> None:
    assert "no clock is running" in steps.logbook("clock").out
    assert stands(steps) is None
    start(steps, "2", 12)
    said = steps.logbook("clock").out
    assert "on “file the crossbar”" in said
    assert "12 min" in said
    stopped = steps.logbook("clock", "stop")
    assert stopped.code == 0, stopped.err
    assert "the clock stopped: 12 min on file the crossbar" in stopped.out
    assert works(steps) == [("12 min", "file the crossbar")]
    assert steps.subjects()[0] == "time worked: 12 min on file the crossbar"
    assert stands(steps) is None


def test_paused_it_counts_no_more_until_it_goes_on(steps: Shop) -> None:
    start(steps, "fold", 12)
    assert "paused" in steps.logbook("clock", "pause").out
    held = read_clock(steps.folder)
    assert held is not None
    assert not held.runs
    assert (stands(steps)["state"], stands(steps)["counted_min"]) == ("paused", 12)
    assert steps.logbook("clock", "pause").code == 7
    assert steps.logbook("clock", "go-on").code == 0
    assert (stands(steps)["state"], stands(steps)["counted_min"]) == ("running", 12)


def test_an_entry_logged_in_the_shell_is_a_sign_of_work_before_a_pause(
    steps: Shop,
) -> None:
    start(steps, "fold", 50)
    twenty_ago = datetime.now(UTC) - timedelta(minutes=25)
    steps.asked("note", "bends well", "--when", twenty_ago.isoformat())
    steps.logbook("clock", "pause")
    assert stands(steps)["counted_min"] == 50


def test_what_was_not_counted_is_said_and_the_time_can_be_typed(steps: Shop) -> None:
    start(steps, "fold", 90)
    assert stands(steps)["state"] == "resting"
    assert "1 h not counted" in steps.logbook("clock", "stop").out
    assert "goes on" in steps.logbook("undo").out
    assert steps.logbook("clock", "stop", "1.5", "h").code == 0
    assert works(steps) == [("90 min", "fold the base")]


def test_taking_back_its_time_lets_it_go_on_as_it_was(steps: Shop) -> None:
    start(steps, "fold", 12)
    steps.logbook("clock", "stop")
    undone = steps.logbook("undo")
    assert "the clock on fold the base goes on" in undone.out
    assert works(steps) == []
    assert stands(steps)["counted_min"] == 12


def test_taking_back_leaves_the_clock_that_was_started_since(steps: Shop) -> None:
    start(steps, "fold", 12)
    steps.logbook("clock", "stop")
    start(steps, "2", 1)
    assert "stays on file the crossbar" in steps.asked("undo")["clock"]
    assert stands(steps)["on"] == "file the crossbar"


def test_a_step_told_as_done_in_the_shell_ends_its_clock(steps: Shop) -> None:
    steps.asked("part", "base")
    start(steps, "fold", 12)
    assert "stopped" not in steps.logbook("step", "file the crossbar", "--done").out
    assert stands(steps) is not None
    said = steps.logbook("say", "--yes", "folded the base").out
    assert "the clock stopped: 12 min on fold the base" in said
    assert works(steps) == [("12 min", "fold the base")]
    assert stands(steps) is None
    assert "goes on" in steps.logbook("undo").out
    assert stands(steps)["counted_min"] == 12


def test_the_time_typed_with_the_step_stands(steps: Shop) -> None:
    start(steps, "fold", 12)
    done = steps.logbook("step", "fold the base", "--done", "--time", "40 min")
    assert "the time typed stands: 40 min" in done.out
    assert works(steps) == []
    assert stands(steps) is None


def test_a_second_clock_is_refused_and_the_first_stays(steps: Shop) -> None:
    start(steps, "fold", 12)
    again = steps.logbook("clock", "start", "2")
    assert again.code == 7
    assert "on “fold the base” already, 12 min counted" in again.err
    assert stands(steps)["on"] == "fold the base"


def test_words_that_fit_several_steps_start_none_and_other_words_are_ones_own(
    steps: Shop,
) -> None:
    several = steps.logbook("clock", "start", "file")
    assert several.code == 2
    assert "2 “file the crossbar”, 3 “file the base”" in several.err
    assert stands(steps) is None
    own = steps.logbook("clock", "start", "sweep the floor")
    assert "no step is called “sweep the floor”" in own.out
    assert (stands(steps)["on"], stands(steps)["step"]) == ("sweep the floor", "")


def test_dropped_it_logs_nothing(steps: Shop) -> None:
    start(steps, "fold", 12)
    assert "12 min are not logged" in steps.logbook("clock", "drop").out
    assert works(steps) == []
    assert stands(steps) is None


def test_the_clock_of_a_window_is_stopped_here_and_counts_for_its_build(
    steps: Shop,
) -> None:
    first = steps.asked("build", "build 1")["records"][0]
    steps.asked("build", "build 2")
    now = datetime.now(UTC) - timedelta(minutes=8)
    put_clock(steps.folder, started("fold the base", first["id"], now, window="1-a"))
    assert stands(steps)["build"] == "build 1"
    stopped = steps.asked("clock", "stop")
    assert stopped["records"][0]["build"].startswith("build 1 ")


@pytest.mark.parametrize("verb", ["steps", "holds"])
def test_verbs_that_tell_where_one_is_tell_of_the_clock(steps: Shop, verb: str) -> None:
    assert "the clock" not in steps.logbook(verb).out
    start(steps, "fold", 12)
    assert "the clock is on “fold the base”" in steps.logbook(verb).out
    assert steps.asked(verb)["clock"]["counted_min"] == 12


@pytest.mark.parametrize(
    ("words", "code", "found"),
    [
        (("pause",), 7, "no clock is running"),
        (("stop",), 7, "no clock is running"),
        (("start",), 2, "nothing was said"),
        (("pause", "now"), 2, "found “now”"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    steps: Shop, words: tuple[str, ...], code: int, found: str
) -> None:
    said = steps.logbook("clock", *words)
    assert said.code == code
    assert found in said.err
    assert "accepted:" in said.err


def test_a_time_that_is_none_stops_nothing(steps: Shop) -> None:
    start(steps, "fold", 12)
    said = steps.logbook("clock", "stop", "5 mm")
    assert said.code == 2
    assert "found “5 mm”" in said.err
    assert stands(steps)["counted_min"] == 12
