"""A size nobody has read yet, taken as read: the records stay as they are."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.advisor import Advisor, advise
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.assembling import Fit, Joint
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from tests.cli.shop import Shop


@pytest.fixture
def records(shop: Shop) -> Snapshot:
    shop.asked(
        "joint", "collar to base", "M4x16", "--nut", "thin self-locking",
        "--nut-height", "5.0 mm", "--layer", "collar=6.0 mm", "--layer", "base=2.0 mm",
    )  # fmt: skip
    return Project.open(shop.folder).snapshot


def one(records: Snapshot, cls: type[Record]) -> str:
    [found] = records.all(cls)
    return found.id


def supposed(records: Snapshot, cls: type[Record], typed: str) -> tuple[str, str]:
    words, [said] = Advisor().suppose(records, one(records, cls), typed)
    return words, said.statement


def test_a_supposed_opening_gives_the_bar_its_sizes(records: Snapshot) -> None:
    words, said = supposed(records, Fit, "opening 178.9")
    assert words == "base opening is 178.9 mm"
    assert "make the crossbar length to suit" in said
    # finish = opening − middle of 0.1 to 0.5
    assert "finish 178.60 mm" in said


def test_places_are_supposed_one_by_one(records: Snapshot) -> None:
    _, said = supposed(records, Fit, "opening left 178.60; opening right 178.68")
    # the tightest place governs the finish, both the accept range
    assert "finish 178.30 mm" in said
    _, said = supposed(records, Fit, "opening left 178.60; opening right 178.70")
    # a quarter of the room apart, from there on it is halfway between the two
    assert "finish 178.35 mm" in said


@pytest.mark.parametrize("spelled", [
    "base opening 178,9 mm", "base.opening 178.9", "Opening 17.89 cm",
])  # fmt: skip
def test_a_size_answers_to_each_of_its_names(records: Snapshot, spelled: str) -> None:
    assert "finish 178.60 mm" in supposed(records, Fit, spelled)[1]


def test_a_reading_is_supposed_away(shop: Shop, records: Snapshot) -> None:
    shop.asked("measure", "base", "opening", "left=178.60", "right=178.65")
    records = Project.open(shop.folder).snapshot
    assert "finish 178.60 mm" in supposed(records, Fit, "opening 178.9")[1]


def test_another_screw_and_another_thickness_are_supposed(records: Snapshot) -> None:
    short = supposed(records, Joint, "M4x10")[1]
    assert "M4x10 is too short" in short
    words, said = supposed(records, Joint, "collar 4.0; M4x20")
    assert words == "collar is 4.0 mm thick; the screw is M4x20"
    assert "M4x20 stands through" in said


@pytest.mark.parametrize(
    ("cls", "typed", "found"),
    [
        (Fit, "lid 3", "“lid 3” supposes no size of this gap"),
        (Fit, "opening", "“opening” supposes no size of this gap"),
        (Fit, "opening wide", "does not begin with a number"),
        (Fit, "opening 30 °C", "is no length"),
        (Joint, "lid 3", "names no layer"),
        (Joint, "collar 3 kg", "is no length"),
    ],
)
def test_what_cannot_be_supposed_is_refused(
    records: Snapshot, cls: type[Record], typed: str, found: str
) -> None:
    with pytest.raises(BadInput, match="accepted: ") as refused:
        supposed(records, cls, typed)
    assert found in str(refused.value)


def test_whatever_is_supposed_the_records_say_the_same_afterwards(
    records: Snapshot,
) -> None:
    advisor, plain, gap = Advisor(), advise(records), one(records, Fit)

    @settings(max_examples=25)
    @given(st.lists(st.integers(min_value=17800, max_value=18100), max_size=3))
    def supposing(sizes: list[int]) -> None:
        typed = "; ".join(f"opening p{at} {s / 100}" for at, s in enumerate(sizes))
        words, _ = advisor.suppose(records, gap, typed)
        assert words.count(" is ") == len(sizes)
        assert advisor.update(records) == plain

    supposing()
