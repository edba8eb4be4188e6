"""The clock on a step that ends with what a verb saves; loaded only where one may."""

from __future__ import annotations

import sys
from datetime import datetime
from typing import TYPE_CHECKING

from logbook.errors import LogbookError
from logbook.project import Project
from logbook.records.kinds.happenings import StepDone, Work
from logbook.records.making.drafts import Draft

if TYPE_CHECKING:
    from logbook.screens.desk.clock_ending import Ended


def clock_ending(project: Project, draft: Draft, now: datetime) -> Ended | None:
    """Give the clock that ends with the steps done or the time in a draft, if any."""
    if not draft.made(StepDone) and not draft.made(Work):
        return None
    from logbook.cli.shell_clock import ending

    return ending(project, draft, now)


def clock_ended(project: Project, at: datetime, by: Ended) -> None:
    """Take the clock away; what is refused there is told, what was saved stands."""
    from logbook.cli.shell_clock import ended

    try:
        ended(project, at, by)
    except LogbookError as refusal:
        print(f"careful: {refusal}", file=sys.stderr)
