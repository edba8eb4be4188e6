"""Our templates are compiled once; what is kept of them never decides what is said."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from jinja2 import Environment, FileSystemLoader

from logbook.publish import compiled
from logbook.publish.compiled import Compiled
from logbook.publish.pages import SHIPPED, environment

TEMPLATE = "page.md.j2"


class Counting(Environment):
    """Counts what is compiled."""

    compiled = 0

    def _compile(self, source: str, filename: str):  # type: ignore[no-untyped-def]  # noqa: ANN202
        self.compiled += 1
        return super()._compile(source, filename)


def said(folder: Path, own: Path | None = None) -> tuple[str, int]:
    """Give what the template says in a new run, and how many were compiled for it."""
    places = [place for place in (own, folder) if place is not None]
    made = Counting(loader=FileSystemLoader(places), bytecode_cache=Compiled(folder))
    return made.get_template(TEMPLATE).render(size="180 mm"), made.compiled


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    folder = tmp_path / "templates"
    folder.mkdir()
    (folder / TEMPLATE).write_text("Opening {{ size }}")
    return folder


def kept(folder: Path) -> list[Path]:
    return sorted(folder.rglob("*.pyc*"))


def test_the_next_run_compiles_nothing(folder: Path) -> None:
    assert said(folder) == ("Opening 180 mm", 1)
    assert said(folder) == ("Opening 180 mm", 0)
    assert len(kept(folder)) == 1


def test_a_changed_template_is_compiled_anew(folder: Path) -> None:
    said(folder)
    (folder / TEMPLATE).write_text("Closing {{ size }}")
    assert said(folder) == ("Closing 180 mm", 1)


def test_other_filters_make_other_code(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said(folder)
    monkeypatch.setattr(compiled, "_meaning", lambda: b"another version of the program")
    assert said(folder) == ("Opening 180 mm", 1)


@pytest.mark.parametrize("at", [0, 40, -1])
def test_damaged_code_is_not_run(folder: Path, at: int) -> None:
    said(folder)
    [place] = kept(folder)
    data = bytearray(place.read_bytes())
    data[at] ^= 0xFF
    place.write_bytes(data)
    assert said(folder) == ("Opening 180 mm", 1)
    place.write_bytes(data[:20])
    assert said(folder) == ("Opening 180 mm", 1)


def test_where_nothing_can_be_kept_all_is_said(folder: Path) -> None:
    (folder / "__pycache__").write_text("a file where the folder would be")
    assert said(folder) == ("Opening 180 mm", 1)
    assert said(folder) == ("Opening 180 mm", 1)


def test_nothing_is_kept_where_python_keeps_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    said(folder)
    assert kept(folder) == []


def test_a_template_from_a_repository_is_never_kept(
    folder: Path, tmp_path: Path
) -> None:
    own = tmp_path / "as-built/templates"
    own.mkdir(parents=True)
    (own / TEMPLATE).write_text("Ours {{ size }}")
    assert said(folder, own) == ("Ours 180 mm", 1)
    assert said(folder, own) == ("Ours 180 mm", 1)
    assert kept(tmp_path) == []


def test_pages_are_made_by_it() -> None:
    held = environment().bytecode_cache
    assert isinstance(held, Compiled)
    key = held.get_cache_key("guide.md.j2", str(SHIPPED / "guide.md.j2"))
    assert key == str(SHIPPED / "guide.md.j2")
