"""What was sorted and taken back waits again."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from logbook.records.kinds.happenings import Entry
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.inbox.phone import inbox, opened, waiting


@pytest.mark.usefixtures("phone")
async def test_what_was_taken_back_waits_again(shop: Path) -> None:
    async with inbox(shop) as at:
        await at.do("n")
        await at.do("f8")
        assert "idea.txt" in at.seen
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


@pytest.mark.usefixtures("phone")
async def test_what_was_thrown_away_last_comes_back_first(shop: Path) -> None:
    async with inbox(shop) as at:
        await at.do("l")
        assert "pan heads" in "".join(e.prose for e in entries(shop))
        await at.do("x")
        assert "F8 brings it back" in at.words
        assert waiting(shop) == []
        await at.do("f8")
        assert "IMG_1.jpg waits again" in at.words
        assert waiting(shop) == ["IMG_1.jpg"]
        assert "pan heads" in "".join(e.prose for e in entries(shop))
        await at.do("f8")
        assert "pan heads" not in "".join(e.prose for e in entries(shop))
        assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]
        assert "idea.txt" in at.seen


def entries(shop: Path) -> Sequence[Entry]:
    return project(shop).snapshot.entries


@pytest.mark.parametrize("where", ["at the bench", "in the shell"])
async def test_an_item_whose_link_is_taken_back_anywhere_waits_again(
    shop: Path, phone: Path, where: str
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await at.do("f6")
        assert waiting(shop) == ["idea.txt"]
        await opened(at)
        await at.do("l")
        assert waiting(shop) == []
        await at.press("escape")
        if where == "at the bench":
            await at.do("f8")
    if where == "in the shell":
        logged(shop, "undo")
    assert waiting(shop) == ["idea.txt"]
    logged(shop, "undo")
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]
