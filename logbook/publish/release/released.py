"""A release beside the records as they are now: what still says what was released.

Where a record has been changed since, the text that was released stands instead
of the record's newer facts.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from logbook.advice.faults.applies import faults_in, marks
from logbook.advice.faults.as_done import instruction
from logbook.publish.release.statements import statements
from logbook.publish.shortly import shortly
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release, Statement
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Source
from logbook.records.states.needed import not_needed_in
from logbook.records.states.statements import Form
from logbook.records.together.references import is_of
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Mark:
    """A known fault at the place where the wrong statement is read, told shortly."""

    number: int
    title: str
    do_this: str


class Released:
    """A release, the revisions in it, and its known faults, numbered as listed."""

    def __init__(self, snapshot: Snapshot, release: Release) -> None:
        """Work out which statements still stand as they were released."""
        self.snapshot = snapshot
        self.release = release
        self.revisions = revisions_in(snapshot, release)
        now = statements(snapshot, self.revisions, release.files)
        hashes = {one.id: one.sha256 for one in now}
        self.unchanged = {
            one.id for one in release.statements if hashes.get(one.id) == one.sha256
        }
        self.faults = faults_in(snapshot, release)
        self._marks = marks(snapshot, release)

    def of(self, form: Form) -> tuple[Statement, ...]:
        """Give the statements of one form, in the order they were released in."""
        return tuple(s for s in self.release.statements if s.form == form.value)

    def live(self, statement: Statement) -> Record | None:
        """Give the record of a statement that still says what was released."""
        found = self.snapshot.find(statement.of)
        return found if statement.id in self.unchanged else None

    def marked(self, *identities: str) -> tuple[Mark, ...]:
        """Give the known faults of these statements, each once."""
        numbers = {fault.id: at for at, fault in enumerate(self.faults, 1)}
        wrong = {f.id: f for one in identities for f in self._marks.get(one, ())}
        return tuple(
            Mark(
                numbers[fault.id],
                fault.title,
                shortly(instruction(self.snapshot, fault)),
            )
            for fault in wrong.values()
        )

    @property
    def numbers_marked(self) -> tuple[int, ...]:
        """Give the numbers of the known faults that some statement is marked with."""
        said = {statement.id for statement in self.release.statements}
        seen = {f.id for one in said for f in self._marks.get(one, ())}
        return tuple(n for n, f in enumerate(self.faults, 1) if f.id in seen)

    def revision(self, part: Part) -> Revision | None:
        """Give the revision of a part that was released."""
        return next((r for r in self.revisions if is_of(r.part, part)), None)

    @cached_property
    def needed(self) -> tuple[Part, ...]:
        """Give the parts of the release of which its list has any."""
        dropped = not_needed_in(self.snapshot, self.release)
        return tuple(part for part in self.parts if part.id not in dropped)

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Give the parts of the release: made, then had made, then bought; by name."""
        order = [Source.MADE, Source.SERVICE, Source.BOUGHT]
        found = (self.snapshot.find(r.part, Part) for r in self.revisions)
        return tuple(
            sorted(
                (part for part in found if part),
                key=lambda part: (order.index(part.source), part.title.casefold()),
            )
        )
