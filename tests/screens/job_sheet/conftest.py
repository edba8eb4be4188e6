"""Sheets as printed, and a lid that closes over a cable."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.conftest import logged


@pytest.fixture
def printed(shop: Path) -> Path:
    """Print a sheet with readings, a step, and checks before it closes."""
    logged(
        shop, "part", "bar", "--dimension", "length=40.0 ±0.1",
    )  # fmt: skip
    logged(shop, "step", "saw the bar", "--makes", "bar")
    logged(shop, "step", "close the lid", "--closes", "--inside", "cable")
    logged(shop, "sheet")
    return shop


@pytest.fixture
def lid(shop: Path) -> Path:
    """Have a lid that closes over a cable that is put in before, with a lamp to try."""
    logged(shop, "step", "put the cable in", "--uses", "cable")
    logged(
        shop, "step", "screw the lid on", "--closes", "--inside", "cable",
        "--tested", "the lamp lights",
    )  # fmt: skip
    return shop
