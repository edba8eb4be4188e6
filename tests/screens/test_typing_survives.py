"""A line being typed is on disk, however the program comes to its end."""

from __future__ import annotations

import signal
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from logbook.project import Project
from logbook.store.typed.drafts import drafts
from tests.screens.in_a_pty import Pty, in_a_pty
from tests.screens.on_disk import lines_kept

LINE = "crossbar filed by another two tenths, edges broken"


@pytest.fixture
def at(shop: Path, own_state: Path) -> Iterator[Pty]:
    with in_a_pty(shop, own_state) as made:
        yield made


ENDS: dict[str, Callable[[Pty], None]] = {
    "the terminal is closed": lambda at: at.close(),
    "SIGTERM": lambda at: at.send(signal.SIGTERM),
    "SIGHUP": lambda at: at.send(signal.SIGHUP),
    "Ctrl-Q": lambda at: at.press("\x11"),
}


@pytest.mark.parametrize("way", ENDS)
def test_the_line_is_kept_when(way: str, at: Pty, shop: Path, own_state: Path) -> None:
    at.press(LINE)
    at.shows(LINE)
    ENDS[way](at)
    at.ended()
    assert lines_kept(shop) == [LINE]
    with in_a_pty(shop, own_state) as again:
        again.shows(f"say › │ {LINE}")


def test_a_terminal_gone_without_a_word_ends_the_program_and_leaves_the_line(
    shop: Path, own_state: Path
) -> None:
    with in_a_pty(shop, own_state, told=False) as at:
        at.press(LINE)
        at.shows(LINE)
        at.take_in_nothing()
        at.close()
        assert at.ended() == 128 + signal.SIGHUP
        assert lines_kept(shop) == [LINE]
        assert drafts(shop)[0].for_what == "bench line"  # nobody holds it any more
        with in_a_pty(shop, own_state) as again:
            again.shows(f"say › │ {LINE}")


def test_a_signal_is_heard_where_the_terminal_takes_nothing_any_more(
    at: Pty, shop: Path
) -> None:
    at.press(LINE)
    at.shows(LINE)
    at.take_in_nothing()
    at.send(signal.SIGTERM)
    assert at.ended() == 128 + signal.SIGTERM
    assert drafts(shop)[0].for_what == "bench line"


@pytest.mark.parametrize(
    ("number", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)]
)
def test_a_signal_gives_its_own_code_and_the_terminal_back(
    number: int, code: int, at: Pty
) -> None:
    at.send(number)
    assert at.ended() == code
    if number == signal.SIGTERM:
        assert "\x1b[?1049l" in at.written


def test_a_line_typed_on_and_on_is_on_disk_while_it_is_typed(
    at: Pty, shop: Path
) -> None:
    typed, seen = "", set[str]()
    while len(seen) < 3:
        assert len(typed) < 2000, "nothing came to the disk while keys came"
        typed += "abcdefghij klmno"[len(typed) % 16]
        at.press(typed[-1])
        at.shows(typed[-40:])
        seen |= {*lines_kept(shop)}
    at.send(signal.SIGKILL)
    at.ended()
    [left] = lines_kept(shop)
    assert typed.startswith(left)
    assert len(left) >= max(map(len, seen))


def test_a_line_that_was_taken_is_on_disk_and_in_git_when_the_bench_is_left_at_once(
    at: Pty, shop: Path
) -> None:
    at.press("sanded the bed\r\x11")
    assert at.ended() == 0
    notes = [title for title in _titles(shop).split("\n") if "sanded" in title]
    assert notes == ["sanded the bed"]
    assert lines_kept(shop) == []
    assert _git(shop, "status", "--porcelain", "--", "as-built") == ""


def test_what_was_taken_back_is_out_of_git_when_the_bench_is_left_at_once(
    at: Pty, shop: Path
) -> None:
    at.press("sanded the bed\r")
    at.until(lambda: "sanded" in _git(shop, "log", "--format=%s"))
    at.press("\x1b[19~")
    at.until(lambda: "sanded" not in _titles(shop))
    at.press("\x11")
    assert at.ended() == 0
    assert _git(shop, "status", "--porcelain", "--", "as-built") == ""
    assert _git(shop, "log", "-1", "--format=%s").startswith("undo: ")


def test_what_git_cannot_take_is_said_in_the_shell(at: Pty, shop: Path) -> None:
    (shop / ".git/MERGE_HEAD").write_text(_git(shop, "rev-parse", "HEAD") + "\n")
    at.press("sanded the bed\r\x11")
    assert at.ended() == 0
    assert "3 not in git yet: logbook commit" in at.written


def _git(shop: Path, *words: str) -> str:
    command = ["git", "-C", str(shop), *words]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    return done.stdout.strip()


def _titles(shop: Path) -> str:
    return "\n".join(record.title for record in Project.open(shop).snapshot)
