"""The program at a terminal of its own: a pseudo-terminal that can be closed."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from time import monotonic, sleep

from tests.benchmarks.terminals import COLUMNS, ROWS, Glass

PATIENCE_S = 120.0
"""A machine that builds and tests at once can be very slow; nothing waits so long."""
HOUSE = Path(__file__).parents[2]


class Pty:
    """The program as the leader of a session at a terminal, typed at and looked at.

    Without `told` nobody tells it that its terminal was closed: no signal comes.
    """

    def __init__(self, folder: Path, state: Path, *, told: bool = True) -> None:
        self._hand, end = pty.openpty()
        fcntl.ioctl(end, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        env = {
            **os.environ,
            "TERM": "xterm-256color",
            "LOGBOOK_STATE": str(state),
            "PYTHONPATH": str(HOUSE),
        }
        self.process = subprocess.Popen(
            [sys.executable, "-m", "logbook"],
            cwd=folder,
            env=env,
            stdin=end,
            stdout=end,
            stderr=end,
            start_new_session=True,
            # its own terminal, so that closing that one is told to it
            preexec_fn=_own_terminal if told else None,  # noqa: PLW1509
        )
        os.close(end)
        os.set_blocking(self._hand, False)
        self._open = self._reads = True
        self.glass = Glass()
        self.written = ""

    def look(self) -> None:
        """Take in what the program draws, waiting for it a moment."""
        if not select.select([self._hand], [], [], 0.05)[0]:
            return
        with suppress(OSError):  # the program has gone
            data = os.read(self._hand, 65536)
            self.glass.feed(data)
            self.written += data.decode("utf-8", "replace")

    def until(self, holds: Callable[[], bool]) -> None:
        """Look until it holds."""
        end = monotonic() + PATIENCE_S
        while not holds():
            seen = "\n".join("".join(row) for row in self.glass.rows)
            assert monotonic() < end, f"not in time:\n{seen}"
            self.look()

    def shows(self, words: str) -> None:
        """Look until these words stand there."""
        self.until(lambda: self.glass.shows(words))

    def press(self, keys: str) -> None:
        """Type these keys."""
        os.write(self._hand, keys.encode())

    def close(self) -> None:
        """Close the terminal, as its window is closed."""
        if self._open:
            self._open = False
            os.close(self._hand)

    def send(self, number: int) -> None:
        self.process.send_signal(number)

    def take_in_nothing(self) -> None:
        """Let the program draw until nothing goes through any more, as on a dead line.

        F9 draws all anew, so that the buffers are full soon.
        """
        self._reads = False
        spent, same = self._processor_ticks, 0
        while same < 20:
            with suppress(BlockingIOError):
                self.press("\x1b[20~")
            sleep(0.05)
            before, spent = spent, self._processor_ticks
            same = same + 1 if before == spent else 0

    @property
    def _processor_ticks(self) -> int:
        """Give the processor time the program has used so far."""
        stat = Path(f"/proc/{self.process.pid}/stat").read_text()
        return sum(map(int, stat.rpartition(")")[2].split()[11:13]))

    def ended(self) -> int:
        """Wait until the program has ended, taking in what it writes."""
        if self._open and self._reads:
            self.until(lambda: self.process.poll() is not None)
            self.look()
        return self.process.wait(PATIENCE_S)


def _own_terminal() -> None:
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


@contextmanager
def in_a_pty(
    folder: Path, state: Path, ready: str = "all in git", *, told: bool = True
) -> Iterator[Pty]:
    """Open the program on a project; the line is ready."""
    at = Pty(folder, state, told=told)
    try:
        at.shows(ready)
        at.shows("say ›")
        yield at
    finally:
        with suppress(ProcessLookupError):
            os.killpg(at.process.pid, signal.SIGKILL)
        at.process.wait()
        at.close()
