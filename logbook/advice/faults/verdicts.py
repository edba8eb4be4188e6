"""Failures end in a verdict: the cause, the cure, how long it has held since.

Beside it stands what pieces that failed and pieces that did not have and have
not in common: machine, stock, file, settings, revision.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.faults.apart import differences, facts_of, failed_and_sound
from logbook.advice.faults.came_back import back_words, came_back
from logbook.advice.faults.drafted import cured_by, fault_from
from logbook.advice.faults.failing import but
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.trying import cure_words
from logbook.quantity import Quantity
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Failure, Reading, Run, Status
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import piece_state
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Outcome:
    """A failure with what came of it.

    `held` names pieces of the cure that were said to be still good, each with
    how long; `checked` the readings taken on them since; `differs` what all that
    failed have and none of the others, with what those have; `but` what stands
    against the cure itself, `tried` whether its revision was tried, `before` why an
    earlier one that was to cure it is not the one to take.
    """

    failure: Failure
    part: Part | None
    cure: str
    revision: Revision | None
    held: tuple[tuple[Piece, Status], ...]
    checked: tuple[tuple[Run, Reading], ...]
    failed: tuple[Piece, ...]
    sound: tuple[Piece, ...]
    differs: tuple[tuple[str, str, str], ...]
    but: str = ""
    tried: str = ""
    before: str = ""

    @property
    def open(self) -> bool:
        """Whether nobody said what caused it, or nothing is known that cures it."""
        return self.failure.cause is None or not self.cure


def outcome(snapshot: Snapshot, failure: Failure) -> Outcome:
    """Give what came of a failure."""
    part = part_of(snapshot, failure)
    first = cured_by(snapshot, failure)
    now = fixed(snapshot, fault_from(snapshot, failure)) if first else None
    revision = now.revision if now else None
    failed, sound = failed_and_sound(snapshot, failure)
    since = [piece for piece in sound if piece.when >= failure.when]
    if revision is not None:
        cured = [p for p in sound if snapshot.find(p.revision) is revision]
        since = cured or since
    mended = [p for p in failed if piece_state(snapshot, p) is State.REWORKED]
    return Outcome(
        failure,
        part,
        now.changed if now and revision is not first else failure.cure or _of(first),
        revision,
        tuple(_held(snapshot, (*since, *mended), failure)),
        tuple(_checked(snapshot, (*since, *mended), failure)),
        failed,
        sound,
        differences(
            [facts_of(snapshot, piece) for piece in failed],
            [facts_of(snapshot, piece) for piece in sound],
        ),
        but(snapshot, revision) if revision else _back(snapshot, failure),
        cure_words(snapshot, revision, (failure,)) if revision else "",
        now.before if now else "",
    )


def _back(snapshot: Snapshot, failure: Failure) -> str:
    """Say in which later failure it came back, if it did."""
    again = came_back(snapshot, failure)
    return f"but {back_words(snapshot, failure, again)}" if again else ""


def _of(cure: Revision | None) -> str:
    return cure.changed if cure else ""


def _held(
    snapshot: Snapshot, pieces: Sequence[Piece], failure: Failure
) -> Iterator[tuple[Piece, Status]]:
    for piece in pieces:
        for record in snapshot.mentions(piece):
            if (
                isinstance(record, Status)
                and record.state is State.CONFIRMED
                and record.when > failure.when
                and snapshot.find(record.of) is piece
            ):
                yield piece, record


def _checked(
    snapshot: Snapshot, pieces: Sequence[Piece], failure: Failure
) -> Iterator[tuple[Run, Reading]]:
    """Give the readings since that were taken after a time in use."""
    for piece in pieces:
        for record in snapshot.mentions(piece):
            if isinstance(record, Run) and snapshot.find(record.piece) is piece:
                for reading in record.readings:
                    value = reading.value
                    used = reading.after and isinstance(value, Quantity)
                    if used and reading.at > failure.when:
                        yield record, reading
