"""One is one: nothing that is shown says “1 pieces”."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import logbook
from logbook.counting import so_many

HOUSE = Path(logbook.__file__).parent
SEVERAL = re.compile(r" (?:of the )?([a-z]{3,}[^s\W\d_]s)\b")
NEVER_ONE = {
    "advice/gaps/gap.py": "more than the most there may be",
    "quantity.py": "more than the most there may be",
    "shop/making/buying.py": "more than the most there may be",
    "shop/measuring/statistics.py": "more than the most there may be",
    "shop/tables.py": "a row of a table has several",
    "publish/parts/asbuilt.py": "one value is told by itself",
    "publish/faults/evidence.py": "one build is told in words",
    "publish/notes/part_story.py": "one piece is told by its name",
    "shop/chains/formula.py": "one member is what is accepted",
    "shop/chains/stacking.py": "a thousand trials at least",
    "shop/making/no_layout.py": "one piece is told in words",
    "cli/names.py": "one thing is what is accepted",
    "screens/run/run_rows.py": "a run that averages nothing has several",
}


@pytest.mark.parametrize(
    ("number", "said"),
    [(0, "0 boxes"), (1, "1 box"), (2, "2 boxes"), ("ab", "2 boxes")],
)
def test_a_number_and_its_thing_agree(number: int | str, said: str) -> None:
    assert so_many(number, "box", "boxes") == said
    assert so_many(1, "piece") == "1 piece"
    assert so_many([], "piece") == "0 pieces"


def counts(source: str) -> Iterator[tuple[int, str]]:
    """Give where a length is put before several things, with these."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.JoinedStr):
            continue
        for shown, then in zip(node.values, node.values[1:], strict=False):
            if not isinstance(shown, ast.FormattedValue):
                continue
            call = shown.value
            length = isinstance(call, ast.Call) and ast.unparse(call.func) == "len"
            after = str(then.value) if isinstance(then, ast.Constant) else ""
            if length and (found := SEVERAL.match(after)):
                yield shown.lineno, found[1]


def test_no_page_screen_or_verb_puts_a_length_before_a_fixed_plural() -> None:
    """What is refused for its number names it once, and says what is accepted."""
    found = [
        f"{path.relative_to(HOUSE)}:{line}: {what}"
        for path in sorted(HOUSE.rglob("*.py"))
        if path.relative_to(HOUSE).as_posix() not in NEVER_ONE
        for line, what in counts(path.read_text("utf-8"))
    ]
    assert not found
