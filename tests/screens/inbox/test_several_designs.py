"""One phone folder for the designs of a repository: what one has, the others do not."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.store.photos.inbox import read_inbox
from tests.screens.bench_keys import project
from tests.screens.conftest import logged
from tests.screens.inbox.phone import inbox, waiting

BOTH = ["idea.txt", "IMG_1.jpg"]


@pytest.fixture
def lamp(shop: Path) -> Path:
    """Another design in the same repository, with a logbook of its own."""
    folder = shop / "lamp box"
    folder.mkdir()
    logged(folder, "start", "--name", "Lamp box", "--unit", "mm", "--yes")
    return folder


@pytest.mark.usefixtures("phone")
async def test_what_one_design_has_does_not_wait_in_the_other(
    shop: Path, lamp: Path
) -> None:
    assert waiting(lamp) == BOTH
    async with inbox(shop) as at:
        await at.do("n")
        assert waiting(shop) == BOTH[1:]
        assert waiting(lamp) == BOTH[1:]
        every = read_inbox(lamp, project(lamp).snapshot, everything=True).items
        top = "sorted in the design at the top of the repository"
        assert [one.became for one in every] == [top, ""]
        await at.do("f8")
    assert waiting(lamp) == BOTH


@pytest.mark.usefixtures("phone")
async def test_it_waits_there_too_where_that_is_said(shop: Path, lamp: Path) -> None:
    async with inbox(lamp) as at:
        await at.do("n")
    assert waiting(shop) == BOTH[1:]
    logged(shop, "inbox", "--again", "idea.txt")
    assert waiting(shop) == BOTH
    assert waiting(lamp) == BOTH[1:]


@pytest.mark.usefixtures("phone")
async def test_what_is_thrown_away_in_one_design_may_be_of_the_other(
    shop: Path, lamp: Path
) -> None:
    async with inbox(shop) as at:
        await at.do("x")
    assert waiting(shop) == BOTH[1:]
    assert waiting(lamp) == BOTH
