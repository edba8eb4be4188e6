"""What holds a joint and is on no list is said; what the list has is not."""

from __future__ import annotations

import shlex
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from logbook.advice.changes.unlisted import not_listed
from logbook.advice.joints.unlisted_joints import unlisted_joints
from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Source
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.records_of import world

NOW = datetime(2026, 3, 14, 12, 0, tzinfo=UTC)


def said(fastener: str, nut: str, *lines: tuple[str, str]) -> list[str]:
    """Give what is said of a lid's joint beside a list of these lines."""
    draft = Draft(world(()), NOW)
    draft.add(
        Joint(
            id=new_id(), title="lid to base", when=NOW, fastener=fastener, nut=nut,
            quantity=4,
        )
    )  # fmt: skip
    for name, bought in lines:
        part = draft.part(name)
        draft.add(
            Line(
                id=new_id(), title=f"{name} in the whole", when=NOW, part=part.ref,
                quantity=4, bought_as=bought,
            )
        )  # fmt: skip
    return list(unlisted_joints(world(draft.records)))


LID = ("lid", "")


def test_a_screw_and_a_nut_on_no_list_are_said_with_what_to_do() -> None:
    [one] = said("M4x25", "plain", LID)
    assert (
        "lid to base takes 4 × M4x25 and plain nut M4, and the list has neither" in one
    )
    command = one.partition("put it in with: ")[2]
    assert shlex.split(command) == ["logbook", "line", "M4x25", "4"]
    [one] = said("M4 × 25", "", LID)
    command = one.partition("put it in with: ")[2]
    assert shlex.split(command) == ["logbook", "line", "M4 × 25", "4"]
    [one] = said("M4x25", "plain", ("screw M4×25", ""))
    assert "takes 4 × plain nut M4, and the list has none" in one
    [one] = said("M4x25", "", ("screw M4x20", ""))
    assert "M4x25" in one


@pytest.mark.parametrize(
    ("fastener", "nut", "lines"),
    [
        ("M4x25", "plain", ()),
        ("M4x25", "", (("M4 × 25 screws", ""),)),
        ("M3x10", "", (("M3 pan head screw", "ISO 7045 M3x10"),)),
        (
            "M4x20",
            "thin self-locking",
            (("M4x20", ""), ("thin self-locking nut M4", "")),
        ),
        ("M4x20", "self-locking", (("M4x20", ""), ("locknuts", ""))),
        ("3.2 blind rivet", "", (("blind rivet 3.2", ""),)),
    ],
)
def test_what_the_list_has_is_not_said(
    fastener: str, nut: str, lines: tuple[tuple[str, str], ...]
) -> None:
    assert said(fastener, nut, *lines) == []


def test_a_nut_of_another_thread_is_not_the_one() -> None:
    [one] = said("M4x20", "plain", ("M4x20", ""), ("nut M3", ""))
    assert "plain nut M4" in one


def test_a_word_that_is_a_size_of_the_part_names_no_thing_to_buy() -> None:
    draft = Draft(world(()), NOW)
    switch = draft.part("switch")
    draft.characteristic(switch, "bushing")
    snapshot: Snapshot = world(draft.records)
    words = "bushing 6.35, with a washer under it"
    assert not_listed(snapshot, switch, words) == ("washer",)
    plain = draft.part("lamp")
    assert not_listed(world(draft.records), plain, words) == ("bushing", "washer")


def test_without_a_list_what_is_bought_by_its_part_leaves_out_screws_all_the_same() -> (
    None
):
    draft = Draft(world(()), NOW)
    draft.add(Joint(id=new_id(), title="lid to base", when=NOW, fastener="M4x12"))
    assert list(unlisted_joints(world(draft.records))) == []
    draft.amend(replace(draft.part("lamp"), source=Source.BOUGHT))
    [one] = unlisted_joints(world(draft.records))
    assert "lid to base takes 1 × M4x12, and the list has none" in one
    assert "(more than one: logbook joint 'lid to base' --number 4)" in one
