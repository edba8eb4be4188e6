"""`logbook` without a verb: open the screen."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from logbook.errors import BadInput


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("folder", nargs="?", default=".", help="the project's folder")


def run(args: argparse.Namespace) -> int:
    """Open the screen of the nearest project.

    Raises:
        BadInput: there is no terminal to draw on or to read keys from.
    """
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise BadInput(
            "the screen is drawn at a terminal, and this is none; accepted: a verb, "
            "see logbook --help"
        )
    from logbook.screens.app import LogbookApp

    app = LogbookApp(Path(args.folder))
    app.run()
    return app.return_code or 0
