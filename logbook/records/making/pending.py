"""New, amended and dropped records that are saved together, on top of a snapshot."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cached_property
from typing import Any, TypeVar

from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import cleaned

R = TypeVar("R", bound=Record)


class Pending:
    """Records not yet saved: new ones in order, changed ones, those to be taken away.

    `remarks` say why some that might be expected are not among them, `warned` of which
    known faults it was said, by their ids, that they touch them.
    """

    def __init__(self, snapshot: Snapshot, now: datetime) -> None:
        """Start on a snapshot; `now` is the instant the fact is about."""
        self.snapshot = snapshot
        self.now = now
        self.new: list[Record] = []
        self.amended: list[Record] = []
        self.dropped: list[Record] = []
        self.remarks: list[str] = []
        self.warned: set[str] = set()

    @cached_property
    def when(self) -> datetime:
        """Give the instant new records carry, to the second.

        Where something was already logged in that second it is a millisecond
        after that: records are ordered by instant, and what was typed later
        must not come earlier.
        """
        second = self.now.replace(microsecond=0)
        last = self.snapshot.last_within(second, second + timedelta(seconds=1))
        return last + timedelta(milliseconds=1) if last else second

    @property
    def records(self) -> tuple[Record, ...]:
        """Give everything to save: amended records first, then new ones in order."""
        return (*self.amended, *self.new)

    def add(self, record: R) -> R:
        """Take a new record in."""
        record = cleaned(record)
        self.new.append(record)
        return record

    def state(self, cls: type[R], title: str, told: Mapping[str, Any]) -> R:
        """Take in what is told of a named record; a known one keeps all the rest."""
        known = self.snapshot.named(title, cls)
        if known:
            return self.amend(replace(known[0], **told))
        return self.add(cls(id=new_id(), title=title, when=self.when, **told))

    def amend(self, record: R) -> R:
        """Take a changed record in, in place of what was drafted of it before."""
        record = cleaned(record)
        for held in (self.new, self.amended):
            for at, other in enumerate(held):
                if other.id == record.id:
                    held[at] = record
                    return record
        self.amended.append(record)
        return record

    def drafted(self, record: R) -> R:
        """Give a record of the snapshot as it is drafted by now."""
        held = (one for one in self.records if one.id == record.id)
        now = next(held, record)
        return now if isinstance(now, type(record)) else record

    def drop(self, record: Record) -> None:
        """Take a record away, which none that stays may name any more."""
        self.dropped.append(record)

    def made(self, cls: type[R]) -> Iterable[R]:
        """Give the new records of a class, in order."""
        return (record for record in self.new if isinstance(record, cls))
