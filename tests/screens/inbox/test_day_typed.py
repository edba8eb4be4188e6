"""A day typed with a photo of the phone is when it was, and not the file's time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Entry, Failure, Note
from tests.screens.bench_keys import project
from tests.screens.inbox.phone import inbox

SOME_DAYS_AGO = (datetime.now(UTC).astimezone() - timedelta(9)).date()


@pytest.mark.usefixtures("phone")
@pytest.mark.parametrize(
    ("words", "key", "kind"),
    [
        ("the diffuser cracked", "f", Failure),
        ("hairline in the diffuser", "f", Failure),
        ("the rivets of the lid", "n", Note),
    ],
)
async def test_a_day_typed_with_a_photo_is_when_it_happened(
    shop: Path, words: str, key: str, kind: type[Entry]
) -> None:
    async with inbox(shop) as at:
        await at.press("down", "enter")
        await at.type(f"{words}, {SOME_DAYS_AGO:%d.%m.}")
        await at.do("enter", key, "enter")
    [entry] = project(shop).snapshot.all(kind)
    assert entry.when.astimezone().date() == SOME_DAYS_AGO
    assert entry.photos
