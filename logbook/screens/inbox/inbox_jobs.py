"""What an item of the inbox becomes: a picture of an entry, a note, a failure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from logbook.errors import ChangedMeanwhile
from logbook.project import Project
from logbook.records.design import Part
from logbook.records.happenings import Entry
from logbook.records.making import Draft
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.store.inbox import Item
from logbook.store.sorted_items import remember
from logbook.store.sorting import as_failure, as_note, linked

Made = tuple[Entry, dict[str, bytes]]
"""The entry an item became, or was put to, and the files that come with it."""


def link_job(desk: Desk, item: Item, words: str, identity: str) -> Job:
    """Put an item to the entry with this id, with these words as its caption."""
    titles: list[str] = []

    def make(draft: Draft, root: Path) -> Made:
        stored = draft.snapshot.stored.get(identity)
        if stored is None or not isinstance(stored.record, Entry):
            raise ChangedMeanwhile("the entry it was to go to was taken away")
        titles[:] = [stored.record.title]
        return stored.record, linked(draft, item, stored.record, words, root)

    said = lambda: f"{item.name} is at “{titles[0]}”"  # noqa: E731
    return replace(_sort_job(desk, item, f"link {item.name}", make), said=said)


def note_job(desk: Desk, item: Item, words: str, part: str = "") -> Job:
    """Make a note of an item, about the part with this id if one is named."""

    def make(draft: Draft, root: Path) -> Made:
        stored = draft.snapshot.stored.get(part)
        owner = stored.record if stored else None
        of = owner if isinstance(owner, Part) else None
        return as_note(draft, item, words, root, of)

    return _sort_job(desk, item, f"note from {item.name}", make)


def failure_job(desk: Desk, item: Item, words: str) -> Job:
    """Make a failure of an item."""

    def make(draft: Draft, root: Path) -> Made:
        return as_failure(draft, item, words, root)

    return _sort_job(desk, item, f"failure from {item.name}", make)


def _sort_job(
    desk: Desk, item: Item, subject: str, make: Callable[[Draft, Path], Made]
) -> Job:
    """Write what an item becomes; it is remembered once that is on disk."""
    files: dict[str, bytes] = {}
    became: list[str] = []
    root, now, build = desk.project.root, desk.now(), desk.build

    def drafted(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        entry, found = make(draft, root)
        files.clear()
        files.update(found)
        became[:] = [entry.id]
        return draft

    def after() -> None:
        saved = desk.project.snapshot.stored[became[0]].sha256
        remember(root, item.identity, became[0], saved)

    return Job(subject, drafted, files=files, after=after)
