"""The README says what is true of the program."""

from __future__ import annotations

import re
from pathlib import Path

from logbook.screens.bench.bench import Bench
from logbook.screens.ruled.verbs import shown_key

README = Path(__file__).parent.parent / "README.md"
OF_EVERY_LINE = {"Enter", "Esc", "↑", "↓", "PgUp", "PgDn", "Space"}


def test_the_readme_lists_each_key_of_the_bench() -> None:
    rows = re.findall(r"(?m)^\| ([^|]+) \| [^|]+ \|$", README.read_text("utf-8"))
    told = {key for row in rows for key in row.split(", ") if key != "key"}
    bench = {shown_key(key) for verb in Bench.VERBS for key in verb.key.split(",")}
    assert told == bench - OF_EVERY_LINE
