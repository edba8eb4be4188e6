"""A line that gives a size as drawn defines it; a reading beside it stays a reading."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.errors import BadInput
from logbook.plain.answers.answering import answered
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Note
from logbook.records.making.drafts import Draft
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW, of_parts
from tests.plain.on_record import on_record
from tests.plain.records_of import drafted, known, world


def test_nominal_limits_and_stock_stand_in_the_records() -> None:
    line = understand("base in folded aluminium 2.0 mm, opening drawn 180 ±1.2", DEMO)
    assert line.kind is Kind.DRAWN
    records = drafted(line, world(known(DEMO)))
    [opening] = [one for one in records if isinstance(one, Characteristic)]
    limits = (str(opening.lower_limit), str(opening.upper_limit))
    assert (str(opening.nominal), limits) == ("180 mm", ("178.8 mm", "181.2 mm"))
    [base] = [one for one in records if isinstance(one, Part)]
    assert (base.material, str(base.thickness)) == ("aluminium", "2.0 mm")


@pytest.mark.parametrize(
    ("size", "limits"),
    [
        ("180 +1.2/0", ("180.0 mm", "181.2 mm")),
        ("180 +1.2 -0", ("180.0 mm", "181.2 mm")),
        ("180 0/-1.2", ("178.8 mm", "180.0 mm")),
        ("180 mm +0.2 / -0.1", ("179.9 mm", "180.2 mm")),
        ("180 +0.1/+0.3", ("180.1 mm", "180.3 mm")),
        ("180+1,2/0", ("180.0 mm", "181.2 mm")),
    ],
)
def test_two_limits_behind_a_size_are_its_own_and_no_readings(
    size: str, limits: tuple[str, str]
) -> None:
    line = understand(f"base opening drawn {size}", DEMO)
    assert (line.kind, line.facts.readings) == (Kind.DRAWN, ())
    records = drafted(line, world(known(DEMO)))
    [opening] = [one for one in records if isinstance(one, Characteristic)]
    assert str(opening.nominal) == "180 mm"
    assert (str(opening.lower_limit), str(opening.upper_limit)) == limits


def test_signed_values_behind_a_zero_are_readings_like_it() -> None:
    line = understand("crossbar runout 0 +0.02 -0.02", DEMO)
    assert (line.kind, len(line.facts.readings)) == (Kind.READING, 3)


def test_a_form_of_stock_is_no_material() -> None:
    line = understand("crossbar 20 x 10 bar, length drawn 179.7 ±0.1", DEMO)
    assert (line.kind, line.facts.material) == (Kind.DRAWN, "")


@pytest.mark.parametrize(
    "says",
    [
        "base opening 178.6 drawn 180",
        "collar bore 13.08 (nom. 13.1)",
        "filed the crossbar to 178.3, drawn 179.7",
        "diffuser cracked, drawn 9 ±0.5 from the edge",
    ],
)
def test_what_was_measured_or_happened_is_no_drawing(says: str) -> None:
    assert understand(says, DEMO).kind is not Kind.DRAWN


def test_another_drawn_size_than_the_one_on_record_is_refused_with_the_way() -> None:
    before = known(DEMO)
    first = drafted(understand("base opening drawn 180 ±1.2", DEMO), world(before))
    held = {record.id: record for record in (*before, *first)}
    later = Draft(world(held.values()), NOW + timedelta(hours=2))
    with pytest.raises(BadInput, match="drawn 180 mm on record; accepted: a revision"):
        draft_line(later, understand("base opening drawn 181", DEMO))


def test_what_is_drawn_of_no_part_is_a_note_and_makes_none() -> None:
    words = of_parts("lens board", "base")
    line = understand("board length drawn 600 ±0.5", words)
    assert line.question is not None
    told = answered(line, line.question, "no part", words)
    [note] = drafted(told, world(known(words)))
    assert isinstance(note, Note)


def test_values_no_place_tells_apart_get_places_and_are_not_averaged() -> None:
    places = [
        one.place
        for one in understand(
            "base opening 178.6 178.4 178.5 178.7", DEMO
        ).facts.readings
    ]
    assert places == ["place 1", "place 2", "place 3", "place 4"]
    again = understand("base opening 178.6, again 178.5", DEMO).facts.readings
    assert {one.place for one in again} == {""}


def test_a_number_in_a_reason_is_no_reading() -> None:
    line = understand("diffuser hole 3.4 because 3.2 bit gave 3.4", DEMO)
    assert [str(one.value) for one in line.facts.readings] == ["3.4 mm"]


@pytest.mark.parametrize(
    ("says", "name"),
    [
        ("gate spigot drawn 5.9 ±0.1", "spigot"),
        ("collar pilot drawn 5.9", "pilot"),
        ("lid tenon drawn 12 ±0.2", "tenon"),
        ("bed dovetail drawn 18.0 mm", "dovetail"),
    ],
)
def test_a_size_may_be_drawn_by_a_new_name(says: str, name: str) -> None:
    line = understand(says, DEMO)
    assert line.kind is Kind.DRAWN
    assert [one.what for one in line.facts.drawn] == [name]


@pytest.mark.parametrize(
    "says",
    [
        "gate was drawn 5.9",
        "collar badly drawn 5.9",
        "lid not drawn 12",
        "bed drawn 18",
    ],
)
def test_what_names_no_size_is_none(says: str) -> None:
    assert understand(says, DEMO).kind is not Kind.DRAWN


@pytest.mark.parametrize(
    ("says", "part", "name"),
    [
        ("shade spigot drawn 5.9 ±0.1", "shade", "spigot"),
        ("hub spline nominal 5.9", "hub", "spline"),
        ("knob stem drawn 6.2", "knob", "stem"),
        ("seat frame rebate drawn 4.0", "seat frame", "rebate"),
    ],
)
def test_a_size_may_be_drawn_of_a_part_nobody_named_yet(
    says: str, part: str, name: str
) -> None:
    line = understand(says, DEMO)
    assert (line.kind, line.facts.part) == (Kind.DRAWN, part)
    assert [one.what for one in line.facts.drawn] == [name]


@pytest.mark.parametrize("says", ["shade drawn 5.9", "knob was drawn 5.9"])
def test_without_a_name_for_the_size_nothing_is_drawn(says: str) -> None:
    line = understand(says, DEMO)
    assert line.kind is not Kind.DRAWN


@pytest.mark.parametrize(
    ("says", "limits", "off"),
    [
        ("base opening 181.6, drawn 180 ±1.2", ("178.8 mm", "181.2 mm"), ["180 mm"]),
        ("base opening 179.9 should be 180 ±1.2", ("178.8 mm", "181.2 mm"), []),
        ("base opening 179.9, drawn 180 +0.5/-0", ("180.0 mm", "180.5 mm"), ["180 mm"]),
        ("base opening 180.2 (nominal 180 +0.5/-0)", ("180.0 mm", "180.5 mm"), []),
        (
            "base opening left 181.4, right 180.1, drawn 180 ±1.2",
            ("178.8 mm", "181.2 mm"),
            ["180 mm"],
        ),
    ],
)
def test_limits_told_with_a_reading_are_kept_of_its_size(
    says: str, limits: tuple[str, str], off: list[str]
) -> None:
    line = understand(says, DEMO)
    assert line.kind is Kind.READING
    records = drafted(line, world(known(DEMO)))
    [opening] = [one for one in records if isinstance(one, Characteristic)]
    assert str(opening.nominal) == "180 mm"
    assert (str(opening.lower_limit), str(opening.upper_limit)) == limits
    deviations = [one for one in records if isinstance(one, Deviation)]
    assert [str(one.wanted) for one in deviations] == off


def test_limits_on_record_are_left_by_those_told_with_a_reading() -> None:
    snapshot = on_record(DEMO, "base opening drawn 180 ±1.2")
    draft = Draft(snapshot, NOW + timedelta(hours=2))
    draft_line(draft, understand("base opening 180.3, drawn 180 ±0.5", DEMO))
    assert not [one for one in draft.records if isinstance(one, Characteristic)]
    assert any("left as it is" in one for one in draft.remarks)


def test_a_size_without_limits_tells_none() -> None:
    line = understand("base opening 181.6, drawn 180", DEMO)
    assert line.facts.drawn == ()
