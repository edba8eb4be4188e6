"""What holds for every test."""

from __future__ import annotations

import pytest

from tests.needs import insist


def pytest_runtest_setup(item: pytest.Item) -> None:
    insist(item)
