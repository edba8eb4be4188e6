"""What comes apart is what its rivets held, and not the part worked on behind them."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import StepDone
from tests.cli.shop import Shop


@pytest.fixture
def riveted(shop: Shop) -> Shop:
    shop.asked("part", "base")
    shop.asked("part", "lamp")
    shop.asked("step", "screw the lamp on", "--uses", "lamp", "--uses", "base")
    shop.asked("step", "rivet the top lid over the wiring", "--closes")
    for name in ("screw the lamp on", "rivet the top lid over the wiring"):
        shop.asked("step", name, "--done")
    return shop


def newest(shop: Shop, number: int) -> list[tuple[str, str, str, bool]]:
    """Give title, step, part of the newest work, and whether it came apart."""
    done = Project.open(shop.folder).snapshot.all(StepDone)[-number:]
    return sorted(
        (
            one.title,
            one.step.name if one.step else "",
            one.part.name if one.part else "",
            one.undone,
        )
        for one in done
    )


def test_the_step_with_the_rivets_is_taken_apart_and_the_lamp_worked_on(
    riveted: Shop,
) -> None:
    line = "drilled out the rivets, soldered the lamp anew"
    riveted.asked("say", "--yes", line)
    assert newest(riveted, 2) == [
        (line, "rivet the top lid over the wiring", "", True),
        ("soldered the lamp anew", "", "lamp", False),
    ]


def test_screws_taken_out_open_what_was_screwed_on(riveted: Shop) -> None:
    riveted.asked("say", "--yes", "took the lamp screws out again")
    [(_, step, part, undone)] = newest(riveted, 1)
    assert (step, part, undone) == ("screw the lamp on", "lamp", True)


def test_of_two_riveted_things_the_one_that_is_named_comes_apart(
    riveted: Shop,
) -> None:
    riveted.asked("step", "rivet the feet to the base", "--uses", "base")
    riveted.asked("step", "rivet the feet to the base", "--done")
    line = "drilled out the feet rivets, cleaned the lamp"
    riveted.asked("say", "--yes", line)
    assert newest(riveted, 2) == [
        ("cleaned the lamp", "", "lamp", False),
        (line, "rivet the feet to the base", "base", True),
    ]


def test_where_no_step_says_so_nothing_is_asked_of_the_part_worked_on(
    shop: Shop,
) -> None:
    shop.asked("part", "lamp")
    shop.asked("say", "--yes", "drilled out the rivets, soldered the lamp anew")
    assert "close the lamp" not in shop.logbook("offered").out
