"""Sorting one item of the inbox: what it becomes, drafted, with its cleaned photo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from logbook.errors import BadInput
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry, Failure, Note
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.written.text import clean_title
from logbook.store.disk.flushed import reason
from logbook.store.photos.cleaned import take_in
from logbook.store.photos.inbox import Item, read_text
from logbook.store.photos.linking import link_photo


def linked(
    draft: Draft, item: Item, entry: Entry, words: str, root: Path
) -> dict[str, bytes]:
    """Link an item to an entry: a photo with a caption, a text to its prose.

    Gives the files to save below `root`.

    Raises:
        BadInput: the file cannot be taken in; the sentence says why.
    """
    if item.is_photo:
        return _with_photo(draft, item, entry, words, root)
    said = "\n\n".join(part for part in (words, read_text(item)) if part)
    prose = f"{entry.prose}\n\n{said}".strip()
    draft.amend(replace(entry, prose=prose))
    return {}


@dataclass(frozen=True, slots=True)
class Words:
    """What was typed with an item; `when` is the day it tells, if it tells one."""

    said: str
    when: datetime | None = None


def as_note(
    draft: Draft, item: Item, words: Words, root: Path, part: Part | None = None
) -> tuple[Entry, dict[str, bytes]]:
    """Make an item a note, of a part if one is named, at the item's own time."""
    return _as(Note, draft, item, words, root, part)


def as_failure(
    draft: Draft, item: Item, words: Words, root: Path, part: Part | None = None
) -> tuple[Entry, dict[str, bytes]]:
    """Make an item a failure at its own time; whose fault it is stays open."""
    return _as(Failure, draft, item, words, root, part)


def _as(
    kind: type[Note | Failure],
    draft: Draft,
    item: Item,
    words: Words,
    root: Path,
    part: Part | None,
) -> tuple[Entry, dict[str, bytes]]:
    title, prose = _said(item, words.said)
    entry = draft.add(
        kind(
            id=new_id(), title=title, prose=prose, when=words.when or _when(item),
            build=draft.build().ref, part=part.ref if part else None,
        )
    )  # fmt: skip
    return entry, _with_photo(draft, item, entry, "", root) if item.is_photo else {}


def with_item(
    draft: Draft, item: Item, entry: Entry, root: Path, when: datetime | None = None
) -> dict[str, bytes]:
    """Put an item to an entry that is being drafted, which then is of its time.

    Where its words told `when` it was, it is of that.
    Gives the files to save below `root`.

    Raises:
        BadInput: the file cannot be taken in; the sentence says why.
    """
    entry = draft.amend(replace(entry, when=when or _when(item)))
    return linked(draft, item, entry, "", root)


def _with_photo(
    draft: Draft, item: Item, entry: Entry, caption: str, root: Path
) -> dict[str, bytes]:
    try:
        raw = item.place.read_bytes()
    except OSError as error:
        raise BadInput(
            f"{item.name} cannot be read: {reason(error)}; accepted: a photo that is "
            "still there"
        ) from None
    return link_photo(draft, entry, take_in(raw, item.name), caption, root)


def _said(item: Item, words: str) -> tuple[str, str]:
    """Give title and prose: the words typed, else the text's first line."""
    if item.is_photo:
        return words or f"photo of {item.when:%d %b %Y %H:%M}", ""
    text = read_text(item)
    first = words or item.words or item.name
    rest = text if words or clean_title(first) != first else text.partition("\n")[2]
    return first, rest.strip()


def _when(item: Item) -> datetime:
    return item.when.replace(microsecond=0)


EARLIER_COUNTS = 3
"""An entry before a photo is as near as one so many times as long behind it: mostly
the photo is taken first, and then the line is typed. Common practice, no source."""


def nearest(entries: Sequence[Entry], item: Item) -> Entry | None:
    """Give the entry an item most likely belongs to, by when it happened."""

    def far(entry: Entry) -> timedelta:
        behind = entry.when - item.when
        return behind if behind >= timedelta() else -behind * EARLIER_COUNTS

    return min(entries, key=far, default=None)
