"""A known fault as the shell is told which: by its number on a page, with its title."""

from __future__ import annotations

import argparse
import sys
from functools import partial

from logbook.advice.faults.by_number import page_meant
from logbook.errors import NotFound
from logbook.project import Project
from logbook.records.kinds.workshop import Build
from logbook.records.making.by_number import CALLED, NO_PAGE, Page
from logbook.records.making.not_met import Known


def page_at_hand(project: Project, args: argparse.Namespace) -> Page:
    """Give what finds the page a number is read on, by the build named or at hand."""
    return partial(page_meant, project.snapshot, build_meant(project, args))


def build_meant(project: Project, args: argparse.Namespace) -> Build | None:
    """Give the build that is named, else the one at hand; None where there is none."""
    named = getattr(args, "build", "")
    return project.snapshot.lookup(named, Build) if named else project.at_hand


def numbered_fault(
    project: Project, args: argparse.Namespace, words: str
) -> Known | None:
    """Give the known fault that is called by its number, told with page and title.

    None where the words call none so.

    Raises:
        NotFound: no page is meant, or it has no fault of this number.
    """
    said = CALLED.fullmatch(words.strip())
    if said is None:
        return None
    page, number = page_at_hand(project, args)(said["release"] or ""), said["number"]
    if page is None:
        of = said["release"]
        raise NotFound(f"there is no release {of}" if of else f"“{words}”: {NO_PAGE}")
    fault = page.numbered(int(number))
    if fault is None:
        raise NotFound(page.called(int(number)))
    print(page.called(int(number)), file=sys.stderr)
    return fault
