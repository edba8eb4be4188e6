"""Draw the pictures of the README: the copy stand's screens, as SVG.

    .venv/bin/python sample_project/pictures.py          # draw them anew
    .venv/bin/python sample_project/pictures.py --check  # say which are stale

The demo is replayed into a new folder and looked at on one fixed day, with record
ids in a fixed order, so that the same screens give the same pictures.
"""

from __future__ import annotations

import argparse
import asyncio
import html
import itertools
import os
import re
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path
from unittest.mock import patch

HERE = Path(__file__).parent
PICTURES = HERE / "pictures"
SIZE = (100, 30)
ZONE = "CET-1CEST,M3.5.0,M10.5.0/3"


class Day(datetime):
    """The day the pictures are looked at: the last of the story."""

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> datetime:  # type: ignore[override]
        """Give the same instant always."""
        return datetime(2026, 4, 12, 9, 0, tzinfo=tz)


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture: its name and the keys from the bench that lead to it."""

    name: str
    keys: tuple[str, ...] = ()


DRAWN = (
    Picture("bench", tuple("filed the crossbar down to 178.3")),
    Picture("measuring", ("f3", *"base", "enter", *"178.6")),
    Picture("gaps", ("ctrl+b",)),
    Picture("part", ("ctrl+p", *"diffuser", "enter")),
)


def drawings() -> dict[str, str]:
    """Replay the demo and give each picture by its name."""
    with tempfile.TemporaryDirectory() as elsewhere, _fixed(Path(elsewhere)):
        stand = Path(elsewhere) / "copy-stand"
        stand.mkdir()
        _replay(stand)
        with patch("logbook.screens.ruled.moments.datetime", Day):
            return {one.name: asyncio.run(_drawn(stand, one)) for one in DRAWN}


@contextmanager
def _fixed(elsewhere: Path) -> Iterator[None]:
    """Keep settings, time zone, chance and the terminal out of the pictures."""
    settings = {"LOGBOOK_STATE": str(elsewhere / "state"), "TZ": ZONE}
    settings |= {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
    try:
        with patch.dict(os.environ, settings):
            os.environ.pop("NO_COLOR", None)
            time.tzset()
            yield
    finally:
        time.tzset()


def _replay(stand: Path) -> None:
    from logbook.cli.demo import replay

    story = tomllib.loads((HERE / "story.toml").read_text("utf-8"))
    numbers = itertools.count(1)

    def in_order(length: int) -> bytes:
        return next(numbers).to_bytes(length, "big")

    with patch("logbook.records.kinds.ids.os.urandom", in_order):
        replay(stand, story["act"])


async def _drawn(stand: Path, picture: Picture) -> str:
    """Open the screen, press the keys, and give what is seen."""
    from logbook.screens.app import LogbookApp

    app = LogbookApp(stand)
    async with app.run_test(size=SIZE) as pilot:

        async def settle() -> None:
            for _ in range(4):
                await pilot.pause()
                await app.workers.wait_for_complete()

        await settle()
        for key in picture.keys:
            await pilot.press(_KEYS.get(key, key))
            if len(key) > 1:
                await settle()
        await settle()
        return bare(app.export_screenshot(title="logbook"))


_KEYS = {" ": "space", ".": "full_stop"}


def bare(svg: str) -> str:
    """Take the fonts from the web out of a picture, and trailing blanks."""
    svg = re.sub(r"@font-face\s*\{[^}]*\}\s*", "", svg)
    svg = svg.replace("font-family: Fira Code,", "font-family:")
    return "\n".join(line.rstrip() for line in svg.splitlines()) + "\n"


def words(svg: str) -> str:
    """Give the words of a picture, row by row: what it says, not how it is drawn."""
    text = re.sub(r"<style.*?</style>", "", svg, flags=re.DOTALL)
    found = re.findall(r"<text[^>]*>([^<]*)</text>", text)
    return "\n".join(html.unescape(one).replace("\xa0", " ").rstrip() for one in found)


def stale(made: dict[str, str]) -> list[str]:
    """Name the pictures that do not say what the screens say now."""
    return [
        name
        for name, svg in made.items()
        if not (place := PICTURES / f"{name}.svg").exists()
        or words(place.read_text("utf-8")) != words(svg)
    ]


def main() -> int:
    """Draw the pictures, or check them."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--check", action="store_true", help="write nothing")
    args = parser.parse_args()
    made = drawings()
    old = stale(made)
    if args.check:
        print(f"stale: {', '.join(old)}" if old else "all pictures are up to date")
        return 1 if old else 0
    PICTURES.mkdir(exist_ok=True)
    for name, svg in made.items():
        (PICTURES / f"{name}.svg").write_text(svg, "utf-8")
    print(f"drawn: {', '.join(made)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
