"""Several designs in one repository, each in a folder of its own with its logbook."""

from __future__ import annotations

from pathlib import Path

from tests.cli.shop import Said, Shop


class Designs:
    """A repository with a stand and a lamp box side by side; both are invented."""

    def __init__(self, shop: Shop) -> None:
        self.shop, self.top = shop, shop.folder
        self.git = shop.git
        for name in ("stand", "lamp box"):
            (self.top / name).mkdir()
            assert self.run(name, "start", "--name", name, "--unit", "mm").code == 0

    def folder(self, design: str) -> Path:
        return self.top / design

    def run(self, design: str, *words: str) -> Said:
        """Run a verb in the folder of a design; `.` is the top of the repository."""
        self.shop.folder = self.top / design
        said = self.shop.logbook(*words)
        self.shop.folder = self.top
        return said

    def done(self, design: str, *words: str) -> str:
        """Run a verb that succeeds; give what it printed."""
        said = self.run(design, *words)
        assert said.code == 0, said.out + said.err
        return said.out
