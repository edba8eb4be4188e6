"""Finding the project upward and its record files below, whatever lies about."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from logbook.errors import NoProject, Problem
from logbook.store.reading.find import (
    RecordFile,
    find_project,
    folder_times,
    record_files,
    records,
    signatures,
)


def lay(root: Path, *paths: str) -> Path:
    for path in paths:
        place = root / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(path.encode())
    return root


def test_the_nearest_project_upward_wins(tmp_path: Path) -> None:
    lay(
        tmp_path,
        "as-built/project.md",
        "stand/as-built/project.md",
        "stand/drawings/old/base.dxf",
    )
    assert find_project(tmp_path / "stand/drawings/old") == tmp_path / "stand/as-built"
    assert find_project(tmp_path / "stand/as-built") == tmp_path / "stand/as-built"
    assert find_project(tmp_path) == tmp_path / "as-built"


def test_a_file_or_a_missing_folder_is_a_place_to_start_from(tmp_path: Path) -> None:
    lay(tmp_path, "as-built/project.md", "drawings/base.dxf")
    assert find_project(tmp_path / "drawings/base.dxf") == tmp_path / "as-built"
    assert find_project(tmp_path / "not/yet/there") == tmp_path / "as-built"


def test_no_project_up_to_the_root_is_said_with_the_way_to_make_one(
    tmp_path: Path,
) -> None:
    with pytest.raises(NoProject, match=r"no as-built/project\.md in .*logbook start"):
        find_project(tmp_path)


def test_a_loop_of_links_does_no_harm(tmp_path: Path) -> None:
    lay(tmp_path, "as-built/project.md")
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (tmp_path / "as-built/failure").mkdir()
    (tmp_path / "as-built/failure/again").symlink_to(tmp_path / "as-built")
    assert find_project(tmp_path / "loop") == tmp_path / "as-built"
    assert record_files(tmp_path / "as-built") == ["project.md"]


def test_a_linked_project_is_not_taken_for_one(tmp_path: Path) -> None:
    lay(tmp_path, "elsewhere/project.md", "design/base.dxf")
    (tmp_path / "design/as-built").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NoProject):
        find_project(tmp_path / "design")


def test_only_real_markdown_files_of_record_folders_are_listed(tmp_path: Path) -> None:
    root = lay(
        tmp_path / "as-built",
        "project.md",
        "README.md",
        "failure/2603/7k2m9qzd-diffuser-cracked.md",
        "failure/2603/.saving-0123456789abcdef.tmp",
        "failure/2603/.hidden.md",
        "failure/2603/notes.txt",
        "failure/.trash/2603/old.md",
        "part/bed.md",
        "published/1.0/guide.md",
        "photos/about.md",
        "templates/guide.md",
    )
    (root / "part/linked.md").symlink_to(root / "part/bed.md")
    (root / "part/folder.md").mkdir()
    assert record_files(root) == [
        "failure/2603/7k2m9qzd-diffuser-cracked.md",
        "part/bed.md",
        "project.md",
    ]
    assert [file.read() for file in records(root)] == [
        b"failure/2603/7k2m9qzd-diffuser-cracked.md",
        b"part/bed.md",
        b"project.md",
    ]


def test_a_file_that_went_away_is_a_problem_and_a_link_is_not_followed(
    tmp_path: Path,
) -> None:
    lay(tmp_path, "secret")
    (tmp_path / "link.md").symlink_to(tmp_path / "secret")
    for name in ("gone.md", "link.md"):
        problem = RecordFile(str(tmp_path), name).read()
        assert isinstance(problem, Problem)
        assert str(problem).startswith(f"{name}: found a file that cannot be read")


def test_a_file_changed_in_place_has_another_signature(tmp_path: Path) -> None:
    lay(tmp_path, "part/bed.md")
    [before] = signatures(tmp_path, ["part/bed.md", "part/gone.md"]).values()
    (tmp_path / "part/bed.md").write_bytes(b"part/bad.md")
    os.utime(tmp_path / "part/bed.md", ns=(1, before.changed_ns + 1))
    [after] = signatures(tmp_path, ["part/bed.md"]).values()
    assert after != before
    assert after.size == before.size


def test_a_file_that_came_shows_in_the_time_of_its_folder(tmp_path: Path) -> None:
    lay(tmp_path, "project.md", "part/2603/a.md", "note/2603/b.md", "photos/c.jpg")
    before = folder_times(tmp_path)
    assert sorted(before) == ["", "note", "note/2603", "part", "part/2603"]
    os.utime(tmp_path / "note/2603", ns=(1, before["note/2603"] + 1))
    after = folder_times(tmp_path)
    assert [path for path in after if after[path] != before[path]] == ["note/2603"]
