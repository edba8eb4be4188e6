"""What cannot be undone asks what must be inside, once and in plain words."""

from __future__ import annotations

import pytest

from logbook.advice.steps.step_words import imperative
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from tests.advice.proposed.together_by_hand import Bench, done


@pytest.mark.parametrize(
    "line",
    ["glued the channel", "riveted the lid on", "brazed the rail", "welded the leg"],
)
def test_what_cannot_be_undone_asks_what_must_be_inside(
    bench: Bench, line: str
) -> None:
    done(bench, line)
    assert "cannot be undone: what must be inside" in bench.asked()[0]


def test_what_heat_opens_again_asks_nothing(bench: Bench) -> None:
    done(bench, "soldered the leads onto the plug")
    assert not bench.asked()


def test_it_is_asked_by_the_work_not_by_the_hour_it_was_typed_with(
    bench: Bench,
) -> None:
    done(bench, "21 nov 11:00 glued the collar to the base")
    assert bench.asked()[0].startswith("“glue the collar to the base” cannot be undone")


@pytest.mark.parametrize(
    "line",
    ["screwed the lid on", "fitted the rivet nuts", "filed the glue line", "sawed it"],
)
def test_what_comes_apart_again_asks_nothing(bench: Bench, line: str) -> None:
    done(bench, line)
    assert bench.asked() == []


def test_a_step_that_says_what_is_inside_is_not_asked_about(bench: Bench) -> None:
    step = Step(
        id=new_id(), title="rivet the lid on", when=bench.now, closes=True,
        inside=("cable",),
    )  # fmt: skip
    bench.put(step)
    done(bench, "rivet the lid on", step=step.ref, closes=True)
    assert bench.asked() == []


def test_the_same_work_on_the_next_build_is_not_asked_about_again(
    bench: Bench,
) -> None:
    lid = bench.part("lid")
    for build in ("build 1", "build 2"):
        made = Build(id=new_id(), title=build, when=bench.now)
        bench.put(made)
        done(bench, "riveted the lid on", lid, build=made.ref)
    assert len(bench.asked()) == 1


@pytest.mark.parametrize(
    ("said", "step"),
    [
        ("glued the channel shut", "glue the channel shut"),
        ("sawed the crossbar at 178.45", "saw the crossbar"),
        ("Riveted the lid on, took 20 min", "rivet the lid on"),
        ("drilled the holes 9 mm in and it fits", "drill the holes 9 mm in"),
        ("lid is on", "lid is on"),
        ("put the cable in its channel", "put the cable in its channel"),
        (
            "On 24 November at quarter past seven in the evening I riveted it on.",
            "rivet it on",
        ),
        ("yesterday 18:40 we drilled the base", "drill the base"),
        ("On the lid I found a crack", "On the lid I found a crack"),
    ],
)
def test_an_entry_gives_its_step_the_plain_form(said: str, step: str) -> None:
    assert imperative(said) == step
