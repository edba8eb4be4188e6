"""What rebuilders ask is told once at the bench and stands where they look for it.

One row a question; its line is typed once, at most one answer follows, and nothing
is typed a second time before the pages are written.
"""

from __future__ import annotations

import io
import json
import re
import subprocess
import tomllib
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

import pytest

from logbook.cli import main

TABLE = tomllib.loads((Path(__file__).parent / "rebuilders.toml").read_text("utf-8"))
THREADS: list[dict[str, Any]] = TABLE["thread"]
PUBLISHED = Path("as-built") / "published"


def told(folder: Path, verb: str, *words: str) -> str:
    """Run one verb; give what it printed."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        code = main([verb, "--in", str(folder), *words])
    assert code == 0, (verb, *words, err.getvalue())
    return out.getvalue()


def logged(folder: Path, at: int, thread: dict[str, Any]) -> list[dict[str, Any]]:
    """Type the line of a row and give its one answer; give the records made."""
    when = f"2026-03-{7 + at // 6:02d}T{8 + at % 6:02d}"
    for minute, line in enumerate(thread.get("before", ())):
        told(folder, "say", "--yes", "--later", "--when", f"{when}:0{minute}", line)
    blame = ["--met-by", thread["met_by"]] if "met_by" in thread else []
    options = ["--json", "--later", "--when", f"{when}:30"]
    said = told(folder, "say", "--yes", *options, *blame, thread["says"])
    made: list[dict[str, Any]] = json.loads(said)["records"]
    if "answer" in thread:
        words = thread["offered"]
        every = json.loads(told(folder, "offered", "--json"))["offered"]
        [mark] = [one["id"] for one in every if _in(words, one, made)]
        took = told(folder, "offered", *options, "take", mark, thread["answer"])
        made += json.loads(took)["records"]
    for line in thread.get("more", ()):
        told(folder, "say", "--yes", "--later", "--when", f"{when}:40", line)
    return made


def _in(words: str, one: dict[str, Any], made: list[dict[str, Any]]) -> bool:
    """Tell whether an offer says these words and comes from what was just logged."""
    new = {record["id"] for record in made}
    ids = {ref.rpartition(" ")[2] for ref in one["inputs"]}
    return words in one["asks"] and (bool(new & ids) or one["topic"] == "gap")


@pytest.fixture(scope="module")
def stand(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Any]]:
    """Everything logged and published: the kinds of record by row, and the pages."""
    folder = tmp_path_factory.mktemp("stand")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("LOGBOOK_STATE", str(tmp_path_factory.mktemp("state")))
        for words in (
            ("init", "-q", "-b", "main"),
            ("config", "user.name", "Test Builder"),
            ("config", "user.email", "test@invalid"),
        ):
            subprocess.run(["git", *words], cwd=folder, check=True)
        told(folder, "start", "--name", "Copy stand", "--unit", "mm", "--yes")
        for verb, *words in TABLE["setup"]:
            options = ["--later", "--when", "2026-02-28T09:00"]
            told(folder, verb, *words, *options)
        told(folder, "release", "1.0", "--when", "2026-03-01T09:00")
        told(folder, "build", "build 1", "--later", "--when", "2026-03-02T09:00")
        made = [
            [record["kind"] for record in logged(folder, at, thread)]
            for at, thread in enumerate(THREADS)
        ]
        told(folder, "release", "1.1", "--anyway")
        told(folder, "guide", "1.1")
        told(folder, "errata", "1.0")
        told(folder, "notes")
        yield {
            "made": made,
            "joints": told(folder, "joints"),
            "guide": (folder / PUBLISHED / "1.1" / "guide.md").read_text("utf-8"),
            "errata": (folder / PUBLISHED / "1.0" / "errata.md").read_text("utf-8"),
            "notes": (folder / PUBLISHED / "builder-notes.md").read_text("utf-8"),
            "problems": json.loads(told(folder, "check", "--json"))["problems"],
        }


def test_three_of_each_of_the_fourteen_kinds_are_here() -> None:
    kinds = [thread["kind"] for thread in THREADS]
    assert sorted(kind[0] for kind in kinds) == sorted("ABCDEFGHIJKLMN" * 3)


@pytest.mark.parametrize("at", range(len(THREADS)), ids=lambda at: THREADS[at]["says"])
def test_what_was_told_once_stands_where_a_rebuilder_reads(
    stand: dict[str, Any], at: int
) -> None:
    thread = THREADS[at]
    missing = [kind for kind in thread["made"] if kind not in stand["made"][at]]
    assert missing == [], f"made {stand['made'][at]}"
    lines = stand[thread["page"]].replace("\\", "").splitlines()
    found = [line for line in lines if re.search(thread["found"], line)]
    assert found, f"not on the {thread['page']}: {thread['found']}"


def test_whatever_was_told_is_read_again_without_a_problem(
    stand: dict[str, Any],
) -> None:
    assert stand["problems"] == []
