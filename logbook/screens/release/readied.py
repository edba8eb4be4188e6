"""A release before it goes out: what is frozen, what hinders it, which pages it needs.

All of it reads files and asks git, so it is done in a thread, and can be stopped.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from time import sleep

from logbook.errors import Refused
from logbook.project import Project
from logbook.publish.faults.carried import unchanged, warned
from logbook.publish.guide.control import shapes_of
from logbook.publish.guide.unanswered import unanswered
from logbook.publish.page_files import Press, differing, paper_on_disk
from logbook.publish.release.frozen import (
    Hindered,
    check_label,
    chosen_revisions,
    freeze,
    hindrances,
)
from logbook.publish.release.tagging import set_tag, untagged
from logbook.publish.release.trials import tried_words, was_made
from logbook.publish.release.whose_design import whose_design
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.long_work import LongWork
from logbook.screens.desk.news import Job

LOOK_AGAIN_S = 0.05
FIRST = "1.0"
"""The label of a first release, if no other is typed."""


@dataclass(frozen=True, slots=True)
class Readied:
    """What a release would be now; `goes_out` says of each revision how it stands."""

    release: Release
    hindered: Hindered
    warnings: tuple[str, ...]
    unchanged: tuple[str, ...]
    tried: str
    goes_out: tuple[tuple[Revision, str], ...]
    waiting: bool = False
    """Whether it is saved already and only its tag is missing."""
    whose: str = ""
    """Whose design it is, where another person released it so far."""
    asked: tuple[str, ...] = ()
    """What builders will ask of it that nobody has said."""


@dataclass(frozen=True, slots=True)
class Pages:
    """The pages there are, by name, each with the files of it that are out of date."""

    files: Mapping[str, Mapping[str, bytes]]

    @property
    def behind(self) -> tuple[str, ...]:
        """The names of those that say otherwise than the records."""
        return tuple(name for name, files in self.files.items() if files)


def next_label(snapshot: Snapshot) -> str:
    """Give the label after the newest release's, counted on in its last figure."""
    releases = sorted(snapshot.all(Release), key=lambda one: (one.when, one.id))
    if not releases:
        return FIRST
    found = re.fullmatch(r"(.*?)(\d+)", releases[-1].label)
    return f"{found[1]}{int(found[2]) + 1}" if found else ""


def readied(desk: Desk, label: str) -> Readied:
    """Work out what a release of this label would be, as it is now.

    Raises:
        BadInput: the label is taken, or is none.
        Stopped: it was stopped.
    """
    project = desk.project
    snapshot, check = project.snapshot, check_label(label)
    with desk.works.doing(LongWork(f"looking what release {check} would be")) as work:
        waits = untagged(snapshot, project.root, project.repository, label)
        revisions = chosen_revisions(snapshot)
        work.check()
        found = hindrances(
            snapshot, project.root, project.repository, revisions, desk.here
        )
        work.check()
        made = waits or freeze(snapshot, project.root, label, revisions, desk.now())
        work.check()
        whose = whose_design(snapshot, project.root, project.repository)
        shapes = shapes_of(snapshot, project.root, project.repository, made)
        return Readied(
            made,
            found,
            (*filter(None, (whose,)), *warned(snapshot, made), *found.unfiled),
            tuple(unchanged(snapshot, made)),
            tried_words(snapshot, made),
            tuple((one, _standing(snapshot, one)) for one in revisions),
            waiting=waits is not None,
            whose=whose,
            asked=tuple(unanswered(snapshot, made, shapes)),
        )


def _standing(snapshot: Snapshot, revision: Revision) -> str:
    """Say in a word whether a revision was made by anybody; a trial piece too."""
    part = snapshot.find(revision.part, Part)
    if part is not None and part.source is Source.BOUGHT:
        return "bought"
    return "made" if was_made(snapshot, revision) else "untried"


def release_job(desk: Desk, ready: Readied) -> Job:
    """Make the work that saves a release; its tag is set once git has it."""

    def make(project: Project) -> Draft:
        draft = project.draft(desk.now())
        head = project.repository.head() or ""
        draft.add(replace(ready.release, commit=head))
        return draft

    return Job(f"release {ready.release.label}", make)


def tag_it(desk: Desk, release: Release) -> str:
    """Set the tag of a release that is saved, once git has its file; say so.

    Raises:
        Refused: git cannot take it now; the release is saved, and waits for its tag.
    """
    project = desk.project
    with desk.works.doing(LongWork(f"tagging release {release.label}")) as work:
        _given_to_git(desk, work)
        if not project.taken(project.snapshot.path(release)):
            raise Refused(
                f"release {release.label} is saved but not tagged, git has not taken "
                "it yet; accepted: the same again, later"
            )
        set_tag(project.snapshot, project.repository, release)
    return f"tag {release.tag}"


def _given_to_git(desk: Desk, work: LongWork) -> None:
    """Wait until git was asked for all that waits, by whichever thread is at it."""
    desk.git.commit_now()
    while not desk.git.at_rest:
        work.check()
        sleep(LOOK_AGAIN_S)


# -- pages -----------------------------------------------------------------------


def pages_of(desk: Desk) -> Pages:
    """Work out every page, and what of each differs from what is on disk.

    Raises:
        Stopped: it was stopped.
    """
    project = desk.project
    press = Press(
        project.snapshot,
        project.root,
        project.repository,
        project.own_templates,
        paper_on_disk(project.root),
    )
    done: list[str] = []
    work = LongWork("working out the pages", lambda: f"{len(done)} so far")
    with desk.works.doing(work):
        return Pages(dict(_each(press, done, work)))


def _each(
    press: Press, done: list[str], work: LongWork
) -> Iterator[tuple[str, Mapping[str, bytes]]]:
    for name, files in press.every_page():
        work.check()
        done.append(name)
        yield name, differing(press.root, files)


def write_pages(desk: Desk, pages: Pages) -> tuple[str, ...]:
    """Write those that are out of date as one act; give the names.

    Raises:
        LogbookError: the disk refused.
    """
    files = {path: data for one in pages.files.values() for path, data in one.items()}
    if files:
        with desk.door:
            subject = f"pages: {', '.join(pages.behind)}"
            desk.project.write_files(files, subject, desk.now())
    return pages.behind
