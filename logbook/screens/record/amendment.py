"""One fact of a record being amended, and what others make of it meanwhile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from logbook.advice.changes.still_told import still_told
from logbook.project import Project
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Entry, Note, Run
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.making.amends import amend_draft, as_by_now
from logbook.records.making.drafts import Draft
from logbook.records.making.retracting import Retractable, retract, retracted
from logbook.records.making.same_fact import with_the_same
from logbook.records.making.told_in_one import moved_together
from logbook.records.sizes.places import places_of
from logbook.records.states.amended_values import (
    AmendedSlip,
    said_to_be_so,
    slip_amended,
)
from logbook.records.together.refs_held import refs_in
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.news import Job
from logbook.screens.record.amending import RETRACTED, amended, editable, typed_fact
from logbook.screens.record.untold import untold
from logbook.screens.ruled.margin_words import margin_word


def held(record: Record, key: str) -> Any:
    """Give a fact as its file has it; None where the record has no such fact.

    `key` may name one row of a table: “reading 2” is the third reading.
    """
    every: dict[str, Any] = {"title": record.title, "prose": record.prose}
    every[RETRACTED] = ""
    name, _, row = key.partition(" ")
    found = (every | untold(record) | editable(record)).get(name)
    if row and isinstance(found, list | tuple):
        return found[int(row)] if int(row) < len(found) else None
    return found


def word_of(key: str) -> str:
    """Give the margin word of a fact, whichever row of it is meant."""
    return margin_word(key.partition(" ")[0])


@dataclass
class Amendment:
    """A fact that is opened for amending: what it was, what became of it elsewhere.

    `theirs` is what somebody else has made of it; empty while nobody did. It is `sure`
    where a value that looked like a slip was said to be so.
    """

    key: str
    before: Record
    theirs: str = ""
    sure: bool = False

    def meets(self, record: Record) -> bool:
        """Take a record as it is by now; tell whether just this fact was changed."""
        was, self.before = held(self.before, self.key), record
        if held(record, self.key) == was:
            return False
        self.take_theirs(record)
        return True

    def take_theirs(self, record: Record) -> None:
        """Keep how the fact is by now, so that it is said before it is replaced."""
        now = held(record, self.key)
        self.theirs = (typed_fact(now) if now is not None else "") or "nothing"

    def fresh(self, typed: str, snapshot: Snapshot, now: datetime) -> Record | str:
        """Give the record with the fact as typed, or say why it is not taken."""
        record = self.before
        found = amended(record, self.key, typed, now)
        if isinstance(found, str):
            return found
        if self.key == RETRACTED and isinstance(record, Retractable):
            return retracted(snapshot, record, typed)
        return _names_nothing(snapshot, record, found) or found

    def slip(self, fresh: Record, snapshot: Snapshot) -> AmendedSlip | None:
        """Give the value that looks like a slip by this change, if one does."""
        moved = moved_together(snapshot, self.before, fresh)
        found = slip_amended(
            snapshot, *(moved[0][0] if moved else (self.before, fresh))
        )
        if found is None or moved is None:
            return found
        # What was meant of another size is not known: it was read of this one.
        return replace(found, slip=replace(found.slip, meant=None))

    def job(self, fresh: Record, now: datetime, snapshot: Snapshot) -> Job:
        """Amend on what is there by then, unless just this was changed meanwhile."""
        before = self.before
        if isinstance(before, Retractable) and isinstance(fresh, Note):
            return _retracting(before, fresh, now)
        moved = moved_together(snapshot, before, fresh)
        changed = moved[0] if moved else with_the_same(snapshot, before, fresh)
        first, *others = said_to_be_so(changed, self.sure)
        fresh = first[1]
        also = "".join(f"; with it: {after.title}" for _, after in others)
        also += "".join(_made_for_it(moved[1])) if moved else ""

        def draft(project: Project) -> Draft:
            made = project.draft(now)
            for was, after in (first, *others):
                amend_draft(made, was, after)
            if moved:
                _take_along(made, moved[1])
            return made

        return Job(
            f"amend: {fresh.title}",
            draft,
            said="".join(
                (
                    f"amended: {fresh.title}{also}{self._old_in_title(fresh)}",
                    *_new_places(snapshot, before, fresh),
                    *(f"; {one}" for one in still_told(snapshot, before, fresh)),
                )
            ),
        )

    def build(self, fresh: Record, snapshot: Snapshot) -> Build | None:
        """Give the build an entry comes to by this change; None where it is another."""
        if self.key != "build" or not isinstance(fresh, Entry):
            return None
        return snapshot.find(fresh.build, Build)

    def _old_in_title(self, fresh: Record) -> str:
        """Say that the title still has the value that was amended, if it has."""
        if fresh.title != self.before.title:
            return ""
        old = typed_fact(held(self.before, self.key)).partition(" ")[0]
        words = fresh.title.replace(",", " ").split()
        return f"; its title still has “{old}”" if old in words else ""


def _names_nothing(snapshot: Snapshot, before: Record, after: Record) -> str:
    """Say which record the change would name that is not there."""
    old = set(refs_in(before))
    for ref in refs_in(after):
        if ref not in old and snapshot.find(ref) is None:
            return f"“{ref}” is no record here; accepted: a name, or an id"
    return ""


def _retracting(before: Retractable, note: Note, now: datetime) -> Job:
    """Make the work that leaves only a note of an entry, and what it alone had made."""

    def draft(project: Project) -> Draft:
        made = project.draft(now)
        retract(made, as_by_now(made.snapshot, before), note)
        return made

    said = f"retracted: {note.title}; it is a note now, in no list of faults"
    return Job(f"amend: retracted {note.title}", draft, said=said)


def _made_for_it(beside: Draft) -> Iterator[str]:
    """Say what is made and taken away where an entry goes to another part."""
    for one in beside.new:
        yield f"; new: {one.title}"
    for one in beside.dropped:
        yield f"; gone with it: {one.title}, of which nothing else is on record"


def _take_along(draft: Draft, beside: Draft) -> None:
    """Take what is made, changed and taken away beside into the draft of a change."""
    for one in beside.new:
        draft.add(one)
    for one in beside.amended:
        draft.amend(one)
    for one in beside.dropped:
        draft.drop(one)


def _new_places(snapshot: Snapshot, before: Record, after: Record) -> Iterator[str]:
    """Say which place of a run was in no use before, beside those that are."""
    if not isinstance(before, Run) or not isinstance(after, Run):
        return
    for old, new in zip(before.readings, after.readings, strict=False):
        item = snapshot.find(new.what, Characteristic)
        used = places_of(snapshot, item) if item else ()
        others = ", ".join(place for place in used if place and place != old.place)
        if new.place and new.place not in used and others:
            yield f"; “{new.place}” is a new place, beside {others}"
