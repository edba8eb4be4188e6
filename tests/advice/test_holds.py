"""Steps that close ask by name; declared holds speak until somebody goes past them."""

from __future__ import annotations

import pytest

from logbook.advice.advisor import Advisor
from logbook.project import Project
from logbook.records.kinds.workshop import Build
from logbook.records.states.held_for import is_of_a_day
from tests.cli.shop import Shop

EARLIER = ("--when", "2026-03-01T10:00")


def said(shop: Shop, *words: str) -> list[tuple[str, str]]:
    return [(a["grade"], a["says"]) for a in shop.asked("holds", *words)["advice"]]


def lid(shop: Shop) -> None:
    shop.asked("part", "lamp", "--wears")
    shop.asked("step", "put the cable in its channel", "--uses", "cable")
    shop.asked(
        "step", "rivet the lid on", "--closes", "--inside", "cable", "--inside", "lamp",
        "--tested", "the lamp lights",
    )  # fmt: skip


SEEN = ("--inside", "cable", "--inside", "lamp", "--tested", "the lamp lights")


def test_the_lid_asks_for_the_cable_before_it_closes(shop: Shop) -> None:
    lid(shop)
    [closing] = [says for grade, says in said(shop) if "rivet the lid on" in says]
    assert closing.startswith(
        "“rivet the lid on” waits: cable goes in first, “put the cable in its channel” "
        "is not done"
    )
    shop.asked("step", "put the cable in its channel", "--done")
    [closing] = [says for grade, says in said(shop) if grade == "check"]
    assert "inside: cable, lamp" in closing
    assert "tested: the lamp lights" in closing
    assert "lamp wears out and would be trapped" in closing
    shop.asked("step", "rivet the lid on", "--done", *SEEN)
    assert not [says for _, says in said(shop) if "rivet the lid on" in says]


def test_what_is_listed_and_put_in_nowhere_is_named_before_a_step_closes(
    shop: Shop,
) -> None:
    for part in ("base", "crossbar", "cable"):
        shop.asked("line", part, "1")
    shop.asked("step", "cut the crossbar", "--makes", "crossbar", "--uses", "base")
    shop.asked("step", "rivet the lid on", "--closes")
    [closing] = [says for grade, says in said(shop) if grade == "check"]
    assert closing.endswith("on the parts list and in no step: cable")


def test_what_was_opened_again_asks_again(shop: Shop) -> None:
    lid(shop)
    for word, when in (
        ("--done", "2026-03-15T10:20"),
        ("--undone", "2026-03-15T10:50"),
    ):
        shop.asked("step", "rivet the lid on", word, "--when", when)
    assert any("rivet the lid on" in says for _, says in said(shop))


def test_a_declared_hold_is_passed_with_a_reason_and_stays_told(shop: Shop) -> None:
    lid(shop)
    shop.asked("hold", "rivet the lid on", "no cable yet", "--until", "the cable is in")
    assert ("wait", "rivet the lid on: no cable yet, until the cable is in") in said(
        shop
    )
    shop.asked("override", "no cable yet", "--reason", "checked")
    assert not any("no cable yet" in says for _, says in said(shop))
    everything = shop.asked("holds", "--all")["advice"]
    assert [a["passed"] for a in everything if "no cable" in a["says"]] == [
        "checked already"
    ]


def test_a_gap_that_waits_stands_among_the_holds(shop: Shop) -> None:
    assert [grade for grade, says in said(shop) if "crossbar" in says] == ["wait"]


def test_a_gap_that_was_gone_past_waits_no_more_on_this_build(shop: Shop) -> None:
    shop.asked("override", "crossbar in base", "--reason", "fit", *EARLIER)
    assert not [says for _, says in said(shop) if "crossbar" in says]
    everything = shop.asked("holds", "--all")["advice"]
    [one] = [a for a in everything if a["topic"] == "gaps"]
    assert one["passed"] == "will fit by hand"
    shop.asked("build", "build 2", "--when", "2026-03-03T10:00")
    assert [grade for grade, says in said(shop) if "crossbar" in says] == ["wait"]


def test_going_past_one_hold_of_a_step_leaves_its_others(shop: Shop) -> None:
    lid(shop)
    shop.asked("hold", "rivet the lid on", "no cable yet")
    why = ("--step", "rivet the lid on", "--because", "it is here by now")
    shop.asked("override", "no cable yet", *why)
    assert not any("no cable yet" in says for _, says in said(shop))
    assert any("“rivet the lid on” waits: cable" in says for _, says in said(shop))


def test_a_step_done_on_one_build_still_asks_on_the_other(shop: Shop) -> None:
    lid(shop)
    shop.asked("build", "build 1", "--when", "2026-03-01T10:00")
    shop.asked("step", "rivet the lid on", "--done", "--when", "2026-03-02T10:00")
    shop.asked("build", "build 2", "--when", "2026-03-03T10:00")
    snapshot = Project.open(shop.folder).snapshot
    advisor = Advisor()
    builds = {build.title: build for build in snapshot.all(Build)}

    def closing(build: Build | None) -> bool:
        told = advisor.update(snapshot, build)
        return any(one.key.startswith("close") for one in told.of("holds"))

    assert closing(None)
    assert not closing(builds["build 1"])
    assert closing(None)


def test_a_step_done_past_what_waits_stays_listed_until_it_is_answered(
    shop: Shop,
) -> None:
    lid(shop)
    shop.asked("step", "rivet the lid on", "--done")
    gone = "gone past: “rivet the lid on” is done, and cable goes in first"
    assert [grade for grade, says in said(shop) if says.startswith(gone)] == ["check"]
    shop.asked("step", "put the cable in its channel", "--done")
    unseen = "not ticked: inside: cable · inside: lamp · tested: the lamp lights"
    [still] = [says for _, says in said(shop) if "gone past" in says]
    assert still == f"gone past: “rivet the lid on” is done, and {unseen}"
    shop.asked("override", "rivet the lid on", "--reason", "checked")
    assert not [says for _, says in said(shop) if "gone past" in says]


def test_what_was_seen_inside_when_it_closed_is_not_gone_past(shop: Shop) -> None:
    lid(shop)
    shop.asked("step", "rivet the lid on", "--done", *SEEN)
    assert not [says for _, says in said(shop) if "gone past" in says]


def test_what_was_gone_past_before_it_was_opened_again_is_asked_anew(
    shop: Shop,
) -> None:
    lid(shop)
    shop.asked("hold", "rivet the lid on", "the long rivets are not here")
    earlier = ("--when", "2026-03-02T10:00")
    shop.asked("build", "build 1", *EARLIER)
    shop.asked("override", "rivet the lid on", "--because", "from below", *earlier)
    shop.asked(
        "override", "the long rivets are not here", "--reason", "checked", *earlier
    )
    assert not [says for _, says in said(shop) if "rivet the lid on" in says]
    shop.asked(
        "step", "rivet the lid on", "--done", *SEEN, "--when", "2026-03-02T11:00"
    )
    shop.asked("step", "rivet the lid on", "--undone", "--when", "2026-03-03T09:00")
    waits = [says for grade, says in said(shop) if grade == "wait"]
    assert any("cable goes in first" in says for says in waits)
    assert any("the long rivets are not here" in says for says in waits)


def test_what_was_taken_out_again_is_not_put_in_already(shop: Shop) -> None:
    lid(shop)
    shop.asked("build", "build 1", *EARLIER)
    steps = (
        ("put the cable in its channel", "--done"),
        ("rivet the lid on", "--done", *SEEN),
        ("rivet the lid on", "--undone"),
        ("put the cable in its channel", "--undone"),
    )
    for hour, (step, *words) in enumerate(steps, 10):
        shop.asked("step", step, *words, "--when", f"2026-03-02T{hour}:00")
        if hour == 12:
            [closing] = [says for _, says in said(shop) if "rivet the lid on" in says]
            assert "put in already" not in closing
            assert closing.startswith("before “rivet the lid on” closes")
    [closing] = [says for _, says in said(shop) if "rivet the lid on" in says]
    assert "cable goes in first" in closing


def test_the_cable_pulled_out_from_under_a_lid_that_is_on_is_said(shop: Shop) -> None:
    lid(shop)
    shop.asked("build", "build 1", *EARLIER)
    steps = (
        ("put the cable in its channel", "--done"),
        ("rivet the lid on", "--done", *SEEN),
        ("put the cable in its channel", "--undone"),
    )
    for hour, (step, *words) in enumerate(steps, 10):
        shop.asked("step", step, *words, "--when", f"2026-03-02T{hour}:00")
    [past] = [says for _, says in said(shop) if "gone past" in says]
    assert "cable goes in first" in past


def test_nothing_said_is_no_reason_to_go_past_a_hold(shop: Shop) -> None:
    lid(shop)
    shop.asked("hold", "rivet the lid on", "no cable yet")
    refused = shop.logbook("override", "no cable yet")
    assert refused.code != 0
    assert "no reason was given; accepted: --because" in refused.err
    assert any("no cable yet" in says for _, says in said(shop))


def test_a_wait_until_a_day_is_of_its_build_and_dated_one_for_so_long_of_all(
    shop: Shop,
) -> None:
    lid(shop)
    shop.asked("hold", "rivet the lid on", "the glue is wet", "--until", "tomorrow")
    shop.asked("hold", "rivet the lid on", "paint dries", "--until", "12 h")
    here = [says for _, says in said(shop)]
    assert any("until tomorrow (said on 20" in says for says in here)
    assert "rivet the lid on: paint dries, for 12 h" in here
    shop.asked("build", "another")
    there = [says for _, says in said(shop)]
    assert not any("the glue is wet" in says for says in there)
    assert "rivet the lid on: paint dries, for 12 h" in there


@pytest.mark.parametrize(
    ("until", "day"),
    [
        ("tomorrow 9:00", True),
        ("Monday", True),
        ("3 pm", True),
        ("2 May", True),
        ("12 h", False),
        ("the paint may be touched", False),
        ("the gap is 1.50 mm", False),
        ("the cable is in", False),
    ],
)
def test_only_a_day_or_an_hour_comes_once(until: str, day: bool) -> None:
    assert is_of_a_day(until) is day
