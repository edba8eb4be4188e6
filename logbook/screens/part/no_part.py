"""What becomes of a part that is none, is another one, or is withdrawn.

What would be lost with it is told before anything is done.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Status
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.words import State
from logbook.records.making.drafts import Draft
from logbook.records.making.no_part import (
    can_stay,
    own_of,
    released,
    said_of,
    take_away,
)
from logbook.records.making.same_part import renumbered, same_part
from logbook.records.together.revisions import is_withdrawn
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.passage import Say

AWAY, STAYS, SAME, WITHDRAWN, AGAIN = "away", "stays", "same", "withdrawn", "again"
GOES = frozenset({AWAY, STAYS})
"""The ways that leave no part of this name."""
_BACK = "F8 brings it back"


class Way(NamedTuple):
    """What was chosen, and why, where that was typed."""

    key: str
    why: str = ""


class NoPart(Choosing):
    """The ways a part can go; the words typed are the reason it is withdrawn for."""

    ASKS = "why, if you like; Enter takes the row"
    MARGIN_WORD = "why ›"
    KEEPS = False
    BROAD = 160

    def __init__(self, desk: Desk, part: Part) -> None:
        """Ask what becomes of this part."""
        super().__init__(desk, f"{part.title}: no part of the design?")
        self._part = part

    def prepare(self) -> None:
        """Look what goes with it, and what was said of it."""
        snapshot = self.desk.snapshot
        self._own = own_of(snapshot, self._part)
        self._said = said_of(snapshot, self._part)
        self._out = released(snapshot, self._part)
        self._can_stay = can_stay(snapshot, self._part)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the ways there are, whatever was typed."""
        del typed
        if is_withdrawn(self.desk.snapshot, self._part):
            return [Line(AGAIN, "again", "it is a part of the design again")]
        rows = []
        if not self._out:
            if not self._said:
                rows.append(Line(AWAY, "no part", "it is none: take it away"))
            elif self._can_stay:
                words = "it is none: take it away, what was said stays"
                rows.append(Line(STAYS, "no part", words))
            words = "it is another part by a second name"
            rows.append(Line(SAME, "same as", words))
        words = "withdraw it: out of lists, still on record"
        return [*rows, Line(WITHDRAWN, "withdrawn", words)]

    def narrow(self, typed: str) -> None:
        """Show the same ways, the arrow where it was: what is typed is the reason."""
        listing = self.query_one(Listing)
        kept = listing.chosen.key if listing.chosen else ""
        listing.show(self.lines(typed), kept)
        self.follow()

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a way takes away, and what was said of the part."""
        found = []
        if line.key in GOES:
            found.append(Say("goes", _named(self._own)))
        if self._said and line.key != AGAIN:
            found.append(Say("said of it", _named(self._said)))
        if line.key == WITHDRAWN:
            words = "guide and next release do without it; what went out names it"
            found.append(Say("then", words))
        if self._out:
            found.append(Say("went out", self._out.partition("; ")[0]))
        return found

    def choose(self, chosen: Line) -> None:
        """Take the way, with the reason that was typed."""
        self.dismiss(Way(chosen.key, self.line_text))

    @property
    def line_text(self) -> str:
        """What was typed as the reason."""
        return self.query_one(EntryLine).value.strip()


def _named(records: Sequence[Record]) -> str:
    return "; ".join(f"{kind_of(one).shown} {one.title}" for one in records)


def way_job(desk: Desk, part: Part, way: Way) -> Job:
    """Make the work that takes a part away, withdraws it, or takes it in again."""
    now, build = desk.now(), desk.build

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        if way.key in GOES:
            take_away(draft, part, stays=way.key == STAYS)
            return draft
        state = State.WITHDRAWN if way.key == WITHDRAWN else State.CONFIRMED
        draft.add(
            Status(
                id=new_id(),
                title=f"{part.title} {state.value}",
                when=draft.when,
                of=part.ref,
                state=state,
                because=way.why,
            )
        )
        return draft

    if way.key in GOES:
        said = f"{part.title} is no part; {_BACK}"
        return Job(f"no part: {part.title}", make, said=said)
    again = f"{part.title} is a part of the design again"
    said = f"{part.title} is withdrawn" if way.key == WITHDRAWN else again
    return Job(f"{way.key}: {part.title}", make, said=said)


def same_job(desk: Desk, part: Part, other: Part) -> Job:
    """Make the work that makes a part one with another."""
    now, build = desk.now(), desk.build
    told: list[str] = []

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        differs = same_part(draft, part, other)
        told[:] = [f"{part.title} is {other.title}"]
        told.extend(f"{was} is now {one.title}" for was, one in renumbered(draft))
        told.extend(f"said differently: {text}" for text in differs)
        return draft

    subject = f"one part: {part.title} is {other.title}"
    return Job(subject, make, said=lambda: "; ".join((*told, _BACK)))
