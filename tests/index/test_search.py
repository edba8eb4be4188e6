"""What search finds, and in which order."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.index.apart import read
from logbook.index.asked import asked_terms
from logbook.index.query import ALL, Filter
from logbook.index.terms import number_terms
from logbook.records.kinds import happenings
from logbook.records.kinds.ids import new_id
from tests.index import scan
from tests.index.world import NOON, crossbar, note, opened, run, started, write

SAYS = (
    "Sawn at 86.420 mm", "Sawn at 86,42", "Sawn at 86.43 mm", "Stock is 4.7625 mm",
    "Screwed with M3x8", "Screwed with M30", "Don’t force the Größe", "Bed ½ in thick",
    "Off by -0.7 mm", "Lid at 58 °C", "Slots 20 × 10 mm", "Screwed with M4×16",
)  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("86.42", {"Sawn at 86.420 mm", "Sawn at 86,42"}),
        ("86,420 mm", {"Sawn at 86.420 mm", "Sawn at 86,42"}),
        ("3/16 in", {"Stock is 4.7625 mm"}),
        ('3/16" stock', {"Stock is 4.7625 mm"}),
        ("12.7 mm", {"Bed ½ in thick"}),
        ("M3", {"Screwed with M3x8"}),
        ("m4x16", {"Screwed with M4×16"}),
        ("dont", {"Don’t force the Größe"}),
        ("“GRÖSSE”", {"Don’t force the Größe"}),
        ("gross", {"Don’t force the Größe"}),
        ("4.7625", {"Stock is 4.7625 mm"}),
        ("4.76", {"Stock is 4.7625 mm"}),
        ("4.76 mm", {"Stock is 4.7625 mm"}),
        ("4,76 mm", {"Stock is 4.7625 mm"}),
        ("0.188 in", {"Stock is 4.7625 mm"}),
        ("0.19 in", set()),
        ("4.77", set()),
        ("4.8", set()),
        ("12.7", {"Bed ½ in thick"}),
        ("0.7", {"Off by -0.7 mm"}),
        ("-0.7 mm", {"Off by -0.7 mm"}),
        ("331.15 K", {"Lid at 58 °C"}),
        ("10 mm", {"Slots 20 × 10 mm"}),
        ("20", {"Slots 20 × 10 mm"}),
        ("saw 86.43", {"Sawn at 86.43 mm"}),
        ("4", set()),
        ("86", set()),
        ("awn", set()),
        ('" OR *', set()),
    ],
)
def test_words_by_their_beginning_and_numbers_by_value(
    tmp_path: Path, typed: str, found: set[str]
) -> None:
    top = started(tmp_path / "stand")
    for minutes, title in enumerate(SAYS):
        write(top, note(title, "", minutes))
    index = opened(top)
    assert {line.title for line in index.search(typed)} == found
    assert {line.title for line in index.ranked(typed)} == found


SIGNS, UNITS = ("", "-"), ("", " mm", " in", " °C", " kg")
DIGITS = st.from_regex(r"[0-9]{1,2}\.[0-9]{1,5}", fullmatch=True)
NUMBERS = st.one_of(
    st.builds("{}{}{}".format, st.sampled_from(SIGNS), DIGITS, st.sampled_from(UNITS)),
    st.builds("{}/64{}".format, st.integers(1, 99), st.sampled_from((" in", " mm"))),
)


@given(NUMBERS, NUMBERS, st.sampled_from((" mm", " in", "")))
def test_terms_meet_just_where_a_number_is_the_same_or_shows_so(
    there: str, asked: str, unit: str
) -> None:
    """Held to what the scan says; what is asked for is what a caliper may show."""
    [held] = read(there).numbers
    near = [f"{float(held.value):.{places}f}{unit}" for places in (2, 3)]
    for typed in (asked, *near):
        for wanted in read(typed).numbers:
            met = set(number_terms(held)) & set(asked_terms(wanted))
            assert bool(met) == scan.same(held, wanted), (there, typed)


def test_a_unit_is_a_word_too_where_it_can_be_one() -> None:
    assert "in" in read("3 in the box").words


def test_nothing_typed_gives_the_newest(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    for minutes, title in enumerate(SAYS):
        write(top, note(title, "", minutes))
    index = opened(top)
    assert [line.title for line in index.search("", ALL, 3)] == [*SAYS[::-1][:3]]


def test_newest_first_and_best_first(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    write(top, note("Burr", "filed", 0))
    write(top, note("Filed the edge", "", 1))
    write(top, note("Bent", "the edge sprang back, then it was filed flush", 2))
    index = opened(top)
    titles = [line.title for line in index.search("filed")]
    assert titles == ["Bent", "Filed the edge", "Burr"]
    assert index.ranked("filed")[0].title == "Filed the edge"


def test_filters_by_kind_part_build_and_time(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    part, build, piece = crossbar(top)
    write(top, run(piece, "178.62 mm", 5))
    write(top, note("Crossbar looked at, 178.62", "", 10, part=part.ref))
    write(top, note("Something else, 178.62", "", 15, build=build.ref))
    index = opened(top)

    def titles(**wanted: object) -> list[str]:
        chosen = Filter(**wanted)  # type: ignore[arg-type]
        return [line.title for line in index.search("178.62", chosen)]

    assert titles(kind="run") == ["Measured"]
    assert titles(part=part.id) == ["Crossbar looked at, 178.62", "Measured"]
    assert titles(build=build.id) == ["Something else, 178.62", "Measured"]
    later = NOON + timedelta(minutes=10)
    assert titles(since=later, until=later) == ["Crossbar looked at, 178.62"]
    assert titles(part=part.id, kind="note", until=NOON) == []


def test_entries_of_one_second_keep_their_order(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    for number in range(12):
        moment = NOON + timedelta(microseconds=number)
        made = note(f"busy {number}")
        write(top, type(made)(id=made.id, title=made.title, when=moment))
    index = opened(top)
    expected = [f"busy {number}" for number in range(11, -1, -1)]
    assert [line.title for line in index.search("busy", ALL, 5)] == expected[:5]
    assert [line.title for line in index.newest(5)] == expected[:5]


def test_a_record_is_found_by_the_name_of_its_kind(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    _, _, piece = crossbar(top)
    write(top, run(piece, "178.62 mm", 5))
    split = happenings.Failure(
        id=new_id(), title="Crossbar split", when=NOON + timedelta(minutes=10)
    )
    write(top, split)
    index = opened(top)
    for typed in ("failure", "failed", "fail"):
        assert [line.title for line in index.search(typed)] == ["Crossbar split"]
    assert [line.title for line in index.search("reading 178.62")] == ["Measured"]
    assert index.search("decided") == []


def test_an_id_is_found_by_its_beginning(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    write(top, type(note("x"))(id="7k2m9qzd", title="Lid riveted", when=NOON))
    index = opened(top)
    for typed in ("7k2m", "7K2M9", "7k2m9qzd"):
        assert [line.title for line in index.search(typed)] == ["Lid riveted"]
        assert [line.title for line in index.called(typed, "note")] == ["Lid riveted"]
    assert index.called("7k2", "note") == []
