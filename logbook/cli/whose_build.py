"""In whose build and shop one works here, which may be a clone of somebody else's.

The first entry in such a clone says whose build it goes under.
"""

from __future__ import annotations

import argparse
import shlex

from logbook.project import Project
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.store.git.whose import logged_by_another, works_here


def whose_words(project: Project, draft: Draft, args: argparse.Namespace) -> str:
    """Say that a draft goes under a build of somebody else; else nothing.

    A build that was named is meant; so is one after the first time it was said.
    """
    if getattr(args, "build", "") or project.logged_here:
        return ""
    builds = [one.build for one in draft.new if isinstance(one, Entry) and one.build]
    known = [one.name for one in builds if project.snapshot.find(one, Build)]
    if not known or not logged_by_another(project.repository, project.folder):
        return ""
    own = f"build {len(project.snapshot.all(Build)) + 1}"
    return (
        f"this goes under {known[0]}, which was logged in another clone; to begin your "
        f"own: logbook undo, then logbook build {shlex.quote(own)}"
    )


def builder_here(project: Project) -> str:
    """Give in whose shop one works: that of the build at hand, else who works here."""
    build = project.at_hand
    if build is None:
        return works_here(project.repository)[0]
    if not project.logged_here and logged_by_another(
        project.repository, project.folder
    ):
        return works_here(project.repository)[0]
    return build.builder
