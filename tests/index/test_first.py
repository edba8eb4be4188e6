"""The rows of the first paint are the newest entries, and ask for little."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from logbook.index.first import FirstRow, first_rows
from logbook.index.opening import swap_lock
from logbook.records.kinds.table import KINDS
from logbook.store.disk.flushed import locked
from tests.index import world
from tests.index.world import crossbar, note, opened, run, started, write


@pytest.fixture
def top(tmp_path: Path) -> Path:
    top = started(tmp_path / "stand")
    _, _, piece = crossbar(top)
    for minutes in range(5):
        write(top, note(f"Filed {minutes}", "", minutes))
    write(top, run(piece, "178.62 mm", 7))
    return top


def rows(top: Path, limit: int = 80) -> list[FirstRow]:
    return first_rows(top, world.database(top), limit)


def test_they_are_the_newest_entries_oldest_first(top: Path) -> None:
    index = opened(top)
    expected = [
        FirstRow(line.id, line.when, KINDS[line.kind].shown, line.title)
        for line in reversed(index.newest(4))
    ]
    index.close()
    assert rows(top, 4) == expected
    assert [row.kind for row in expected[-2:]] == ["note", "measuring run"]
    assert expected[-1].when.utcoffset() == world.NOON.utcoffset()


def test_without_an_index_there_are_none_and_none_is_made(top: Path) -> None:
    assert rows(top) == []
    assert not world.database(top).parent.exists()


@pytest.mark.parametrize("fact", ["schema", "project"])
def test_an_old_or_foreign_index_gives_none(top: Path, fact: str) -> None:
    index = opened(top)
    index._write.execute("UPDATE meta SET value = 'x' WHERE name = ?", (fact,))
    index.close()
    assert rows(top) == []


def test_nobody_is_waited_for(top: Path) -> None:
    opened(top).close()
    with locked(swap_lock(world.database(top))):
        assert rows(top) == []
    assert rows(top) != []


@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE record SET moment = 'soon'",
        "UPDATE record SET moment = 9e18",
        "UPDATE record SET offset_min = 'x'",
        "DROP TABLE record",
    ],
)
def test_damage_gives_none_and_no_error(top: Path, damage: str) -> None:
    opened(top).close()
    db = sqlite3.connect(world.database(top))
    db.execute(damage)
    db.commit()
    db.close()
    assert rows(top) == []


def test_garbage_gives_none(top: Path) -> None:
    place = world.database(top)
    place.parent.mkdir(parents=True)
    place.write_bytes(b"SQLite format 3\0" + bytes(9000))
    assert rows(top) == []


def test_asking_loads_no_records(top: Path) -> None:
    opened(top).close()
    script = (
        "import sys; from pathlib import Path\n"
        "from logbook.index.first import first_rows\n"
        f"assert len(first_rows(Path({str(top)!r}), "
        f"Path({str(world.database(top))!r}), 80)) == 6\n"
        "print([n for n in sys.modules if n.startswith('logbook.')])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    assert "logbook.index.first" in done.stdout
    assert "logbook.records" not in done.stdout
