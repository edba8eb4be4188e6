from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.shop import Shop


@pytest.fixture(autouse=True)
def _own_state_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("LOGBOOK_STATE", str(tmp_path_factory.mktemp("state")))
        yield


@pytest.fixture
def empty(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Shop:
    """A repository without a logbook."""
    return Shop(tmp_path, capsys)


@pytest.fixture
def shop(empty: Shop) -> Shop:
    """A repository with an empty logbook in millimetres."""
    assert empty.logbook("start", "--name", "Stand", "--unit", "mm").code == 0
    return empty
