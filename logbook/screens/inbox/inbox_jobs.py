"""What an item of the inbox becomes: a picture of an entry, a note, a failure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from logbook.errors import ChangedMeanwhile
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.when.dated import day_apart
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry, Failure
from logbook.records.making.drafts import Draft
from logbook.screens.bench.saying import Saying, understood
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.store.photos.inbox import Item
from logbook.store.photos.sorted_items import remember
from logbook.store.photos.sorting import Words, as_failure, as_note, linked, with_item

Made = tuple[Entry, dict[str, bytes]]
"""The entry an item became, or was put to, and the files that come with it."""


def link_job(desk: Desk, item: Item, words: str, identity: str) -> Job:
    """Put an item to the entry with this id, with these words as its caption."""
    titles: list[str] = []

    def make(draft: Draft, root: Path) -> Made:
        entry = draft.snapshot.by_id(identity, Entry)
        if entry is None:
            raise ChangedMeanwhile("the entry it was to go to was taken away")
        titles[:] = [entry.title]
        return entry, linked(draft, item, entry, words, root)

    said = lambda: f"{item.name} is at “{titles[0]}”"  # noqa: E731
    return replace(_sort_job(desk, item, f"link {item.name}", make), said=said)


def note_job(desk: Desk, item: Item, words: str, part: str = "") -> Job:
    """Make a note of an item, about the part with this id if one is named."""
    said = _told(desk, words)

    def make(draft: Draft, root: Path) -> Made:
        of = draft.snapshot.by_id(part, Part)
        return as_note(draft, item, said, root, of)

    return _sort_job(desk, item, f"note from {item.name}", make)


def _told(desk: Desk, words: str) -> Words:
    """Give words typed with an item, and the day that they tell."""
    dated = day_apart(words, desk.words)
    return Words(words, dated.moment.at if dated else None)


def told_failure(desk: Desk, words: str) -> Saying | None:
    """Give the failure that words of one's own tell in full; None where they do not."""
    now = desk.now()
    line = understood(words, desk.words, now, desk.snapshot)
    if line.kind is not Kind.FAILURE or line.verdict is not Verdict.TAKEN:
        return None
    return Saying(line, desk.words, desk.build, now)


def failure_job(desk: Desk, item: Item, words: str, told: Saying | None = None) -> Job:
    """Make a failure of an item, with the facts that its words have `told`."""
    subject = f"failure from {item.name}"
    if told is None:
        said = _told(desk, words)
        titled = lambda draft, root: as_failure(draft, item, said, root)  # noqa: E731
        return _sort_job(desk, item, subject, titled)

    def make(draft: Draft, root: Path) -> Made:
        [failure] = draft.made(Failure)
        when = told.line.facts.when if "when" in told.line.words else None
        return failure, with_item(draft, item, failure, root, when)

    return _sort_job(desk, item, subject, make, told.drafted)


def _sort_job(
    desk: Desk,
    item: Item,
    subject: str,
    make: Callable[[Draft, Path], Made],
    begin: Callable[[Project], Draft] | None = None,
) -> Job:
    """Write what an item becomes; it is remembered once that is on disk.

    `begin` gives the draft it comes into, where that is not a new one.
    """
    files: dict[str, bytes] = {}
    became: list[str] = []
    root, now, build = desk.project.root, desk.now(), desk.build

    def drafted(project: Project) -> Draft:
        draft = begin(project) if begin else Draft(project.snapshot, now, build)
        entry, found = make(draft, root)
        files.clear()
        files.update(found)
        became[:] = [entry.id]
        return draft

    def after() -> None:
        saved = desk.project.snapshot.stored[became[0]].sha256
        remember(root, item.identity, became[0], saved)

    return Job(subject, drafted, files=files, after=after)
