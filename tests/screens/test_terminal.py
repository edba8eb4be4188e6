"""The program in a real terminal: started from a shell, typed at, and left."""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import new_id
from tests.needs import needs

PATIENCE_S = 120.0
"""A machine that builds and tests at once can be very slow; nothing waits so long."""

HOUSE = Path(__file__).parents[2]
HOSTILE = "bed \x1b[31mred\x1b]0;title\x07 [bold]not bold[/] $HOME"


class Terminal:
    """A terminal of its own, with a shell in it, on a server of its own."""

    def __init__(self, socket: Path, folder: Path, state: Path) -> None:
        self._socket = socket
        shell = f"PS1='shell> ' LOGBOOK_STATE={shlex.quote(str(state))} sh"
        self._tmux(
            "new-session", "-d", "-x", "80", "-y", "24", "-c", str(folder), shell
        )

    def _tmux(self, *words: str) -> str:
        command = ["tmux", "-f", os.devnull, "-S", str(self._socket), *words]
        env = {**os.environ, "LC_ALL": "C.UTF-8", "PYTHONPATH": str(HOUSE)}
        env.pop("TMUX", None)
        done = subprocess.run(
            command, check=True, capture_output=True, text=True, env=env, timeout=60
        )
        return done.stdout

    def type(self, text: str) -> None:
        self._tmux("send-keys", "-l", text)

    def press(self, *keys: str) -> None:
        self._tmux("send-keys", *keys)

    @property
    def seen(self) -> str:
        return self._tmux("capture-pane", "-p")

    @property
    def title(self) -> str:
        return self._tmux("display-message", "-p", "#{pane_title}").strip()

    def until(self, holds: Callable[[str], bool]) -> str:
        """Look until what is to be seen is there."""
        end = time.monotonic() + PATIENCE_S
        while not holds(seen := self.seen):
            assert time.monotonic() < end, f"not seen in time:\n{seen}"
            time.sleep(0.05)
        return seen

    def shows(self, *words: str) -> str:
        return self.until(lambda seen: all(word in seen for word in words))

    def close(self) -> None:
        self._tmux("kill-server")


@pytest.fixture
def terminal(shop: Path, tmp_path: Path, own_state: Path) -> Iterator[Terminal]:
    made = Terminal(tmp_path / "t", shop, own_state)
    made.shows("shell>")
    yield made
    made.close()


def rows(seen: str, words: str) -> list[str]:
    """Give the rows of the list of entries that have these words."""
    return [row for row in seen.splitlines() if "│" in row and words in row]


@needs("tmux")
def test_a_line_is_logged_found_by_its_number_and_taken_back(
    terminal: Terminal, shop: Path
) -> None:
    terminal.type(f"{shlex.quote(sys.executable)} -m logbook; echo left with $?")
    terminal.press("Enter")
    terminal.shows("build 1", "base opening 178.6 should be 180", "all in git")

    terminal.type("base opening 178.62")
    terminal.shows("say › │ base opening 178.62", "measured · part base")
    terminal.press("Enter")
    terminal.shows("what happened", "on disk │ base opening 178.62")

    terminal.press("F2")
    terminal.shows("find ›")
    terminal.type("178,620")
    found = terminal.until(
        lambda seen: "178,620" in seen and len(rows(seen, "measuring run")) == 1
    )
    assert not rows(found, "deviation")
    terminal.press("Enter")
    terminal.shows("amend ›", "base opening 178.62")
    terminal.press("Escape")
    terminal.shows("find ›")
    terminal.press("Escape")
    terminal.shows("say ›")

    terminal.press("F8")
    terminal.until(lambda seen: "taken back" in seen and "on disk" not in seen)
    terminal.press("C-q")
    terminal.shows("left with 0")
    runs = [r for r in Project.open(shop).snapshot if "178.62" in str(r)]
    assert runs == []


@needs("tmux")
def test_words_from_a_strange_record_do_nothing_to_the_terminal(
    terminal: Terminal, shop: Path
) -> None:
    project = Project.open(shop)
    [first] = [r for r in project.snapshot if r.title == "build 1"]
    draft = project.draft(first.when)
    title = "noted at the bed"
    draft.add(Note(id=new_id(), title=title, prose=HOSTILE, when=first.when))
    project.save(draft, "noted", first.when)
    terminal.type(f"{shlex.quote(sys.executable)} -m logbook; echo left with $?")
    terminal.press("Enter")
    terminal.shows("noted at the bed", "say ›")
    terminal.press("F2")
    terminal.shows("find ›")
    terminal.type("bold]not")
    # The one that has these words alone: before they are read the list has all.
    terminal.until(
        lambda seen: (
            bool(rows(seen, "noted at the bed")) and not rows(seen, "base opening")
        )
    )
    terminal.press("Enter")
    terminal.shows("[bold]not bold[/] $HOME")
    assert terminal.title != "title"
    terminal.press("C-q")
    terminal.shows("left with 0")
