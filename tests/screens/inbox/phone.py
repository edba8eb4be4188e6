"""What a phone sent, and what became of it."""

from __future__ import annotations

import os
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from pathlib import Path

from logbook.screens.inbox.inbox import InboxSheet
from logbook.store.photos.inbox import Item, read_inbox
from tests.screens.bench_keys import Bench, bench, project

LONG_AGO = datetime(2024, 3, 7, 10, 5, tzinfo=UTC)


def put(place: Path, data: bytes, when: datetime) -> None:
    place.write_bytes(data)
    os.utime(place, (when.timestamp(), when.timestamp()))


async def opened(at: Bench) -> None:
    await at.do("ctrl+l")
    assert isinstance(at.app.screen, InboxSheet)


@asynccontextmanager
async def inbox(shop: Path, size: tuple[int, int] = (100, 30)) -> AsyncIterator[Bench]:
    """Open the bench, and on it what the phone sent."""
    async with bench(shop, size) as at:
        await opened(at)
        yield at


def waiting(shop: Path) -> list[str]:
    return [item.name for item in read_inbox(shop, project(shop).snapshot).items]


def photos(shop: Path) -> list[Path]:
    return sorted((shop / "as-built/photos").glob("*"))


def only(shop: Path, name: str) -> Item:
    found = read_inbox(shop, project(shop).snapshot)
    return next(item for item in found.items if item.name == name)
