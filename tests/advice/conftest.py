"""A workshop for the tests of advice."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.shop import Shop


@pytest.fixture(scope="session")
def shop_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the shop is kept as it was made; only to be copied."""
    return tmp_path_factory.mktemp("shop") / "made"


@pytest.fixture
def shop(tmp_path: Path, capsys: pytest.CaptureFixture[str], shop_once: Path) -> Shop:
    return Shop(tmp_path, capsys).as_made(shop_once, _equipped)


def _equipped(made: Shop) -> None:
    made.asked("start", "--name", "Copy stand", "--unit", "mm", "--yes")
    for words in (
        ("instrument", "300 mm caliper", "--uncertainty", "0.04 mm",
         "--resolution", "0.01 mm"),
        ("part", "base", "--process", "folding", "--dimension", "opening=180.0"),
        ("part", "crossbar", "--process", "sawing", "--dimension", "length=179.7 ±0.1"),
        ("gap", "crossbar in base", "base.opening - crossbar.length",
         "--limits", "0.1 to 0.5", "--last", "crossbar.length"),
    ):  # fmt: skip
        assert made.logbook(*words, "--later").code == 0
