"""The block of facts in a file: the line of each, and that it reads back the same."""

from __future__ import annotations

import pytest
import tomli

from logbook.records.written.block import line_of, write_block

BLOCK = '''id = "a"  # [note]
text = """
x = 1
[y]
"""
places = [
  "left",
  "]",
]
a.b = 1
"odd = key" = 2
[[run]]
value = 1
[[run.photo]]
path = "p"
[[run.photo]]
path = "q"
[[run]]
[[run.photo]]
path = "r"
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("id",), 1), (("places", 1), 6), (("a", "b"), 10), (("odd = key",), 11),
        (("run", 0, "value"), 13), (("run", 0, "photo", 1, "path"), 17),
        (("run", 1, "photo", 0, "path"), 20), (("nothing",), 1),
    ],
)  # fmt: skip
def test_the_line_of_a_fact(path: tuple[str | int, ...], line: int) -> None:
    assert line_of(BLOCK, path) == line


@pytest.mark.parametrize("text", ["a\nb", 'x = "1"', "\x1b", "\u202e", '"""', "\\"])
def test_what_is_written_reads_back_the_same(text: str) -> None:
    facts = {"k y": text, "n": [text, text * 40], "t": [{"a": {text: 1}}, {"b": True}]}
    assert tomli.loads(write_block(facts)) == facts
