"""A record's text gives the record back, whatever was typed into it."""

from __future__ import annotations

import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from logbook.quantity import parse_quantity
from logbook.records.kinds.happenings import Note, Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import KINDS, kind_of, path_of
from logbook.records.written.edit import edit_record, with_reading
from logbook.records.written.text import (
    clean_prose,
    cleaned,
    read_record,
    write_record,
)
from tests.records.strategies import NOON, of_class, prose, records, words

GOLDEN = Path(__file__).parent / "golden"


@settings(max_examples=400, deadline=None)
@given(records)
def test_what_is_written_is_read_back(record: Record) -> None:
    text = write_record(record)
    parsed = read_record(text.encode(), "r.md")
    assert parsed.problems == ()
    assert parsed.record == cleaned(record)


@pytest.mark.parametrize("word", sorted(KINDS))
@settings(max_examples=20, deadline=None)
@given(st.data())
def test_every_kind_comes_back(word: str, data: st.DataObject) -> None:
    record = data.draw(of_class(KINDS[word].type))
    parsed = read_record(write_record(record).encode(), "r.md")
    assert parsed.record == cleaned(record)


@settings(max_examples=100, deadline=None)
@given(records)
def test_windows_line_ends_and_a_byte_order_mark_change_nothing(record: Record) -> None:
    data = b"\xef\xbb\xbf" + write_record(record).replace("\n", "\r\n").encode()
    assert read_record(data, "r.md").record == cleaned(record)


@given(prose)
def test_cleaning_prose_twice_is_cleaning_it_once(text: str) -> None:
    once = clean_prose(text)
    assert clean_prose(once) == once
    assert not any(ord(c) < 32 and c not in "\n\t" for c in once)


@settings(max_examples=200, deadline=None)
@example(Note(id="7k2m9qzd", title=":_0_:"))
@given(records)
def test_an_independent_renderer_sees_title_then_one_toml_block(record: Record) -> None:
    record = cleaned(record)
    tokens = MarkdownIt("commonmark").parse(write_record(record))
    assert [t.type for t in tokens[:4]] == [
        "heading_open", "inline", "heading_close", "fence",
    ]  # fmt: skip
    assert tokens[3].info.strip() == "toml"
    if "\u0000" not in record.title:
        inline = tokens[1].children or []
        assert all(token.type == "text" or "text" in token.type for token in inline)


@settings(max_examples=150, deadline=None)
@given(of_class(Note), words, prose)
def test_an_edit_changes_only_what_was_edited(
    note: Note, title: str, text: str
) -> None:
    data = write_record(note).encode()
    after = replace(note, title=title, prose=text, statement="list line 4")
    edited = edit_record(data, after, "r.md")
    assert read_record(edited, "r.md").record == cleaned(after)


def test_an_edit_keeps_comments_order_and_spacing() -> None:
    data = (
        b"# Opening is tight\n\n```toml\n"
        b'kind = "note"   # typed by hand\n'
        b'id = "7k2m9qzd"\n\n'
        b"when = 2026-03-14T10:15:22+01:00\n"
        b'colour = "blue" # not known here\n'
        b"```\n\nAt the bench.\n"
    )
    before = read_record(data, "r.md").record
    assert isinstance(before, Note)
    edited = edit_record(data, replace(before, statement="step 3"), "r.md")
    assert edited == data.replace(
        b"not known here\n", b'not known here\nstatement = "step 3"\n'
    )


def test_a_reading_goes_in_at_the_end_and_nothing_before_it_moves() -> None:
    run = Run(id="7k2m9qzd", title="base", when=NOON)
    data = write_record(run).encode()
    for number in range(3):
        reading = Reading(
            id=f"0000000{number}",
            at=NOON,
            what=Ref("opening"),
            value=parse_quantity(f"178.6{number} mm"),
            note="``` odd ````` note",
        )
        longer = with_reading(data, reading, "r.md")
        before = data.decode().partition("\n")[2].lstrip("`\n").removeprefix("toml\n")
        assert before.rstrip("`\n") in longer.decode()
        data = longer
    again = read_record(data, "r.md").record
    assert isinstance(again, Run)
    assert [r.id for r in again.readings] == ["00000000", "00000001", "00000002"]


def test_a_megabyte_of_prose_comes_back() -> None:
    note = Note(id="7k2m9qzd", title="long", when=NOON, prose="`x` <<<<<<<\n" * 90_000)
    parsed = read_record(write_record(note).encode(), "r.md")
    assert parsed.record == cleaned(note)


@pytest.mark.parametrize("path", sorted(GOLDEN.glob("*.md")), ids=lambda p: p.stem)
def test_golden_files_read_and_write_to_the_same_bytes(path: Path) -> None:
    parsed = read_record(path.read_bytes(), path.name)
    assert parsed.problems == ()
    assert parsed.record is not None
    assert write_record(parsed.record) == path.read_text("utf-8")
    assert kind_of(parsed.record).word == path.stem.replace("-", " ")


def test_every_kind_has_its_golden_file() -> None:
    have = {path.stem.replace("-", " ") for path in GOLDEN.glob("*.md")}
    assert have == set(KINDS)


WRONG = {
    "an empty file": ("", 1, "title line"),
    "no title": ("hello\n", 1, "title line"),
    "no block": ("# T\n\nhello\n", 3, "```toml block"),
    "another info word": ("# T\n\n```json\n{}\n```\n", 3, "```toml block"),
    "an open block": ("# T\n\n```toml\nid = 1\n", 3, "closing"),
    "broken TOML": ('# T\n\n```toml\nid = "x"\nkind = \n```\n', 5, "TOML"),
    "lists nested too deep": (
        f"# T\n\n```toml\nid = 1\n\nx = {'[' * 999}{']' * 999}\n```\n",
        6,
        "TOML",
    ),
    "a number too long": (f"# T\n\n```toml\nx = 1\ny = {'9' * 5000}\n```\n", 5, "TOML"),
    "an unknown kind": (
        '# T\n\n```toml\nid = "7k2m9qzd"\nkind = "x"\n```\n',
        5,
        "part",
    ),
    "a bad id": ('# T\n\n```toml\nkind = "note"\nid = "ilou"\n```\n', 5, "without i l"),
    "a conflict": (
        '# T\n\n```toml\n<<<<<<< HEAD\nid = "7k2m9qzd"\n=======\n>>>>>>> b\n```\n',
        4,
        "one side",
    ),
}


@pytest.mark.parametrize(("text", "line", "accepted"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_read_is_named_with_its_line(
    text: str, line: int, accepted: str
) -> None:
    parsed = read_record(text.encode(), "as-built/notes/x.md")
    assert parsed.record is None
    [problem] = parsed.problems
    assert (problem.file, problem.line) == ("as-built/notes/x.md", line)
    assert accepted in problem.accepted


def test_bytes_that_are_no_text_are_named_with_their_line() -> None:
    [problem] = read_record(b"# T\n\n\xff\xfe\n", "x.md").problems
    assert problem.line == 3


HEAD = '# T\n\n```toml\nid = "7k2m9qzd"\nkind = "failure"\n# why\n'

WRONG_VALUES = [
    ("when = 2026-03-14T10:15:22\n", 7, "when", "offset"),
    ("piece = 4\n", 7, "piece", "a name"),
    ('\nmet_by_others = "someone"\n', 8, "met_by_others", "the drawing"),
    ('cause = { said = "x", status = "sure" }\n', 7, "cause status", "guessed"),
    ("cause = { }\n", 7, "cause said", "a value"),
    ('conditions = { temperature = "hot" }\n', 7, "conditions temperature", "86.42"),
    ("conditions = { temperature = 58 }\n", 7, "conditions temperature", "quotes"),
    ('about = [\n  "a",\n  3,\n]\n', 7, "about 2", "a name"),
    ('where = """\na\n[[photo]]\n"""\ncure = 4\n', 11, "cure", "words"),
    ('[[photo]]\npath = "a"\n[[photo]]\ncaption = "b"\n', 9, "photo 2 path", "value"),
    ('[[photo]]\npath = "a"\n[[photo]]\npath = 5\n', 10, "photo 2 path", "words"),
    ('[[photo]]\npath = "a"\npaht = "b"\n', 9, "photo 1 paht", "one of path"),
]  # fmt: skip


@pytest.mark.parametrize(("facts", "line", "field", "accepted"), WRONG_VALUES)
def test_a_wrong_value_is_named_by_line_and_kept(
    facts: str, line: int, field: str, accepted: str
) -> None:
    data = f"{HEAD}{facts}```\n".encode()
    parsed = read_record(data, "x.md")
    [problem] = parsed.problems
    assert (problem.line, problem.field) == (line, field)
    assert accepted in problem.accepted
    assert parsed.record is not None
    again = read_record(write_record(parsed.record).encode(), "x.md")
    assert again.record == parsed.record
    assert again.record.extra == parsed.record.extra != {}


@given(st.binary(max_size=300))
def test_any_bytes_are_a_record_or_a_problem(data: bytes) -> None:
    parsed = read_record(data, "x.md")
    assert (parsed.record is None) == bool(parsed.problems)


@given(st.text(max_size=200))
def test_any_block_is_a_record_or_a_problem(block: str) -> None:
    parsed = read_record(
        f"# T\n\n```toml\n{block}\n```\n".encode(errors="replace"), "x"
    )
    assert parsed.record is not None or parsed.problems


def test_a_file_name_carries_month_id_and_title() -> None:
    note = Note(id="7k2m9qzd", title="Ø 3 holes: too close!", when=NOON)
    assert path_of(note) == "as-built/notes/2603/7k2m9qzd-3-holes-too-close.md"


def test_git_reads_what_is_written(tmp_path: Path) -> None:
    note = Note(id="7k2m9qzd", title="x", when=NOON, prose="<<<<<<< a\nb\n>>>>>>> c")
    (tmp_path / "n.md").write_text(write_record(note), "utf-8")
    git = ["git", "-C", str(tmp_path)]
    subprocess.run([*git, "init", "-q"], check=True)
    subprocess.run([*git, "add", "n.md"], check=True)
    # git's own conflict-marker check: leftover markers would be named here.
    subprocess.run([*git, "diff", "--check", "--cached"], check=True)
