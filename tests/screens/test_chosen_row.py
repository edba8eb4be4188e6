"""What is done with the row of the bench the arrow stands at."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged

FIRST, LAST = "sanded the bed", "oiled the bed"


def with_photo(tmp_path: Path, own_state: Path) -> None:
    photos = tmp_path / "photos"
    photos.mkdir()
    Image.new("RGB", (40, 30), (90, 90, 90)).save(photos / "IMG_1.jpg")
    own_state.mkdir(exist_ok=True)
    (own_state / "screens.toml").write_text(f'photos = "{photos}"\n', "utf-8")


async def test_a_photo_goes_to_the_entry_the_arrow_stands_at(
    shop: Path, tmp_path: Path, own_state: Path
) -> None:
    with_photo(tmp_path, own_state)
    async with bench(shop) as at:
        await at.say(FIRST)
        await at.say(LAST)
        await at.do("up", "up", "f6")
        assert f"IMG_1.jpg at “{FIRST}”" in at.words
    shown = {one.title: len(one.photos) for one in project(shop).snapshot.entries[-2:]}
    assert shown == {FIRST: 1, LAST: 0}


async def test_the_entry_the_arrow_stands_at_is_moved(shop: Path) -> None:
    logged(shop, "build", "build 2", "--when", "2024-03-08T10:00")
    async with bench(shop, (100, 30)) as at:
        await at.say(FIRST)
        await at.say(LAST)
        await at.do("up", "up", "f7")
        assert f"move “{FIRST}” to" in at.words
        await at.do("enter")
    builds = {
        one.title: one.build and one.build.name
        for one in project(shop).snapshot.entries
    }
    assert (builds[FIRST], builds[LAST]) == ("build 1", "build 2")


async def test_on_a_row_the_keys_say_what_they_do_with_it(shop: Path) -> None:
    async with bench(shop) as at:
        await at.say(FIRST)
        assert "Enter take it" in at.words
        await at.press("up")
        assert "Enter open it F6 photo to it F7 move it" in at.words
        await at.type("s")
        assert "Enter take it" in at.words
