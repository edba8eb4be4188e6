"""Plain verbs and the first reading of a project load nothing heavy."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {
    "textual", "rich", "sqlmodel", "sqlalchemy", "pydantic", "git", "numpy", "scipy",
    "PIL", "jinja2", "markdown_it",
}  # fmt: skip


def loaded(*words: str) -> set[str]:
    """Give the heavy packages a verb has loaded, in an interpreter of its own."""
    script = (
        "import sys\nfrom logbook.cli import main\n"
        f"assert main({list(words)!r}) == 0\n"
        "print(*{name.partition('.')[0] for name in sys.modules})"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    return HEAVY & set(done.stdout.splitlines()[-1].split())


@pytest.fixture
def project(tmp_path: Path) -> str:
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    for key, value in (("user.name", "T"), ("user.email", "t@invalid")):
        subprocess.run(["git", "-C", str(tmp_path), "config", key, value], check=True)
    loaded("start", "--in", str(tmp_path), "--json")
    return str(tmp_path)


def test_help_and_the_list_of_sums_load_nothing_heavy() -> None:
    assert loaded("--help") == loaded("sums") == set()


@pytest.mark.parametrize(
    "words",
    [
        ["note", "x", "--later"],
        ["measure", "base", "w", "40.2", "--later"],
        ["say", "base opening 178.6 should be 180", "--yes", "--later"],
        ["check"],
        ["search", "86.42"],
    ],
    ids=lambda words: words[0],
)
def test_a_plain_verb_loads_nothing_heavy(project: str, words: list[str]) -> None:
    assert loaded(*words, "--in", project) == set()


def test_a_committing_verb_loads_git_but_no_screen_and_no_database(
    project: str,
) -> None:
    assert loaded("note", "x", "--in", project) == {"git"}


def test_the_first_letter_of_a_line_reads_no_file() -> None:
    script = (
        "import builtins, io\n"
        "from datetime import UTC, datetime\n"
        "from logbook.screens.app import _load\n"
        "_load()\n"
        "from logbook.plain.lines import understand\n"
        "from logbook.plain.words.vocabulary import Vocabulary\n"
        "def refuse(*words, **more): raise AssertionError(words)\n"
        "io.open = builtins.open = refuse\n"
        "words = Vocabulary(datetime.now(UTC))\n"
        "for line in ('b', 'base opening 178.6 should be 180', 'diffuser cracked'):\n"
        "    print(understand(line, words).kind)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], check=False, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.split()) == 3
