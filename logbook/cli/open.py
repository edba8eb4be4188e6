"""`logbook` without a verb: open the screen."""

from __future__ import annotations

import argparse
from pathlib import Path


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("folder", nargs="?", default=".", help="the project's folder")


def run(args: argparse.Namespace) -> int:
    """Open the screen of the nearest project."""
    from logbook.screens.app import LogbookApp

    app = LogbookApp(Path(args.folder))
    app.run()
    return app.return_code or 0
