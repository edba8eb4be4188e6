"""Instants are said in the time of who reads them; another clock's is named."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import datetime

import pytest

from logbook.screens.ruled.moments import instant


@pytest.fixture(autouse=True)
def in_summer_and_winter(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Read in a place two hours ahead in summer, one in winter (POSIX TZ rule)."""
    monkeypatch.setenv("TZ", "AAA-1BBB,M3.5.0,M10.5.0/3")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("stored", "said"),
    [
        ("2026-03-14T10:15:22+01:00", "2026-03-14 10:15"),
        ("2026-07-14T10:15:22+02:00", "2026-07-14 10:15"),
        ("2026-03-14T10:15:22+00:00", "2026-03-14 11:15 (10:15 at +00:00)"),
        ("2026-07-14T23:30:00-05:00", "2026-07-15 06:30 (2026-07-14 23:30 at -05:00)"),
    ],
)
def test_the_offset_is_said_only_where_it_differs(stored: str, said: str) -> None:
    assert instant(datetime.fromisoformat(stored)) == said
