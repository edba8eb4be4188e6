"""A phone's folder, set as the inbox."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from logbook.cli.demo import load_script
from logbook.store.typed.user_settings import settings_file
from tests.screens.inbox.phone import LONG_AGO, put


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    """Give the folder of a phone: an old text, a photo with a camera's own time."""
    folder = tmp_path / "phone"
    folder.mkdir()
    place = settings_file()
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(f'photos = "{folder}"\n')
    put(folder / "idea.txt", b"\xef\xbb\xbfpan heads instead\nand washers\n", LONG_AGO)
    data = load_script().photo("diffuser crack")
    put(folder / "IMG_1.jpg", data, LONG_AGO + timedelta(days=1))
    return folder
