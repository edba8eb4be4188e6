"""Who reads what a verb prints goes away: the verb does its work all the same."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.cli.shop import Shop
from tests.cli.test_folding import HOUSE


def unread(shop: Shop, *words: str) -> int:
    """Run a verb whose output nobody reads, and each line of it at once."""
    read, write = os.pipe()
    os.close(read)
    env = {**os.environ, "PYTHONPATH": str(HOUSE), "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "logbook", *words]
    try:
        return subprocess.run(
            command, cwd=shop.folder, env=env, stdout=write, stderr=write, check=False
        ).returncode
    finally:
        os.close(write)


@pytest.mark.parametrize(
    "words",
    [
        ("note", "the saw drifts"),
        ("say", "base opening 178.6", "--yes"),
        ("dispose", "base bowed", "scrap"),
    ],
    ids=lambda words: words[0],
)
def test_what_is_told_is_saved_and_committed_though_nobody_reads_the_answer(
    shop: Shop, words: tuple[str, ...]
) -> None:
    shop.asked("failure", "base", "base bowed", "--met-by", "piece")
    before = len(shop.subjects())
    assert unread(shop, *words) == 0
    assert len(shop.subjects()) == before + 1
    assert shop.git("status", "--porcelain") == ""


def test_a_refusal_nobody_reads_keeps_its_exit_code(shop: Shop) -> None:
    assert unread(shop, "dispose", "no such piece", "scrap") != 0


def test_what_a_disposition_answers_is_told_behind_what_was_saved(shop: Shop) -> None:
    shop.asked("failure", "base", "base bowed", "--met-by", "piece")
    said = shop.logbook("dispose", "base bowed", "scrap").out.splitlines()
    assert said.index("  answers: base bowed") > 0
    assert "as-built/disposals/" in said[0]
