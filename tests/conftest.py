"""What holds for every test: programs it needs, and goldens it compares with."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

from tests.needs import ALL_TESTS, insist

# How long an example takes says how busy the machine is, not whether it is right.
settings.register_profile("bench", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
# In CI the same examples each time: a landing is no place for a lottery.
in_ci = os.environ.get("CI") or os.environ.get(ALL_TESTS)
settings.load_profile("ci" if in_ci else "bench")

UPDATE = "--update"

Golden = Callable[[str, str], None]
"""Compares a text with the golden file of that name, beside the test's module."""


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(UPDATE, action="store_true", help="rewrite the golden files")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int | None:
    """Give half as many workers again as there are cores: tests of screens often wait.

    They wait for threads, for the disk and for git; a number that is set stays.
    """
    if os.environ.get("PYTEST_XDIST_AUTO_NUM_WORKERS"):
        return None
    cores = os.cpu_count() or 1
    return cores + cores // 2


def pytest_runtest_setup(item: pytest.Item) -> None:
    insist(item)


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    folder = Path(request.path).parent / "golden"
    update = bool(request.config.getoption(UPDATE))

    def compare(name: str, text: str) -> None:
        place = folder / name
        if update:
            folder.mkdir(exist_ok=True)
            place.write_text(text, "utf-8")
        told = f"golden/{name} is missing; run pytest {UPDATE}"
        assert place.exists(), told
        assert text == place.read_text("utf-8")

    return compare
