"""What came of a failure, put into words."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.drafted import cause_words, conditions_text
from logbook.advice.faults.trying import FAILED, is_unmade
from logbook.advice.faults.verdicts import Outcome
from logbook.advice.ground.advice import Advice
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result


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
        yield cause_words(cause)
    else:
        yield "no cause is on record"
    if under := conditions_text(failure.conditions):
        yield f"under {under}"
    yield f"cure: {found.cure}" if found.cure else "no cure is on record"
    if found.cure:
        yield _lasting(found)
    yield from filter(None, (found.but, found.before))
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
        nobody = "nobody has said since that it holds"
        return "it did not hold" if found.but else nobody
    made = [p for p in found.sound if p.revision == found.revision.ref]
    if made:
        return f"{found.revision.title} was made, nobody has said yet that it holds"
    if found.tried.endswith(FAILED):
        return f"untried: no piece made of {found.revision.title} has held"
    if is_unmade(found.tried):
        return f"untried: no piece of {found.revision.title} is on record"
    return f"{found.revision.title}: {found.tried}"


def _missing(found: Outcome) -> Iterator[str]:
    if found.failure.cause is None:
        yield "the cause"
    if not found.cure:
        yield "the cure"
    elif not found.held:
        yield "that it is still good, and after how many hours"


def _assumed(found: Outcome) -> tuple[str, ...]:
    if found.differs and (len(found.failed) < 2 or len(found.sound) < 2):
        return ("so few pieces prove nothing: what differs is where to look first",)
    return ()
