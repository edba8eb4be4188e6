"""A revision on its way to a record: what it changes, why, and what it means.

Screens and command line ask for it in their own ways and draft it here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.errors import BadInput
from logbook.records.kinds.design import Change, DesignFile, Part, Revision
from logbook.records.kinds.happenings import (
    Decision,
    Deviation,
    Entry,
    Failure,
    Question,
)
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Blame
from logbook.records.making.drafts import Draft
from logbook.records.together.references import part_of
from logbook.records.together.revisions import line_to, revisions_of
from logbook.records.together.snapshot import Snapshot

SAME = "same"
"""What is typed for: it fits with what the revision before fits with."""


@dataclass(frozen=True, slots=True)
class Revising:
    """Everything that is said of the next revision of a part."""

    changed: str = ""
    why: str = ""
    because: tuple[Ref, ...] = ()
    changes: tuple[Change, ...] = ()
    files: tuple[DesignFile, ...] = ()
    material: str = ""
    remake: str = ""
    mates: tuple[str, ...] = ()
    label: str = ""
    compensated: str = ""
    joins: tuple[Ref, ...] = ()

    def draft(self, draft: Draft, part: Part) -> Revision:
        """Open the revision in a draft.

        Raises:
            BadInput: it is to fit what the one before does, of which nothing is said.
        """
        mates = tuple(mates_of(draft.revisions(part), self.mates))
        revision = draft.new_revision(
            part,
            self.label,
            changed=self.changed,
            why=self.why,
            because=self.because,
            files=self.files,
        )
        return draft.amend(
            replace(
                revision,
                changes=self.changes,
                material=self.material,
                remake=self.remake,
                mates_with=mates,
                compensated=self.compensated,
                joins=self.joins,
            )
        )


def mates_of(line: Sequence[Revision], said: Iterable[str]) -> Iterator[str]:
    """Give what a revision fits with; “same” stands for what the one before does.

    Raises:
        BadInput: “same”, where nobody has said it of the one before.
    """
    before = line[-1] if line else None
    for one in said:
        if one.casefold().strip() != SAME:
            yield one
        elif before is not None and before.mates_with:
            yield from before.mates_with
        else:
            name = before.title if before else "the first"
            raise BadInput(
                f"“{SAME}”: nobody has said what {name} fits with; accepted: what it "
                "fits, or nothing"
            )


def joined(
    snapshot: Snapshot,
    newest: Revision,
    others: Sequence[Revision],
    changes: Sequence[Change],
    material: str,
) -> None:
    """Hold what the next revision joins to what it says itself.

    Raises:
        BadInput: it has one already, or both change one size or the material, and what
            it is to be is not said.
    """
    had = line_to(snapshot, newest)
    told = {one.characteristic.id for one in changes}
    for other in others:
        if other in had:
            raise BadInput(
                f"--joins: {newest.title} has what {other.title} changed; accepted: a "
                "revision that was opened beside it"
            )
        line = line_to(snapshot, other)
        own, its = (
            [one for one in some if one not in rest]
            for some, rest in ((had, line), (line, had))
        )
        twice = _changed_in(own).keys() & _changed_in(its).keys() - told
        if twice:
            name = _changed_in(its)[min(twice)]
            raise BadInput(
                f"--joins: {newest.title} and {other.title} both change {name}; "
                f"accepted: say what it is to be, --dimension {name}=…"
            )
        named = (any(one.material for one in some) for some in (own, its))
        if all(named) and not material:
            raise BadInput(
                f"--joins: {newest.title} and {other.title} both name a material; "
                "accepted: say which it is to be, --material"
            )


def _changed_in(line: Iterable[Revision]) -> dict[str, str]:
    return {c.characteristic.id: c.characteristic.name for r in line for c in r.changes}


def unanswered(snapshot: Snapshot, part: Part) -> tuple[Entry, ...]:
    """Give what happened to a part and led to no revision yet, newest first."""
    answered = {
        ref.id for revision in revisions_of(snapshot, part) for ref in revision.because
    }
    return tuple(
        entry
        for entry in reversed(snapshot.entries)
        if isinstance(entry, Deviation | Failure | Decision | Question)
        and entry.id not in answered
        and part_of(snapshot, entry) is part
        and not (isinstance(entry, Decision) and entry.opens)
    )


def is_drawings_fault(entry: Entry) -> bool:
    """Tell whether an entry was said to be the drawing's fault."""
    return getattr(entry, "met_by_others", None) is Blame.DRAWING
