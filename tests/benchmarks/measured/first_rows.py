"""The program itself; it ends when the first row of a record is drawn.

python -m tests.benchmarks.measured.first_rows PROJECT
"""

from __future__ import annotations

import asyncio
import os
import sys
from pathlib import Path

from textual.strip import Strip

from logbook.screens.app import LogbookApp
from logbook.screens.ruled.newest import READING, Newest

drawn = Newest.render_line


def render_line(rows: Newest, y: int) -> Strip:
    strip = drawn(rows, y)
    if strip.text.strip() and READING not in strip.text:
        os._exit(0)
    return strip


async def main() -> None:
    Newest.render_line = render_line  # type: ignore[assignment,method-assign]
    async with LogbookApp(Path(sys.argv[1])).run_test(size=(80, 24)):
        await asyncio.sleep(60)


if __name__ == "__main__":
    asyncio.run(main())
    sys.exit("no row was drawn")
