"""The clock on a step: what counts, what does not, and that it outlives a crash."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import Refused
from logbook.store.disk.own_files import keep_own_file
from logbook.store.disk.own_places import state_folder
from logbook.store.typed.work_clock import (
    FILE,
    Clock,
    minutes,
    paused,
    read_clock,
    resumed,
    signed,
    started,
)
from tests.clocks import put_clock

NINE = datetime(2026, 3, 14, 9, 0, tzinfo=UTC)
IDLE = timedelta(minutes=30)


def at(minute: float) -> datetime:
    return NINE + timedelta(minutes=minute)


def clock(*signs: float) -> Clock:
    made = started("fold the base", "0b0b0b0b", NINE, "0f0f0f0f")
    for minute in signs:
        made = signed(made, at(minute), IDLE)
    return made


def test_all_time_counts_while_there_are_signs_of_work() -> None:
    assert minutes(clock(20, 45, 70), at(80), IDLE) == (80, 0)


def test_a_forgotten_clock_counts_on_for_a_while_and_then_no_more() -> None:
    assert minutes(clock(20), at(20 + 600), IDLE) == (50, 570)


def test_work_after_a_long_rest_counts_again_from_its_first_sign() -> None:
    assert minutes(clock(10, 100, 110), at(120), IDLE) == (60, 60)


def test_a_pause_does_not_count_and_is_not_left_out() -> None:
    later = resumed(paused(clock(), at(15), IDLE), at(500))
    assert minutes(later, at(510), IDLE) == (25, 0)
    assert minutes(paused(later, at(510), IDLE), at(900), IDLE) == (25, 0)
    assert resumed(later, at(900)) is later


def test_an_entry_is_a_sign_of_work_too_one_of_the_future_is_not() -> None:
    assert minutes(clock(), at(50), IDLE, [at(25), at(900)]) == (50, 0)


def test_a_machine_clock_that_runs_back_takes_nothing_away() -> None:
    assert minutes(clock(20), at(-300), IDLE) == (0, 0)
    assert signed(clock(20), at(10), IDLE) == clock(20)


@given(st.lists(st.floats(0, 1000), max_size=8), st.floats(0, 2000))
def test_counted_and_left_out_are_all_the_time_there_was(
    signs: list[float], end: float
) -> None:
    signs = sorted(sign for sign in signs if sign <= end)
    counted, left_out = minutes(clock(*signs), at(end), IDLE)
    assert abs(counted + left_out - end) <= 1
    assert counted <= 30 * (len(signs) + 1)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LOGBOOK_STATE", str(tmp_path / "state"))
    return tmp_path / "stand"


def test_it_comes_back_from_disk_as_it_was(folder: Path) -> None:
    for one in (clock(20), paused(clock(20), at(25), IDLE)):
        put_clock(folder, one)
        assert read_clock(folder) == one
    for _ in range(2):
        put_clock(folder, None)
        assert read_clock(folder) is None


@pytest.mark.parametrize("data", [b"", b"{}", b"[1]", b'{"began": "x"}', b"\xff"])
def test_a_file_that_is_no_clock_is_refused_in_a_sentence(
    folder: Path, data: bytes
) -> None:
    keep_own_file(folder, FILE, data, None)
    with pytest.raises(Refused, match="accepted: the file removed"):
        read_clock(folder)


def test_a_folder_that_cannot_be_written_is_refused(folder: Path) -> None:
    place = state_folder(folder)
    place.parent.mkdir(parents=True)
    place.write_text("in the way")
    with pytest.raises(Refused):
        put_clock(folder, clock())
