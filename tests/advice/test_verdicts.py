"""What a failure came to: cause, cure, how long it holds, what the pieces differ in."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.advice.faults.apart import apart, differences
from logbook.project import Project
from logbook.records.kinds.happenings import Failure
from tests.cli.shop import Shop

FACTS = st.dictionaries(
    st.sampled_from(["machine", "material", "lot"]), st.sampled_from("abc")
)


def verdict(shop: Shop) -> dict[str, Any]:
    [one] = shop.asked("verdicts")["advice"]
    found: dict[str, Any] = one
    return found


def sag(shop: Shop, *more: str) -> None:
    shop.asked("part", "gate", "--material", "PLA", "--when", "2026-03-01T09:00")
    shop.asked("failure", "gate", "gate sagged beside the lamp", "--do", "scrap", *more)


def test_without_cause_and_cure_there_is_no_verdict_yet(shop: Shop) -> None:
    sag(shop)
    found = verdict(shop)
    assert found["open"]
    assert "no cause is on record; no cure is on record" in found["says"]
    said = shop.logbook("verdicts").out
    assert "no verdict yet, it needs the cause and the cure" in said


@pytest.mark.parametrize(
    ("sure", "says"),
    [
        ((), "cause: PLA softens"),
        (("--guessed",), "cause (guessed): PLA softens"),
        (("--proven",), "cause (proven): PLA softens"),
    ],
)
def test_a_cause_is_told_as_sure_as_it_was_said(
    shop: Shop, sure: tuple[str, ...], says: str
) -> None:
    sag(shop, "--cause", "PLA softens", "--cure", "PETG", *sure)
    assert says in verdict(shop)["says"]
    assert "nobody has said since that it holds" in verdict(shop)["says"]
    assert not verdict(shop)["open"]


def test_a_cure_that_still_holds_says_after_how_many_hours(shop: Shop) -> None:
    when = ("--when", "2026-03-21T17:00")
    sag(shop, "--cause", "PLA softens", "--cure", "PETG", "--proven", *when)
    shop.asked(
        "revise", "gate", "--changed", "PETG", "--material", "PETG",
        "--because", "gate sagged beside the lamp", "--when", "2026-03-22T09:00",
    )  # fmt: skip
    assert "untried: no piece of gate rev A" in verdict(shop)["says"]
    shop.asked("piece", "gate", "--when", "2026-03-23T09:00")
    assert "nobody has said yet that it holds" in verdict(shop)["says"]
    later = ("--when", "2026-04-23T09:00")
    shop.asked("status", "gate-2", "still good", "--after", "40 h", *later)
    found = verdict(shop)["says"]
    assert "since then gate-2 still good after 40 h (2026-04-23)" in found
    assert "cause (proven): PLA softens" in found
    assert "material: PLA in what failed, PETG in what did not" in found


def test_a_cure_whose_piece_failed_otherwise_was_made_and_has_not_held(
    shop: Shop,
) -> None:
    sag(shop, "--cause", "PLA softens", "--cure", "PETG", "--when", "2026-03-21T17:00")
    shop.asked(
        "revise", "gate", "--changed", "PETG", "--material", "PETG",
        "--because", "gate sagged beside the lamp", "--when", "2026-03-22T09:00",
    )  # fmt: skip
    shop.asked("piece", "gate", "--when", "2026-03-23T09:00")
    shop.asked(
        "failure", "gate", "gate split at the hinge", "--met-by", "drawing",
        "--do", "scrap", "--when", "2026-03-24T09:00",
    )  # fmt: skip
    told = [one["says"] for one in shop.asked("verdicts")["advice"]]
    sagged = next(says for says in told if says.startswith("gate sagged"))
    assert "untried: no piece made of gate rev A has held" in sagged


def test_what_failed_again_counts_as_failed_whatever_was_to_cure_it(
    shop: Shop,
) -> None:
    sag(shop, "--cure", "PETG", "--met-by", "drawing", "--when", "2026-03-21T17:00")
    shop.asked(
        "revise", "gate", "--changed", "PETG", "--material", "PETG",
        "--because", "gate sagged beside the lamp", "--when", "2026-03-22T09:00",
    )  # fmt: skip
    shop.asked("piece", "gate", "--when", "2026-03-23T09:00")
    shop.asked("piece", "gate", "--when", "2026-03-24T09:00")
    again = "gate 2 sagged again beside the lamp although it is PETG"
    shop.asked(
        "failure", "gate", again, "--piece", "2", "--met-by", "drawing",
        "--when", "2026-03-25T09:00",
    )  # fmt: skip
    for one in shop.asked("verdicts")["advice"]:
        assert "2 failed of 3 pieces" in one["says"]
        assert "in what did not" not in one["says"]


def test_machine_and_settings_that_only_the_failed_had_are_named(shop: Shop) -> None:
    shop.asked("part", "gate", "--process", "3D printing")
    for name in ("printer one", "printer two"):
        shop.asked("machine", name, "--process", "3D printing")
    for number, machine in enumerate(("one", "one", "two", "two"), 1):
        shop.asked(
            "piece", "gate", "--on", f"printer {machine}", "--set", "nozzle=0.4 mm",
            "--when", f"2026-03-0{number}T09:00",
        )  # fmt: skip
    for failed, day in (("1", "05"), ("2", "06")):
        shop.asked(
            "failure", "gate", "layers came apart", "--piece", failed, "--do", "scrap",
            "--when", f"2026-03-{day}T09:00",
        )  # fmt: skip
    one = shop.asked("verdicts")["advice"][0]
    assert "2 failed of 4 pieces" in one["says"]
    assert (
        "machine: printer one in what failed, printer two in what did not"
        in (one["says"])
    )
    assert "nozzle" not in one["says"]


@pytest.mark.parametrize(
    ("size", "read", "in_use"),
    [("wall", "3.1 mm", False), ("face", "51 °C", True)],
)
def test_only_what_was_read_warm_was_in_use_whatever_the_room_was(
    size: str, read: str, in_use: bool, shop: Shop
) -> None:
    """The room of a length says nothing of what the piece is used under."""
    shop.asked("part", "gate", "--process", "3D printing")
    for number in ("1", "2"):
        shop.asked("piece", "gate", "--when", f"2026-03-0{number}T09:00")
    shop.asked(
        "measure", "gate", size, read, "--piece", "2", "--room", "22 °C",
        "--when", "2026-03-04T09:00", "--new",
    )  # fmt: skip
    shop.asked("failure", "gate", "layers came apart", "--piece", "1", "--do", "scrap")
    snapshot = Project.open(shop.folder).snapshot
    found = apart(snapshot, snapshot.all(Failure)[-1])
    assert found is not None
    assert [one.title for one in found.sound] == ["gate-2"] * in_use


def test_a_status_that_a_piece_cannot_have_is_refused(shop: Shop) -> None:
    shop.asked("piece", "base")
    assert shop.logbook("status", "base-1", "withdrawn").code == 2
    assert shop.logbook("status", "base first issue", "fitted").code == 2
    assert shop.logbook("status", "base-1", "still good", "--after", "3 mm").code == 2


@given(st.lists(FACTS, max_size=4), st.lists(FACTS, max_size=4))
def test_what_differs_is_shared_by_all_that_failed_and_by_no_other(
    failed: list[dict[str, str]], sound: list[dict[str, str]]
) -> None:
    for name, theirs, rest in differences(failed, sound):
        assert all(facts[name] == theirs for facts in failed)
        assert all(facts.get(name) != theirs for facts in sound)
        assert theirs not in rest.split(", ")
