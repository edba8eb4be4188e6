"""The README says what is true of the program."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from logbook.screens.bench.bench import Bench
from logbook.screens.ruled.verbs import shown_key
from tests.cli.shop import Shop
from tests.cli.typed import answering

README = (Path(__file__).parent.parent / "README.md").read_text("utf-8")
OF_EVERY_LINE = {"Enter", "Esc", "↑", "↓", "PgUp", "PgDn", "Space"}
TYPED = re.compile(r"(?ms)^<!-- typed -->\n```console\n(.*?)^```$")
PROMPT, CUT, ANSWER = "$ logbook ", "…", re.compile(r"(?m)\](?: (.+))?$")


def test_the_readme_lists_each_key_of_the_bench() -> None:
    rows = re.findall(r"(?m)^\| ([^|]+) \| [^|]+ \|$", README)
    told = {key for row in rows for key in row.split(", ") if key != "key"}
    bench = {shown_key(key) for verb in Bench.VERBS for key in verb.key.split(",")}
    assert told == bench - OF_EVERY_LINE


def _exchanges() -> list[tuple[str, str]]:
    """Give each command of the first page with what it is said to show."""
    found = TYPED.search(README)
    assert found, "no exchange is marked in the README"
    parts = found[1].split(PROMPT)[1:]
    return [
        (command, shown) for command, _, shown in (p.partition("\n") for p in parts)
    ]


def _one_line(text: str) -> str:
    """Give the text as it is without the folding of a terminal."""
    return " ".join(text.split())


def test_what_the_first_page_shows_is_what_the_program_says(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOGBOOK_STATE", str(tmp_path / "state"))
    (tmp_path / "design").mkdir()
    shop = Shop(tmp_path / "design", capsys)
    for part in ("base", "crossbar"):
        (shop.folder / f"{part}.dxf").write_text(f"999\n{part}\n", "utf-8")
    assert shop.logbook("start", "--yes").code == 0
    exchanges = _exchanges()
    assert len(exchanges) > 1
    for command, shown in exchanges:
        answering(monkeypatch, *ANSWER.findall(shown))
        said = shop.logbook(*shlex.split(command))
        assert said.code == 0, said.err
        pieces = _one_line(ANSWER.sub("]", shown)).split(CUT)
        order = ".*?".join(re.escape(piece.strip()) for piece in pieces)
        assert re.search(order, _one_line(said.out)), said.out
