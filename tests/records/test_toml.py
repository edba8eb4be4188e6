"""The reader that decides, on cases of the TOML specification, and our writer.

Cases after TOML v1.0.0 (toml.io, sections String, Integer, Float, Offset
Date-Time, Array, Inline Table, Array of Tables), written anew; no general corpus
was found in the package registry.
"""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.records.written.block import write_block
from logbook.records.written.text import read_toml

VALID: list[tuple[str, object]] = [
    ('a = "tab \\t quote \\" \\u00E9 \\U0001F527"', 'tab \t quote " é 🔧'),
    ("a = 'C:\\shop\\n'", "C:\\shop\\n"),
    ('a = """\nfirst\nsecond"""', "first\nsecond"),
    ('a = """one \\\n   line"""', "one line"),
    ("a = '''\nraw \\ text'''", "raw \\ text"),
    ("a = +1_000", 1000),
    ("a = 0xDEAD_beef", 0xDEADBEEF),
    ("a = 0b1101", 13),
    ("a = -2E-2", -0.02),
    ("a = 1979-05-27T00:32:00-07:00",
     datetime(1979, 5, 27, 0, 32, tzinfo=timezone(timedelta(hours=-7)))),
    ("a = [ [1, 2], ['x'], ]", [[1, 2], ["x"]]),
    ("a = { b.c = 1, d = 'e' }", {"b": {"c": 1}, "d": "e"}),
    ("[[a]]\nb = 1\n[[a]]\nb = 2", [{"b": 1}, {"b": 2}]),
    ('"a" = 1 # comment', 1),
    ("a.b.c = true", {"b": {"c": True}}),
]  # fmt: skip

INVALID = [
    "a = 1\na = 2", "a = ", "= 1", "a = 01", "a = 1__0", "a = 1.", "a = .5",
    "a = 'x\ny'", 'a = "\\q"', "a = [1, 2", "[a]\n[a]", "a = 1\n[a]", "[a",
    "a = 1979-13-01", 'a = "x" b = 1', "[[a]]\n[a]", "a = {b = 1}\n[a]\nc = 2",
    "a = tru", "a = \x00",
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), VALID)
def test_valid_documents_give_their_values(text: str, value: object) -> None:
    assert read_toml(text + "\n")["a"] == value


@pytest.mark.parametrize("text", INVALID)
def test_invalid_documents_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"line|document"):
        read_toml(text + "\n")


def test_documents_of_the_next_edition_are_read_too() -> None:
    text = 'a = {\n  b = "\\e\\x41",\n}\n'
    assert read_toml(text) == {"a": {"b": "\x1bA"}}


scalars = (
    st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=20)
    | st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False)
    | st.dates()
)
keys = st.text(min_size=1, max_size=8).filter(lambda key: key.isprintable())
tables = st.dictionaries(keys, scalars, max_size=4)


@given(
    st.dictionaries(
        keys,
        scalars | tables | st.lists(scalars, max_size=4) | st.lists(tables),
        max_size=6,
    )
)
def test_what_the_writer_writes_the_reader_reads(facts: dict[str, object]) -> None:
    assert read_toml(write_block(facts)) == facts
