"""Outside programs a test needs: skipped with the reason, but required in CI.

`needs("strace")` marks a test. Where the program is missing the test is
skipped; with LOGBOOK_ALL_TESTS=1, as `.ci/run` sets it, it fails instead.
"""

from __future__ import annotations

import os
import shutil

import pytest

ALL_TESTS = "LOGBOOK_ALL_TESTS"


def needs(*tools: str) -> pytest.MarkDecorator:
    """Mark a test that runs the outside programs `tools`."""
    return pytest.mark.needs(*tools)


def missing(tools: tuple[str, ...]) -> list[str]:
    """List those of `tools` that this machine does not have."""
    return [tool for tool in tools if shutil.which(tool) is None]


def insist(item: pytest.Item) -> None:
    """Skip `item`, or fail it in CI, when a program it needs is missing."""
    tools = tuple(tool for mark in item.iter_markers("needs") for tool in mark.args)
    if not (absent := missing(tools)):
        return
    reason = f"needs {', '.join(absent)}, not found on this machine"
    if os.environ.get(ALL_TESTS) == "1":
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)
