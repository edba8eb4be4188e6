"""A size that a run made by a slip: its readings go to the one that was meant, or away.

Only a size that no drawing gives and nothing but readings names is one; a drawn size
is taken away by a revision.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from logbook.errors import Refused
from logbook.project import Project
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.making.amends import as_by_now
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import characteristics_of, dimension
from logbook.records.sizes.expected import expected_of
from logbook.records.together.references import refers
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.ruled.asking import Question
from logbook.screens.run.slots import Slot

AWAY = "away"
"""The answer that it is no size at all."""
LETTERS = "abcdefg"
"""What chooses the size that was meant; numbers are typed in a run."""


@dataclass(frozen=True, slots=True)
class Stray:
    """A size that came by a slip, its readings, and those that may have been meant."""

    item: Characteristic
    readings: tuple[Reading, ...]
    others: tuple[Characteristic, ...]

    @property
    def question(self) -> Question:
        """Ask what was meant."""
        count = len(self.readings)
        read = f"was read {count} time{'s' * (count != 1)}" if count else "was not read"
        words = f"“{self.item.title}” is drawn nowhere and {read}: what is it?"
        keys = {
            letter: (other.title, other.id)
            for letter, other in zip(LETTERS, self.others, strict=False)
        }
        gone = "no size: its readings go too" if count else "no size: it goes"
        return Question(words, {**keys, "x": (gone, AWAY)}, "it stays as it is")


def stray_at(snapshot: Snapshot, slot: Slot) -> Stray:
    """Give the stray size a run stands at.

    Raises:
        Refused: it is drawn, or something that stays names it.
    """
    item = slot.drawn.characteristic if slot.drawn else None
    if item is None or item.id not in snapshot:
        raise Refused(f"“{slot.what}” is not on record")
    if slot.drawn is not None and (slot.drawn.nominal or slot.drawn.has_limits):
        raise Refused(f"“{slot.what}” is drawn; a revision of the part takes it away")
    for other in snapshot.mentions(item):
        if not isinstance(other, Run):
            raise Refused(f"“{slot.what}” stays: “{other.title}” names it")
    readings = _readings(snapshot, item)
    return Stray(item, readings, tuple(_others(snapshot, item, readings)))


def _readings(snapshot: Snapshot, item: Characteristic) -> tuple[Reading, ...]:
    runs = snapshot.mentions(item, Run)
    every = (one for run in runs for one in run.readings)
    return tuple(one for one in every if refers(snapshot, one.what, item))


def _others(
    snapshot: Snapshot, item: Characteristic, readings: Sequence[Reading]
) -> list[Characteristic]:
    """Give the sizes of the part that can have such readings, alike names first."""
    part = snapshot.find(item.part, Part)
    kinds = {getattr(one.value, "dimension", "") for one in readings} - {""}
    found = []
    for other in characteristics_of(snapshot, part) if part else ():
        known = expected_of(snapshot, dimension(snapshot, None, other))
        if other is not item and (known is None or {known.size.dimension} >= kinds):
            found.append(other)
    words = {*item.title.casefold().split()}
    found.sort(key=lambda one: not words & {*one.title.casefold().split()})
    return found[: len(LETTERS)]


def stray_job(desk: Desk, stray: Stray, meant: str) -> Job:
    """Make the work that gives the readings to the size meant, or takes them away."""
    now, build = desk.now(), desk.build

    def make(project: Project) -> Draft:
        snapshot = project.snapshot
        item = as_by_now(snapshot, stray.item)
        to = snapshot.by_id(meant, Characteristic)
        draft = Draft(snapshot, now, build)
        for run in snapshot.mentions(item, Run):
            _without(draft, run, item, to)
        draft.drop(item)
        return draft

    found = desk.snapshot.by_id(meant)
    said = f"“{stray.item.title}” is no size any more"
    said += f"; its readings are of “{found.title}”" if found else ""
    return Job(f"no size of its own: {stray.item.title}", make, said=said)


def _without(
    draft: Draft, run: Run, item: Characteristic, to: Characteristic | None
) -> None:
    """Draft a run whose readings of a size are of another one, or gone."""
    kept = []
    for one in run.readings:
        if not refers(draft.snapshot, one.what, item):
            kept.append(one)
        elif to is not None:
            kept.append(replace(one, what=to.ref))
    if kept or draft.snapshot.mentions(run):
        draft.amend(replace(run, readings=tuple(kept)))
    else:
        draft.drop(run)
