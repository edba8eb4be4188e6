"""What a save asks of the kernel, in order, and what a kill at each call leaves.

The program below forks one child for every call to be killed at. strace counts
each kind of call in each process, so a child first makes that call idly until
the count stands right before the one that is to be its last.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from logbook.store.disk.save import Write, clean_up, save
from tests.needs import needs

pytestmark = needs("strace")

HOUSE = Path(__file__).parent.parent.parent
OLD = {"part/bed.md": b"old bed", "part/lid.md": b"old lid", "note/gone.md": b"gone"}
NEW = {"failure/2603/new.md": b"new", "part/bed.md": b"new bed"}

START = f"""
import os, sys
sys.path[:0] = [{str(HOUSE)!r}]
from pathlib import Path
from logbook.errors import LogbookError
from logbook.records.written.text import digest
from logbook.store.disk.save import Write, save

OLD = {OLD!r}
NEW = {NEW!r}

def save_all(folder):
    root = Path(folder) / "as-built"
    writes = [
        Write("failure/2603/new.md", NEW["failure/2603/new.md"], None),
        Write("part/bed.md", NEW["part/bed.md"], digest(OLD["part/bed.md"])),
        Write("note/gone.md", None, digest(OLD["note/gone.md"])),
    ]
    save(root, writes, lock=Path(folder) / "lock")
"""

RUN_ONE = (
    START
    + """
try:
    save_all(sys.argv[1])
except LogbookError as refusal:
    os.write(2, str(refusal).encode())
    os._exit(refusal.exit_code)
os.write(1, b"saved")
"""
)

KILL_EACH = (
    START
    + """
import contextlib, fcntl
null = os.open("/dev/null", os.O_RDWR)
IDLE = {
    "openat": lambda: os.open("", 0),
    "read": lambda: os.read(null, 1),
    "newfstatat": lambda: os.stat(""),
    "close": lambda: os.close(-1),
    "write": lambda: os.write(null, b""),
    "fsync": lambda: os.fsync(null),
    "fchmod": lambda: os.fchmod(-1, 0),
    "rename": lambda: os.rename("", ""),
    "mkdir": lambda: os.mkdir(""),
    "unlink": lambda: os.unlink(""),
    "flock": lambda: fcntl.flock(null, fcntl.LOCK_UN),
}
folders, call, limit = sys.argv[1], sys.argv[2], int(sys.argv[3])
for number in range(1, 100):
    folder = f"{folders}/{call}-{number}"
    child = os.fork()
    if child == 0:
        for _ in range(limit - number):
            with contextlib.suppress(OSError):
                IDLE[call]()
        save_all(folder)
        os.write(1, f" {number} ".encode())
        os._exit(0)
    if os.waitpid(child, 0)[1] == 0:
        break
"""
)

# Python itself makes a few hundred of the first four before the save begins.
LIMITS = dict.fromkeys(("openat", "read", "newfstatat", "close"), 1500) | dict.fromkeys(
    ("write", "fsync", "fchmod", "rename", "mkdir", "unlink", "flock"), 60
)
MOST = 40


def lay(folder: Path) -> Path:
    for path, data in OLD.items():
        place = folder / "as-built" / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    return folder


def contents(root: Path) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file()
    }


def traced(*words: str | Path) -> subprocess.CompletedProcess[bytes]:
    environment = {"PATH": os.environ["PATH"], "PYTHONDONTWRITEBYTECODE": "1"}
    command = ["strace", "-f", "-qq", *map(str, words)]
    return subprocess.run(
        command, capture_output=True, check=False, env=environment, timeout=300
    )


def calls(trace: str, root: Path) -> list[str]:
    """Say each call on the project in a word, in order, with what it was made on."""
    said = []
    for line in trace.splitlines():
        match = re.search(r"(\w+)\((.*)\) += (-?\d+)", line)
        if not match or match[3].startswith("-"):
            continue
        name, place = match[1], match[2]
        if name == "write" and '"saved"' in place:
            said.append("acknowledge")
        elif str(root) in place:
            where = re.findall(rf"{re.escape(str(root))}(?:/([^\">]*))?", place)[-1]
            said.append(f"{name} {re.sub(r'.saving-[0-9a-f]+', '~', where)}")
    return said


def test_the_order_is_write_flush_rename_flush_the_folder_acknowledge(
    tmp_path: Path,
) -> None:
    lay(tmp_path)
    names = "trace=write,fsync,rename,mkdir,unlink"
    words = ("-y", "-o", tmp_path / "trace", "-e", names, sys.executable, "-c")
    done = traced(*words, RUN_ONE, tmp_path)
    assert done.stdout == b"saved", done.stderr
    assert calls((tmp_path / "trace").read_text(), tmp_path / "as-built") == [
        "mkdir failure",
        "fsync ",
        "mkdir failure/2603",
        "fsync failure",
        "write failure/2603/~.tmp",
        "fsync failure/2603/~.tmp",
        "write part/~.tmp",
        "fsync part/~.tmp",
        "rename failure/2603/new.md",
        "fsync failure/2603",
        "rename part/bed.md",
        "fsync part",
        "unlink note/gone.md",
        "fsync note",
        "acknowledge",
    ]


STATES = [
    OLD,
    OLD | {"failure/2603/new.md": b"new"},
    OLD | NEW,
    {path: data for path, data in (OLD | NEW).items() if path != "note/gone.md"},
]
"""The beginnings of the save: no other content may ever be found."""


@pytest.mark.parametrize("call", LIMITS)
def test_a_kill_at_each_call_leaves_old_or_new_and_the_next_start_cleans_up(
    tmp_path: Path, call: str
) -> None:
    for number in range(1, MOST):
        lay(tmp_path / f"{call}-{number}")
    kill = f"inject={call}:signal=KILL:when={LIMITS[call]}"
    words = ("-o", "/dev/null", "-e", f"trace={call}", "-e", kill, sys.executable, "-c")
    done = traced(*words, KILL_EACH, tmp_path, call, str(LIMITS[call]))
    survivor = int(done.stdout)
    assert 1 < survivor < MOST, done.stderr
    reached = []
    for number in range(1, survivor + 1):
        root = tmp_path / f"{call}-{number}" / "as-built"
        clean_up(root, lock=root.parent / "lock")
        reached.append(STATES.index(contents(root)))
    assert reached == sorted(reached)
    assert reached[-1] == len(STATES) - 1
    if call in ("rename", "fsync"):
        assert len(set(reached)) > 2
    after = tmp_path / f"{call}-1" / "as-built"
    save(after, [Write("next.md", b"next", None)], lock=after.parent / "lock")


def test_a_kill_leaves_temporary_files_for_the_next_start_to_find(
    tmp_path: Path,
) -> None:
    lay(tmp_path / "rename-1")
    kill = "inject=rename:signal=KILL:when=60"
    words = ("-o", "/dev/null", "-e", "trace=rename", "-e", kill, sys.executable, "-c")
    lay(tmp_path / "rename-2")
    lay(tmp_path / "rename-3")
    traced(*words, KILL_EACH, tmp_path, "rename", "60")
    root = tmp_path / "rename-1" / "as-built"
    assert len(clean_up(root, lock=root.parent / "lock")) == 2
    assert contents(root) == OLD


@pytest.mark.parametrize(
    ("fault", "sentence", "state"),
    [
        ("write:error=ENOSPC:when=1", "the disk is full; nothing was written", 0),
        ("fsync:error=EIO:when=3", "input/output error; nothing was written", 0),
        ("rename:error=EROFS:when=1", "the disk is read-only; nothing was written", 0),
        ("rename:error=ENOSPC:when=2", "disk is full; the 1 before it were saved", 1),
        ("unlink:error=EACCES:when=1", "permission was denied; the 2 before it", 2),
    ],
)
def test_a_disk_that_refuses_gives_one_sentence_and_leaves_nothing_half(
    tmp_path: Path, fault: str, sentence: str, state: int
) -> None:
    lay(tmp_path)
    call = fault.partition(":")[0]
    words = ("-o", "/dev/null", "-e", f"trace={call}", "-e", f"inject={fault}")
    done = traced(*words, sys.executable, "-c", RUN_ONE, tmp_path)
    assert (done.returncode, done.stdout) == (7, b"")
    assert sentence in done.stderr.decode()
    assert contents(tmp_path / "as-built") == STATES[state]
