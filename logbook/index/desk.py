"""Questions asked at the desk, through the schema's classes; not for the bench.

Loading this takes some tenths of a second. The session only reads.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from sqlmodel import Session, create_engine


@contextmanager
def desk(path: Path) -> Iterator[Session]:
    """Open the index at `path` for reading with the classes of `schema`."""
    place = f"sqlite:///file:{quote(str(path.resolve()))}?mode=ro&uri=true"
    engine = create_engine(place)
    try:
        with Session(engine) as session:
            yield session
    finally:
        engine.dispose()
