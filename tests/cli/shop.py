"""A workshop to test in: a real repository, and the verbs run in this process."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from logbook.cli import main


@dataclass
class Said:
    """What a verb answered: exit code and the two streams."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


class Shop:
    """A repository with a logbook in it."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self._capsys = capsys
        self.git("init", "-q", "-b", "main")
        self.git("config", "user.name", "Test Builder")
        self.git("config", "user.email", "test@invalid")

    def as_made(self, once: Path, make: Callable[[Shop], object]) -> Shop:
        """Give this empty shop as it is made: once for each worker, then copied."""
        if once.exists():
            shutil.copytree(once, self.folder, symlinks=True, dirs_exist_ok=True)
        else:
            make(self)
            shutil.copytree(self.folder, once, symlinks=True)
        return self

    def git(self, *words: str) -> str:
        done = subprocess.run(
            ["git", "-C", str(self.folder), *words],
            check=True,
            capture_output=True,
            text=True,
        )
        return done.stdout.strip()

    def git_bytes(self, *words: str) -> str:
        """Give what git prints with each byte as one character."""
        done = subprocess.run(
            ["git", "-C", str(self.folder), *words], check=True, capture_output=True
        )
        return done.stdout.decode("latin-1")

    def logbook(self, *words: str) -> Said:
        """Run a verb here; what it prints comes back."""
        self._capsys.readouterr()
        code = main([words[0], "--in", str(self.folder), *words[1:]])
        heard = self._capsys.readouterr()
        return Said(code, heard.out, heard.err)

    def asked(self, *words: str) -> Any:
        """Run a verb with --json and give what it answered."""
        said = self.logbook(words[0], "--json", *words[1:])
        assert said.code == 0, said.out + said.err
        return said.json

    def subjects(self) -> list[str]:
        """Give the subjects of the branch, newest first."""
        return self.git("log", "--format=%s").splitlines()

    def records(self, kind: str) -> list[Path]:
        return sorted((self.folder / "as-built" / kind).rglob("*.md"))
