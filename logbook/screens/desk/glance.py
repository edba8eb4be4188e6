"""What the bench shows at a glance, worked out from a snapshot.

Everything here may take its time on a large project: it is called in a worker,
and the screen only shows what came of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from logbook.advice.advisor import Told
from logbook.advice.ground.advice import Advice
from logbook.advice.pieces import again
from logbook.advice.steps.looking_again import look_words, to_look_at
from logbook.advice.steps.passing import WaitSort, sort_of
from logbook.advice.stops import rejected
from logbook.errors import Problem
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.ordered import Joined
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.last_value import LastValue
from logbook.screens.desk.of_build import is_in

NONE_BARE = "no part is without one"
"""What is said where every part has an entry in the build."""


@dataclass(frozen=True, slots=True)
class Wait:
    """Something not to do yet: `hold` is what an override names, and why it waits.

    `sort` tells which reasons to go past it fit.
    """

    hold: str
    words: str
    step: Ref | None = None
    sort: WaitSort = WaitSort.HOLD

    @property
    def short(self) -> str:
        """What waits and for what; the gap it is for is not named in front."""
        head, _, rest = self.words.partition(": ")
        led = head == self.hold or head.startswith(f"{self.hold}, ")
        return rest if rest and led and self.sort is WaitSort.GAP else self.words


@dataclass(frozen=True, slots=True)
class Glance:
    """Everything the first screen says besides the entries.

    `read` tells that the records were looked at: before that nothing is known.
    `rejected` is named by the advice, as `waits` is: what is off its drawing. So is
    what is `unseen`: closed over, gone past, and to be looked at still. So is
    what is `amiss`: records that contradict each other; `unread` is what is wrong in
    the files themselves.
    """

    read: bool = False
    build: Build | None = None
    builds: Sequence[Build] = ()
    title: str = ""
    where: str = ""
    where_when: str = ""
    waits: tuple[Wait, ...] = ()
    unseen: tuple[str, ...] = ()
    faults: tuple[Ref, ...] = ()
    rejected: tuple[Ref, ...] = ()
    bare: tuple[str, ...] = ()
    unread: int = 0
    first_unread: str = ""
    amiss: int = 0
    first_amiss: str = ""
    last: LastValue | None = None

    @property
    def open_ones(self) -> Sequence[Ref]:
        """Give what nobody has decided on: what stops a release, and nothing else."""
        return Joined(self.faults, self.rejected)

    @property
    def problems(self) -> int:
        """How many problems `check` counts."""
        return self.unread + self.amiss

    @property
    def first_problem(self) -> str:
        """The problem to mend first: what cannot be read makes most of the others."""
        return self.first_unread or self.first_amiss

    def undecided(self, most: int) -> tuple[str, ...]:
        """Name what nobody has decided on, so many of it at most."""
        return tuple(ref.name for ref in islice(self.open_ones, most))


def first_of(problems: Sequence[Problem]) -> str:
    """Say the problem to mend first: a conflict is what makes most of the others.

    What is wrong comes before the file it is in, since a low screen cuts the end.
    """
    ordered = sorted(problems, key=lambda one: one.found != "a merge conflict")
    for one in ordered[:1]:
        field = f"{one.field}: " if one.field else ""
        where = f"{one.file}:{one.line}" if one.line else one.file
        return f"{field}{one.found}; accepted: {one.accepted} · in {where}"
    return ""


def rejected_of(told: Told) -> tuple[Ref, ...]:
    """Give the pieces off their drawing and undecided, each named by what is so."""
    return tuple(Ref(one.statement, one.about.id) for one in rejected(told.advice))


def unseen_of(told: Told) -> tuple[str, ...]:
    """Say what steps have closed over unseen, and nobody has looked at since."""
    return tuple(look_words(one) for one in to_look_at(told.advice))


def waits_of(
    told: Told, snapshot: Snapshot, build: Build | None = None
) -> tuple[Wait, ...]:
    """Give what waits and what is to be checked first, the strongest first.

    A piece of another build does not wait in this one.
    """
    return tuple(
        Wait(
            one.about.name,
            one.statement if _told_by_itself(one) else f"check: {one.statement}",
            one.step,
            sort_of(one),
        )
        for one in told.open
        if _here(snapshot.find(one.about, Piece), build)
    )


def _told_by_itself(one: Advice) -> bool:
    """Tell whether advice says what is to be done, and not only what to look at."""
    return one.grade is Grade.WAIT or one.topic == again.TOPIC


def _here(piece: Piece | None, build: Build | None) -> bool:
    return piece is None or build is None or is_in(piece, build)
