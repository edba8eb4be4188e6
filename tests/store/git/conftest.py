"""A design in a real repository, with a logbook in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.store.git_world import Bench, made_bench


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    return made_bench(tmp_path / "stand", monkeypatch)
