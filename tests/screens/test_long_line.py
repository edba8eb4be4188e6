"""A line longer than the screen is wide scrolls along with what is typed."""

from __future__ import annotations

from pathlib import Path

from tests.screens.bench_keys import bench


async def test_the_end_that_is_typed_is_seen_and_the_beginning_with_home(
    shop: Path,
) -> None:
    async with bench(shop) as at:
        words = " ".join(f"word{number}" for number in range(40))
        await at.type(words)
        assert "word39" in at.seen
        assert "› │ word0" not in at.seen
        await at.press("home")
        assert "word0 word1" in at.seen
        await at.press("end", *["backspace"] * len(" word39"))
        assert "word38" in at.seen
        assert "word39" not in at.seen
        assert at.line.value == words.removesuffix(" word39")
