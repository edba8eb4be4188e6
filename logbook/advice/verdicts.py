"""Failures end in a verdict: the cause, the cure, how long it has held since.

Beside it stands what pieces that failed and pieces that did not have and have
not in common: machine, stock, file, settings, revision.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from logbook.advice.advice import Advice
from logbook.advice.drafted import conditions_text, cured_by
from logbook.advice.failing import but
from logbook.advice.material import material_of
from logbook.advice.trying import FAILED, NOBODY, cure_words
from logbook.quantity import Quantity
from logbook.records.design import Part, Revision
from logbook.records.happenings import Failure, Reading, Run, Status
from logbook.records.ids import Ref
from logbook.records.pieces import piece_state, pieces_of
from logbook.records.references import part_of
from logbook.records.snapshot import Snapshot
from logbook.records.words import CauseStatus, Grade, State
from logbook.records.workshop import Machine, Piece, Stock
from logbook.shop.answers import Result

_GONE = {State.SCRAPPED, State.ORDERED, State.SENT_OUT}


@dataclass(frozen=True, slots=True)
class Outcome:
    """A failure with what came of it.

    `held` names pieces of the cure that were said to be still good, each with
    how long; `checked` the readings taken on them since; `differs` what all that
    failed have and none of the others, with what those have; `but` what stands
    against the cure itself, `tried` whether its revision was tried.
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

    @property
    def open(self) -> bool:
        """Whether nobody said what caused it, or nothing is known that cures it."""
        return self.failure.cause is None or not self.cure


def outcome(snapshot: Snapshot, failure: Failure) -> Outcome:
    """Give what came of a failure."""
    part = part_of(snapshot, failure)
    revision = cured_by(snapshot, failure)
    pieces = pieces_of(snapshot, part) if part else ()
    failed = tuple(p for p in pieces if _failed(snapshot, p, failure))
    sound = tuple(
        piece
        for piece in pieces
        if piece not in failed and piece_state(snapshot, piece) not in _GONE
    )
    since = [piece for piece in sound if piece.when >= failure.when]
    if revision is not None:
        cured = [p for p in sound if snapshot.find(p.revision) is revision]
        since = cured or since
    mended = [p for p in failed if piece_state(snapshot, p) is State.REWORKED]
    return Outcome(
        failure,
        part,
        failure.cure or (revision.changed if revision else ""),
        revision,
        tuple(_held(snapshot, (*since, *mended), failure)),
        tuple(_checked(snapshot, (*since, *mended), failure)),
        failed,
        sound,
        differences(
            [facts_of(snapshot, piece) for piece in failed],
            [facts_of(snapshot, piece) for piece in sound],
        ),
        but(snapshot, revision),
        cure_words(snapshot, revision, (failure,)) if revision else "",
    )


def _failed(snapshot: Snapshot, piece: Piece, like: Failure) -> bool:
    """Tell whether a piece has this failure, or one that names the same cure."""
    for record in snapshot.mentions(piece):
        if isinstance(record, Failure) and snapshot.find(record.piece) is piece:
            same = like.cured_by is not None and record.cured_by == like.cured_by
            if record is like or same or _alike(record.title, like.title):
                return True
    return False


def _alike(one: str, other: str) -> bool:
    return one.casefold().split() == other.casefold().split()


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


# -- what differs ----------------------------------------------------------------


def facts_of(snapshot: Snapshot, piece: Piece) -> dict[str, str]:
    """Give what a piece was made of, from and on, by the name of each fact."""
    part = part_of(snapshot, piece)
    revision = snapshot.find(piece.revision, Revision)
    machine = snapshot.find(piece.machine, Machine)
    stock = snapshot.find(piece.stock, Stock)
    known = {
        "revision": revision.title if revision else "",
        "machine": machine.title if machine else "",
        "stock": stock.title if stock else "",
        "lot": stock.lot if stock else "",
        "material": material_of(snapshot, part, piece) if part else "",
        "file": piece.file.sha256[:12] if piece.file else "",
        "place": piece.place,
    }
    known |= {f"setting {name}": value for name, value in piece.settings.items()}
    return {name: value for name, value in known.items() if value}


def differences(
    failed: Sequence[Mapping[str, str]], sound: Sequence[Mapping[str, str]]
) -> tuple[tuple[str, str, str], ...]:
    """Give facts all that failed share and no sound one has: name, theirs, the rest."""
    if not failed or not sound:
        return ()
    found = []
    for name, value in failed[0].items():
        others = {facts.get(name, "") for facts in sound}
        if all(facts.get(name) == value for facts in failed) and value not in others:
            rest = ", ".join(sorted(other or "not said" for other in others))
            found.append((name, value, rest))
    return tuple(found)


# -- what is said of it ----------------------------------------------------------


def told(found: Outcome) -> Advice:
    """Say what came of a failure, as one piece of advice."""
    failure = found.failure
    refs: list[Ref] = [failure.ref]
    refs += [piece.ref for piece in (*found.failed, *found.sound)]
    refs += [status.ref for _, status in found.held]
    refs += [run.ref for run, _ in found.checked]
    refs += [found.revision.ref] if found.revision else []
    return Advice(
        key=f"verdict {failure.id}",
        topic="verdicts",
        grade=Grade.REMARK,
        about=failure.ref,
        statement=f"{failure.title}: {'; '.join(_words(found))}",
        numbers=(
            Result("failed", len(found.failed), "", 0, "pieces that failed so"),
            Result("sound", len(found.sound), "", 0, "pieces of it that did not"),
        ),
        inputs=tuple(dict.fromkeys(refs)),
        formula="shared by all that failed and by none that did not; no proof",
        assumed=_assumed(found),
        changes=tuple(_missing(found)) or ("another piece that fails, or does not",),
    )


def _words(found: Outcome) -> Iterator[str]:
    failure, cause = found.failure, found.failure.cause
    if cause is not None:
        sure = "proven" if cause.status is CauseStatus.PROVEN else "guessed"
        yield f"cause {sure}: {cause.said}"
    else:
        yield "no cause is on record"
    if under := conditions_text(failure.conditions):
        yield f"under {under}"
    yield f"cure: {found.cure}" if found.cure else "no cure is on record"
    if found.cure:
        yield _lasting(found)
    if found.but:
        yield found.but
    whole = len(found.failed) + len(found.sound)
    if len(found.failed) > 1 or found.differs:
        yield f"{len(found.failed)} failed of {whole} pieces that are there or failed"
    for name, theirs, rest in found.differs:
        yield f"{name}: {theirs} in what failed, {rest} in what did not"


def _lasting(found: Outcome) -> str:
    """Say how long the cure has held, by what was said and what was read since."""
    said = []
    for piece, status in found.held[-2:]:
        after = f" after {status.after}" if status.after else ""
        said.append(f"{piece.title} still good{after} ({status.when:%Y-%m-%d})")
    for run, reading in found.checked[-2:]:
        value = f"{reading.what.name} {reading.value} after {reading.after}"
        said.append(f"{value} ({run.when:%Y-%m-%d})")
    if said:
        return f"since then {', '.join(said)}"
    if found.revision is None:
        return "nobody has said since that it holds"
    made = [p for p in found.sound if p.revision == found.revision.ref]
    if made:
        return f"{found.revision.title} was made, nobody has said yet that it holds"
    if found.tried.endswith(FAILED):
        return f"untried: no piece made of {found.revision.title} has held"
    if found.tried.endswith(NOBODY):
        return f"untried: no piece of {found.revision.title} is on record"
    return f"{found.revision.title}: {found.tried}"


def _missing(found: Outcome) -> Iterator[str]:
    if found.failure.cause is None:
        yield "the cause, guessed or proven"
    if not found.cure:
        yield "the cure"
    elif not found.held:
        yield "that it is still good, and after how many hours"


def _assumed(found: Outcome) -> tuple[str, ...]:
    if found.differs and (len(found.failed) < 2 or len(found.sound) < 2):
        return ("so few pieces prove nothing: what differs is where to look first",)
    return ()
