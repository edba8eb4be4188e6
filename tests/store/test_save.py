"""A save is whole or not at all, and never overwrites what someone else wrote."""

from __future__ import annotations

import fcntl
import os
import resource
import stat
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import BadInput, ChangedMeanwhile, Refused
from logbook.records.written.text import digest
from logbook.store.disk import flushed as disk
from logbook.store.disk.save import (
    TEMPORARY,
    Write,
    append,
    clean_up,
    is_temporary,
    save,
)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "as-built"
    folder.mkdir()
    return folder


@pytest.fixture
def lock(tmp_path: Path) -> Path:
    return tmp_path / "git" / "logbook" / "lock"


def contents(root: Path) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file()
    }


@contextmanager
def umask(mask: int) -> Iterator[None]:
    old = os.umask(mask)
    try:
        yield
    finally:
        os.umask(old)


def test_several_files_are_written_replaced_and_removed_in_one_step(
    root: Path, lock: Path
) -> None:
    (root / "old.md").write_bytes(b"old")
    (root / "gone.md").write_bytes(b"gone")
    made = save(
        root,
        [
            Write("failure/2603/new.md", b"new", None),
            Write("old.md", b"newer", digest(b"old")),
            Write("gone.md", None, digest(b"gone")),
        ],
        lock=lock,
    )
    assert contents(root) == {"failure/2603/new.md": b"new", "old.md": b"newer"}
    assert made == (digest(b"new"), digest(b"newer"), None)


@pytest.mark.parametrize(
    ("write", "sentence"),
    [
        (Write("b.md", b"x", digest(b"other")), "b.md was changed by someone else"),
        (Write("b.md", b"x", None), "b.md is there already"),
        (Write("c.md", b"x", digest(b"b")), "c.md was removed since it was read"),
        (Write("b.md", None, digest(b"other")), "b.md was changed by someone else"),
    ],
)
def test_one_file_changed_meanwhile_stops_the_whole_save(
    root: Path, lock: Path, write: Write, sentence: str
) -> None:
    (root / "b.md").write_bytes(b"b")
    with pytest.raises(ChangedMeanwhile, match=sentence):
        save(root, [Write("a.md", b"a", None), write], lock=lock)
    assert contents(root) == {"b.md": b"b"}


def test_an_editor_that_saves_during_our_flush_is_not_overwritten(
    root: Path, lock: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (root / "b.md").write_bytes(b"b")
    flush = disk.flush

    def flush_while_someone_types(descriptor: int) -> None:
        flush(descriptor)
        (root / "b.md").write_bytes(b"typed in an editor")

    monkeypatch.setattr("logbook.store.disk.save.flush", flush_while_someone_types)
    with pytest.raises(ChangedMeanwhile):
        save(root, [Write("b.md", b"ours", digest(b"b"))], lock=lock)
    assert contents(root) == {"b.md": b"typed in an editor"}


def test_a_new_file_follows_the_umask_and_a_replaced_one_keeps_its_mode(
    root: Path, lock: Path
) -> None:
    (root / "old.md").write_bytes(b"old")
    (root / "old.md").chmod(0o640)
    with umask(0o027):
        writes = [
            Write("new.md", b"", None),
            Write("old.md", b"newer", digest(b"old")),
        ]
        save(root, writes, lock=lock)
    assert stat.S_IMODE((root / "new.md").stat().st_mode) == 0o640
    (root / "old.md").chmod(0o664)
    save(root, [Write("old.md", b"newest", digest(b"newer"))], lock=lock)
    assert stat.S_IMODE((root / "old.md").stat().st_mode) == 0o664


@pytest.mark.parametrize(
    "path", ["../out.md", "/tmp/out.md", "a/../../out.md", "", "a\0b"]
)
def test_a_path_that_leads_out_is_bad_input(root: Path, lock: Path, path: str) -> None:
    with pytest.raises(BadInput, match="accepted: a path inside"):
        save(root, [Write(path, b"x", None)], lock=lock)
    assert contents(root.parent) == {"git/logbook/lock": b""}


def test_nothing_is_written_through_a_link(root: Path, lock: Path) -> None:
    outside = root.parent / "outside"
    outside.mkdir()
    (root / "failure").symlink_to(outside)
    (outside / "x.md").write_bytes(b"x")
    (root / "y.md").symlink_to(outside / "x.md")
    for path in ("failure/new.md", "y.md"):
        with pytest.raises(Refused, match="is a link to elsewhere"):
            save(root, [Write(path, b"x", None)], lock=lock)
    assert contents(outside) == {"x.md": b"x"}


@pytest.mark.parametrize("path", ["taken.md", "file/under.md"])
def test_something_else_of_that_name_is_refused(
    root: Path, lock: Path, path: str
) -> None:
    (root / "taken.md").mkdir()
    (root / "file").write_bytes(b"x")
    with pytest.raises(Refused, match="in the way; nothing was written"):
        save(root, [Write("a.md", b"a", None), Write(path, b"x", None)], lock=lock)
    assert contents(root) == {"file": b"x"}


def test_a_file_too_large_for_the_disk_leaves_nothing_behind(
    root: Path, lock: Path
) -> None:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, hard))
    writes = [Write("a.md", b"a", None), Write("b.md", b"b" * 20_000, None)]
    try:
        with pytest.raises(Refused, match=r"b\.md .*larger than this disk allows"):
            save(root, writes, lock=lock)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert contents(root) == {}


def test_a_name_too_long_for_the_disk_says_what_was_written(
    root: Path, lock: Path
) -> None:
    writes = [Write("a.md", b"a", None), Write("b" * 300, b"b", None)]
    with pytest.raises(Refused, match="its name is too long"):
        save(root, writes, lock=lock)
    assert contents(root) == {}


def test_a_lock_held_by_another_program_is_waited_for_and_named(
    root: Path, lock: Path
) -> None:
    save(root, [Write("a.md", b"a", None)], lock=lock)
    with lock.open() as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        with pytest.raises(Refused, match=r"another logbook program has held .*lock"):
            save(root, [Write("b.md", b"b", None)], lock=lock, patience_s=0.05)
    assert contents(root) == {"a.md": b"a"}


def raise_count(root: Path, lock: Path, times: int) -> int:
    lost = 0
    for _ in range(times):
        old = (root / "count").read_bytes()
        try:
            save(
                root,
                [Write("count", b"%d" % (int(old) + 1), digest(old))],
                lock=lock,
            )
        except ChangedMeanwhile:
            lost += 1
    return times - lost


def test_two_programs_saving_one_file_never_lose_each_others_work(
    root: Path, lock: Path
) -> None:
    (root / "count").write_bytes(b"0")
    with ProcessPoolExecutor(2) as pool:
        runs = [pool.submit(raise_count, root, lock, 60) for _ in range(2)]
        acknowledged = sum(run.result() for run in runs)
    assert int((root / "count").read_bytes()) == acknowledged
    assert contents(root).keys() == {"count"}


def test_an_addition_goes_at_the_end_and_needs_the_digest_read(
    root: Path, lock: Path
) -> None:
    (root / "run.md").write_bytes(b"178.60\n")
    first = append(root, "run.md", b"178.65\n", digest(b"178.60\n"), lock=lock)
    append(root, "run.md", b"178.62\n", first, lock=lock)
    assert contents(root) == {"run.md": b"178.60\n178.65\n178.62\n"}
    with pytest.raises(ChangedMeanwhile):
        append(root, "run.md", b"178.68\n", first, lock=lock)
    with pytest.raises(ChangedMeanwhile, match="was removed"):
        append(root, "none.md", b"x", first, lock=lock)


def test_cleaning_up_takes_our_left_overs_and_nothing_else(
    root: Path, lock: Path
) -> None:
    (root / "failure").mkdir()
    ours = "failure/.saving-0123456789abcdef.tmp"
    (root / ours).write_bytes(b"half")
    for theirs in (".saving-notes.tmp", "x.tmp", ".saving-0123456789abcdef.tmp.md"):
        (root / theirs).write_bytes(b"theirs")
    assert clean_up(root, lock=lock) == (ours,)
    assert len(contents(root)) == 3


def test_cleaning_up_waits_for_no_one(root: Path, lock: Path) -> None:
    save(root, [Write("a.md", b"a", None)], lock=lock)
    (root / ".saving-0123456789abcdef.tmp").write_bytes(b"still being written")
    with lock.open() as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        assert clean_up(root, lock=lock) == ()


def test_the_flush_of_macos_falls_back_where_the_disk_does_not_know_it(
    root: Path, lock: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    flushed: list[int] = []
    fsync = os.fsync
    monkeypatch.setattr("sys.platform", "darwin")
    monkeypatch.setattr(fcntl, "F_FULLFSYNC", 51, raising=False)

    def counted(descriptor: int) -> None:
        fsync(descriptor)
        flushed.append(descriptor)

    monkeypatch.setattr(os, "fsync", counted)
    save(root, [Write("a.md", b"a", None)], lock=lock)
    assert len(flushed) == 2


def test_the_ignore_pattern_covers_every_temporary_name() -> None:
    before, _, after = TEMPORARY.partition("*")
    assert is_temporary(f"{before}0123456789abcdef{after}")


@given(st.binary(max_size=3000), st.binary(max_size=3000))
def test_any_bytes_come_back_as_they_were(
    tmp_path_factory: pytest.TempPathFactory, first: bytes, second: bytes
) -> None:
    root = tmp_path_factory.mktemp("any")
    [before] = save(root, [Write("a", first, None)], lock=root / "lock")
    assert (root / "a").read_bytes() == first
    save(root, [Write("a", second, before)], lock=root / "lock")
    assert (root / "a").read_bytes() == second
