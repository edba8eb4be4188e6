"""The statements are those of the schema, and the bench never loads the ORM."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from sqlmodel import Session, create_engine, select

from logbook.index import generate, statements
from logbook.index.schema import TABLES, Reading, Row
from tests.index import world
from tests.index.world import crossbar, opened, run, started, write

HEAVY = ("sqlmodel", "sqlalchemy", "pydantic", "git", "textual", "numpy")


def test_the_generated_module_is_what_the_schema_gives() -> None:
    held = Path(statements.__file__).read_text("utf-8")
    assert held == generate.statements(), "run python -m logbook.index.generate"


def test_the_database_has_the_columns_of_the_schema(tmp_path: Path) -> None:
    index = opened(started(tmp_path / "stand"))
    for cls in TABLES:
        table = cls.__table__  # type: ignore[attr-defined]
        found = index._read.execute(f"PRAGMA table_info({table.name})").fetchall()
        names = [(row[1], row[3], row[5] > 0) for row in found]
        wanted = [(c.name, int(not c.nullable), c.primary_key) for c in table.columns]
        assert names == wanted
        listed = index._read.execute(f"PRAGMA index_list({table.name})")
        made = {row[1] for row in listed}
        assert {index.name for index in table.indexes} <= made


def test_opening_asking_and_taking_in_load_no_orm(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    _, _, piece = crossbar(top)
    write(top, run(piece, "178.62 mm"))
    script = f"""
import sys
from pathlib import Path
from logbook.index.catalogue import Index
top = Path({str(top)!r})
index = Index.open(top, Path({str(world.database(top))!r}))
index.bring_up_to_date()
index.take_in(["as-built/project.md"])
assert index.newest(3) and index.search("178.62") and index.ranked("crossbar")
assert index.called("crossbar", "part") and index.counts()
print([name for name in {HEAVY!r} if name in sys.modules])
"""
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_what_the_statements_write_is_read_through_the_classes(tmp_path: Path) -> None:
    top = started(tmp_path / "stand")
    _, _, piece = crossbar(top)
    write(top, run(piece, "3/16 in"))
    index = opened(top)
    engine = create_engine(f"sqlite:///{world.database(top)}")
    with Session(engine) as session:
        asked = select(Row.title, Reading.base).where(Reading.record == Row.id)
        assert session.exec(asked).all() == [("Measured", "381/80")]
    engine.dispose()
    index.close()
