"""What is changed from outside is noticed, whatever way it was changed."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from logbook.store.reading import watch
from logbook.store.reading.watch import Watch
from tests.store.test_find import lay

FILES = (
    "as-built/project.md",
    "as-built/note/2603/a.md",
    "as-built/note/2603/deep/b.md",
    "as-built/note/c.md",
    "as-built/part/2603/d.md",
)


@pytest.fixture(params=[0.0, 10.0], ids=["no time for more", "time for all"])
def turn_s(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> float:
    """Give how long a look may go on with what seems unchanged."""
    monkeypatch.setattr(watch, "TURN_S", request.param)
    length: float = request.param
    return length


@pytest.mark.usefixtures("turn_s")
def test_what_comes_goes_or_is_replaced_is_noticed_at_the_next_look(
    tmp_path: Path,
) -> None:
    lay(tmp_path, *FILES)
    eyes = Watch(tmp_path)
    assert eyes.changed() == ()
    lay(tmp_path, "as-built/note/2603/new.md", "as-built/failure/2604/first.md")
    lay(tmp_path, "as-built/photos/2603/no-record.md")
    came = ("as-built/failure/2604/first.md", "as-built/note/2603/new.md")
    assert eyes.changed() == came
    (tmp_path / "swap").write_bytes(b"another content")
    (tmp_path / "swap").replace(tmp_path / "as-built/note/c.md")
    (tmp_path / "as-built/note/2603/a.md").unlink()
    assert eyes.changed() == ("as-built/note/2603/a.md", "as-built/note/c.md")
    shutil.rmtree(tmp_path / "as-built/note/2603")
    gone = ("as-built/note/2603/deep/b.md", "as-built/note/2603/new.md")
    assert eyes.changed() == gone
    assert eyes.changed() == ()


def test_a_file_changed_in_place_is_noticed_when_its_turn_comes(
    tmp_path: Path, turn_s: float
) -> None:
    lay(tmp_path, *FILES)
    eyes = Watch(tmp_path)
    for path in FILES:
        os.truncate(tmp_path / path, 1)
    found = eyes.changed()
    assert found == (tuple(sorted(FILES)) if turn_s else ())


def test_every_folder_has_its_turn_though_each_look_is_short(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path, *FILES)
    eyes = Watch(tmp_path)
    for path in FILES:
        os.truncate(tmp_path / path, 1)
    clock = iter(range(1000))
    monkeypatch.setattr(watch, "TURN_S", 1.5)
    monkeypatch.setattr("logbook.store.reading.watch.monotonic", lambda: next(clock))
    looks = [eyes.changed() for _ in range(12)]
    assert max(map(len, looks)) < len(FILES)
    assert sorted(path for look in looks for path in look) == sorted(FILES)
