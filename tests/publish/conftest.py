"""Copy stands for the tests: built once for each worker, copied where changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.publish.stand import Stand, copy_stand, released
from tests.store.git_world import quiet_surroundings


@pytest.fixture(autouse=True, scope="session")
def surroundings(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep git from the settings of whoever runs the tests."""
    with pytest.MonkeyPatch.context() as patch:
        quiet_surroundings(patch, tmp_path_factory.mktemp("home") / "h")
        yield


@pytest.fixture(scope="session")
def drawn_once(tmp_path_factory: pytest.TempPathFactory) -> Stand:
    return copy_stand(tmp_path_factory.mktemp("drawn") / "stand")


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory) -> Stand:
    """Give a stand with releases 1.0 and 1.1; only to be read."""
    return released(tmp_path_factory.mktemp("published") / "stand")


@pytest.fixture
def drawn(drawn_once: Stand, tmp_path: Path) -> Stand:
    """Give a stand as drawn, nothing made or released yet, to be changed."""
    return drawn_once.copy(tmp_path / "stand")


@pytest.fixture
def stand(published: Stand, tmp_path: Path) -> Stand:
    """Give a stand with both releases, to be changed."""
    return published.copy(tmp_path / "stand")


@pytest.fixture
def masked(published: Stand) -> Callable[[str], str]:
    """Give a function that hides what differs from run to run: ids of records."""

    def mask(text: str) -> str:
        for identity in published.project.snapshot.stored:
            text = text.replace(identity, "########")
            text = text.replace(f"fault {identity[:4]}", "fault ####")
            text = text.replace(f'"name": "{identity[:4]}"', '"name": "####"')
        return text

    return mask
