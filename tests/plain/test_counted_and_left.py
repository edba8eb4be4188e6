"""What was used and what is left reach the records that counts and stock read."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.advice.pieces.counts import tally
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Count, Note
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build, Stock
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import known, world

WORDS = of_parts(
    "M4x16 screw", "M4x20 screw", "rivet nut M3", "washer", "cable", "collar"
)


def after(*says: str) -> tuple[Record, ...]:
    records = known(WORDS)
    for minute, one in enumerate(says):
        draft = Draft(world(records), NOW + timedelta(minutes=minute))
        line = held_to_records(understand(one, WORDS), draft.snapshot)
        made = draft_line(draft, line).records
        kept = {one.id: one for one in (*records, *made)}
        records = tuple(kept.values())
    return records


def counted(part: str, *says: str) -> tuple[int, int]:
    snapshot = world(after(*says))
    [of], [build] = snapshot.named(part, Part), snapshot.all(Build)
    found = tally(snapshot, of, build)
    assert found is not None
    assert found.counted
    return found.used, found.spare


@pytest.mark.parametrize(
    ("says", "part", "numbers"),
    [
        ("used 3 of the M4x16", "M4x16 screw", (3, 0)),
        ("used 3 M4x20 screws", "M4x20 screw", (3, 0)),
        ("3 M4x16 left over", "M4x16 screw", (0, 3)),
        ("have 12 rivet nuts left", "rivet nut M3", (0, 12)),
        ("used 3 M4x20, one left", "M4x20 screw", (3, 1)),
        ("spare washers: 4", "washer", (0, 4)),
    ],
)
def test_what_was_used_and_what_is_left_are_told_apart(
    says: str, part: str, numbers: tuple[int, int]
) -> None:
    assert counted(part, says) == numbers


def test_a_later_count_keeps_what_it_does_not_tell_of() -> None:
    assert counted("M4x16 screw", "used 3 of the M4x16", "5 M4x16 left over") == (3, 5)
    draft = Draft(world(after("used 3 of the M4x16")), NOW + timedelta(hours=1))
    draft_line(draft, understand("used 4 of the M4x16", WORDS))
    assert next(one for one in draft.new if isinstance(one, Count)).used == 4
    assert any("before it 3, 0, 0" in one for one in remarks(draft))


def test_what_is_missing_was_not_used() -> None:
    line = understand("two rivet nuts missing from the list", WORDS)
    assert in_one_line(line).startswith("note")
    [note] = [one for one in after(line.line) if isinstance(one, Note)]
    assert note.title == line.line


def test_what_is_left_of_a_length_goes_to_its_stock() -> None:
    line = understand("2 m of cable left", WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.STOCK)
    assert line.facts.readings == ()
    snapshot = world(after("5 m of cable left", "2 m of cable left"))
    [stock] = snapshot.all(Stock)
    assert [str(one) for one in stock.size] == ["2 m"]
    [cable] = snapshot.named("cable", Part)
    assert snapshot.find(cable.stock) is stock


@pytest.mark.parametrize(
    "says",
    [
        "used 2 m of cable",
        "6 m of wire used",
        "2 m of wire left",
        "500 mm of cable left on the collar",
    ],
)
def test_an_amount_is_no_size_of_a_part(says: str) -> None:
    assert understand(says, WORDS).kind is Kind.NOTE


@pytest.mark.parametrize(
    ("says", "left"),
    [
        ("lamp takes 40 mm of cable, 30 cm left", "30 cm"),
        ("gate takes 0.2 m of cable, 1.4 m left over", "1.4 m"),
        ("base takes 12 cm of cable, 2 m remaining", "2 m"),
    ],
)
def test_of_what_is_taken_the_rest_is_left(says: str, left: str) -> None:
    words = of_parts("lamp", "gate", "base", "cable")
    line = understand(says, words)
    assert (line.kind, line.facts.part) == (Kind.STOCK, "cable")
    assert str(line.facts.remaining) == left


def test_what_is_taken_of_no_part_is_a_note() -> None:
    words = of_parts("lamp", "gate")
    line = understand("gate takes 25 mm of tape, 2 m left", words)
    assert line.kind is Kind.NOTE


@pytest.mark.parametrize(
    "says",
    [
        "gate bolted on with 3 screws and 2 left over",
        "lamp screwed down with 4 washers, 3 spare",
    ],
)
def test_screws_left_over_are_no_size(says: str) -> None:
    words = of_parts("lamp", "gate")
    assert not understand(says, words).facts.readings


@pytest.mark.parametrize(
    "says",
    [
        "the tap snapped in the collar, 2 holes are left to do",
        "the drill broke in the collar because four washers were too many for it",
    ],
)
def test_what_failed_is_no_count_of_what_it_names_besides(says: str) -> None:
    assert understand(says, WORDS).kind is not Kind.COUNT


def test_too_many_is_a_count_where_nothing_failed() -> None:
    assert understand("2 washers too many", WORDS).kind is Kind.COUNT


@pytest.mark.parametrize(
    ("says", "part", "numbers"),
    [
        ("used 8 of the M5x12, 12 left", "M5x12", (8, 12)),
        ("8 M6x20 used, 4 left", "M6x20", (8, 4)),
        ("12 M5x30 left", "M5x30", (0, 12)),
        ("used 6 of the small springs, 4 left", "small springs", (6, 4)),
        ("used 6 of the small brass hooks, 4 left", "small brass hooks", (6, 4)),
        ("used 8 of the grommets, 12 left", "grommets", (8, 12)),
    ],
)
def test_what_nobody_listed_is_counted_by_the_name_it_is_told_with(
    says: str, part: str, numbers: tuple[int, int]
) -> None:
    assert counted(part, says) == numbers


@pytest.mark.parametrize("says", ["used 8 of the M5, 12 left", "used 4, 2 left"])
def test_a_thread_without_a_length_names_nothing(says: str) -> None:
    assert not [one for one in after(says) if isinstance(one, Count)]
