"""The demo: the sample's story through the verbs, on real files of the stated sizes."""

from __future__ import annotations

import contextlib
import io
import re
import subprocess
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.cli.demo import load_script
from logbook.errors import BadInput
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Shape
from logbook.store.photos.cleaned import take_in
from tests.cli.typed import Terminal

pytestmark = pytest.mark.xdist_group("demo")
"""One worker builds it for all of these."""


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[str]]:
    folder = tmp_path_factory.mktemp("demo") / "copy-stand"
    heard, typed = io.StringIO(), Terminal("y\n" * 100)
    with contextlib.redirect_stdout(heard), pytest.MonkeyPatch.context() as patch:
        patch.setattr("sys.stdin", typed)
        assert main(["demo", str(folder)]) == 0
    assert typed.tell() == 0, "the demo asked something: nobody sees its question"
    return folder, heard.getvalue().splitlines()


def git(folder: Path, *words: str) -> str:
    done = subprocess.run(
        ["git", "-C", str(folder), *words], check=True, capture_output=True, text=True
    )
    return done.stdout


def test_it_ends_with_five_lines(demo: tuple[Path, list[str]]) -> None:
    folder, lines = demo
    assert len(lines) == 5
    assert str(folder) in lines[0]
    assert "178.60 mm against 180" in lines[1]
    assert "pan heads" in lines[2]
    assert "base: my machine" in lines[3]
    assert "diffuser: the drawing" in lines[3]
    assert lines[4].startswith("next")


def test_each_act_is_a_commit_with_its_own_date(demo: tuple[Path, list[str]]) -> None:
    dates = git(demo[0], "log", "--format=%ad", "--date=short").split()
    assert dates == sorted(dates, reverse=True)
    assert len(set(dates)) > 5
    assert git(demo[0], "fsck", "--strict") == ""
    assert git(demo[0], "status", "--porcelain") == ""


def test_its_records_check_clean(demo: tuple[Path, list[str]]) -> None:
    assert main(["check", "--in", str(demo[0])]) == 0


def test_it_does_not_overwrite_a_folder(demo: tuple[Path, list[str]]) -> None:
    assert main(["demo", str(demo[0])]) == BadInput.exit_code


def test_the_notes_read_without_our_program(demo: tuple[Path, list[str]]) -> None:
    text = (demo[0] / "as-built/published/builder-notes.md").read_text("utf-8")
    for words in ("oversize holes 9 mm in", "PETG", "local codes", "1/4 in"):
        assert words in text
    assert not re.search(r"\bNone\b|\{\{|\}\}", text)


def test_the_drawn_files_have_the_stated_sizes(tmp_path: Path) -> None:
    draw = load_script()
    sizes = {
        "drawings/crossbar.dxf": (179.7, 20.0),
        "drawings/mask.dxf": (60.0, 50.0),
        "drawings/bed.dxf": (240.0, 300.0),
        "models/gate.stl": (60.0, 50.0, 12.0),
    }
    for name, make in draw.FILES.items():
        path = tmp_path / Path(name).name
        path.write_bytes(make())
        shape = read_shape(path)
        assert isinstance(shape, Shape)
        if name in sizes:
            wanted = sizes[name]
            assert shape.size is not None
            assert shape.size[: len(wanted)] == pytest.approx(wanted, abs=1e-3)


def test_the_photos_carry_what_must_be_taken_away() -> None:
    draw = load_script()
    raw = draw.photo("diffuser crack")
    assert b"SN-12345" in raw
    assert b"SN-12345" not in take_in(raw).data
