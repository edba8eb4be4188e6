"""Esc does what the screen says of it, and eats nothing that is typed after it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.bench_keys import bench

BEGUN = "sanded the bed at 18"


@pytest.mark.parametrize("digits", ["1", "12", "13 nov", "2 h"])
async def test_figures_typed_after_a_question_was_left_stay(
    shop: Path, digits: str
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("base opening 178.6 should be 180, cracked at 18")
        assert at.line.asking
        await at.press("escape")
        stood = at.line.value
        assert stood
        await at.type(digits)
        assert at.line.value == stood + digits


async def test_a_line_that_came_back_is_cleared_by_the_first_esc(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.type(BEGUN)
    async with bench(shop, (120, 30)) as at:
        assert at.line.value == BEGUN
        assert "Esc clears it" in at.words
        await at.press("escape")
        assert at.line.value == ""
        assert "brings the line back" in at.words
        await at.type("24 nov sanded the bed")
        assert at.line.value == "24 nov sanded the bed"
