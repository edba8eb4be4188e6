"""What was typed and not taken is dated as the clock on the wall shows it."""

from __future__ import annotations

import time
from datetime import UTC, datetime, timedelta

import pytest

from logbook.store.typed.drafts import keep_draft
from tests.cli.shop import Shop


@pytest.mark.parametrize("zone", ["Europe/Berlin", "Asia/Kolkata"])
def test_a_draft_stands_at_its_local_hour(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, zone: str
) -> None:
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        keep_draft(shop.folder, "sanded the bed", "say")
        _, day, clock, *_ = shop.logbook("drafts").out.split()
        [told] = shop.asked("drafts")["drafts"]
    finally:
        monkeypatch.undo()
        time.tzset()
    seen = datetime.fromisoformat(told["when"])
    assert seen.utcoffset() != timedelta(0)
    assert (day, clock) == (f"{seen:%Y-%m-%d}", f"{seen:%H:%M}")
    assert abs(datetime.now(UTC) - seen) < timedelta(minutes=1)
