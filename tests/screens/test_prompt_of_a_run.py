"""What a measuring run shows as an example can be typed as it stands there."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bench_keys import bench
from tests.screens.conftest import logged


@pytest.mark.parametrize(
    ("read", "shown"),
    [
        ("7 1/16 in", "7 1/16 in, or left 7 1/16 in to name its place"),
        ("179.5 mm", "179.5, or left 179.5 to name its place"),
        ("179,5", "179,5, or left 179,5 to name its place"),
    ],
)
async def test_the_prompt_shows_the_last_value_whole(
    shop: Path, read: str, shown: str
) -> None:
    logged(shop, "measure", "base", "opening", read, "--met-by", "piece")
    async with bench(shop, (120, 30)) as at:
        await at.do("f3")
        await at.say("base")
        await at.until(lambda: f"opening: {shown}" in at.words)
