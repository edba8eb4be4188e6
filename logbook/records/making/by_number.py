"""A known fault called by its number on the page of a release: fault 2 of release 1.0.

The number is that of one page only: in another release, and in a later edition, another
fault may have it. Whoever names one so is told which page is meant, and its title.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from logbook.records.kinds.made_public import Release
from logbook.records.making.not_met import Known

_FAULT = (
    r"(?:known\s+)?(?:fault|erratum)\s+(?:no\.?\s*|number\s+|#\s*)?(?P<number>\d{1,3})"
    r"(?:\s+(?:of|in|on)\s+(?:the\s+page\s+of\s+)?(?:the\s+)?(?:release\s+)?"
    r"(?P<release>v?\d[\w.+-]*))?"
)
CALLED = re.compile(rf"(?i)\b{_FAULT}\b")
"""A fault by its number, with the release of the page where that was said."""


@dataclass(frozen=True, slots=True)
class FaultsOfPage:
    """The known faults of a release, in the order in which its page numbers them."""

    release: Release
    faults: tuple[Known, ...]

    def numbered(self, number: int) -> Known | None:
        """Give the fault with this number; None where the page has none."""
        return self.faults[number - 1] if 0 < number <= len(self.faults) else None

    def called(self, number: int) -> str:
        """Name a fault by its number, with the page and its title; or say so: none."""
        fault = self.numbered(number)
        if fault is None:
            many = f"{len(self.faults)} known fault{'s' * (len(self.faults) != 1)}"
            return f"the page of {self.release.title} has {many}, and no fault {number}"
        return f"fault {number} of {self.release.title}: {fault.title}"


Page = Callable[[str], FaultsOfPage | None]
"""Gives the page of the release of a label; without one that of the build at hand."""

NO_PAGE = (
    "the build at hand is made by no release, so no page is meant; accepted: fault 2 "
    "of release 1.0, or the fault's name as its page has it"
)
