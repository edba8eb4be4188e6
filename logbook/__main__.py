"""`python -m logbook`: the same as the command `logbook`."""

from __future__ import annotations

import sys

from logbook.cli import main

if __name__ == "__main__":
    sys.exit(main())
