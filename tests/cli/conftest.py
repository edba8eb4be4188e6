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


@pytest.fixture(scope="session")
def shop_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the shop is kept as it was made; only to be copied."""
    return tmp_path_factory.mktemp("shop") / "made"


@pytest.fixture
def shop(empty: Shop, shop_once: Path) -> Shop:
    """A repository with an empty logbook in millimetres."""
    return empty.as_made(shop_once, _started)


def _started(empty: Shop) -> None:
    assert empty.logbook("start", "--name", "Stand", "--unit", "mm").code == 0


@pytest.fixture
def files(shop: Shop) -> Shop:
    """Put design files beside the logbook that are no parts yet."""
    for name in ("x-rail-bracket.stl", "GateSpring.stl", "102_camera_arm_B.dxf"):
        (shop.folder / name).write_text(f"solid {name}\n", "utf-8")
    return shop
