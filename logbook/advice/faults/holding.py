"""What somebody who holds a revision, files, or a build has to know of known faults.

Files are known by their hash. The same file can belong to several revisions: a
fault applies surely where all of them have it, and is not known where some do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from logbook.advice.faults.applies import (
    NOT_AFFECTED,
    NOT_KNOWN,
    has_it,
    may_have,
    standing,
)
from logbook.advice.faults.as_done import instruction
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.making_again import again_words
from logbook.advice.faults.stopping import not_until, stops
from logbook.advice.faults.trying import entries_of
from logbook.advice.gaps.came_out import suits
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.same_content import same_content
from logbook.records.kinds.design import Characteristic, DesignFile, Revision
from logbook.records.kinds.happenings import Deviation, TakenIn
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Grade, State
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import piece_state
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot

_GONE = frozenset({State.SCRAPPED, State.LOST, State.TAKEN_OUT})


@dataclass(frozen=True, slots=True)
class Held:
    """A thing somebody holds: it is one of these revisions; `because` says how so.

    `piece` is the one that is on record, where it is more than drawings.
    """

    revisions: tuple[Revision, ...]
    because: str
    piece: Piece | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """How a held thing stands to a fault: applies, not known, or fixed in it."""

    fault: Erratum
    held: Held
    words: str

    @property
    def applies(self) -> bool:
        """Whether it surely has the fault."""
        return has_it(self.words)

    @property
    def unsure(self) -> bool:
        """Whether nobody said, or what is held cannot be told."""
        return self.words.startswith(NOT_KNOWN)


# -- what is held ----------------------------------------------------------------


def held_by_build(snapshot: Snapshot, build: Build) -> tuple[Held, ...]:
    """Give what a build is made from: its pieces, else the release it follows."""
    found = []
    parts = set()
    for piece in snapshot.all(Piece):
        revision = snapshot.find(piece.revision, Revision)
        mine = snapshot.find(piece.build) is build
        if revision and mine and piece_state(snapshot, piece) not in _GONE:
            found.append(Held((revision,), piece.title, piece))
            parts.add(revision.part.id)
    release = snapshot.find(build.release, Release)
    if release is not None:
        rest = revisions_in(snapshot, release)
        why = f"the {{}} of release {release.label}"
        found += [
            Held((one,), why.format(one.part.name))
            for one in rest
            if one.part.id not in parts
        ]
    return tuple(found)


def held_by_files(
    snapshot: Snapshot, files: Mapping[str, DesignFile]
) -> tuple[tuple[Held, ...], tuple[str, ...]]:
    """Give which revisions these files belong to, and those that belong to none."""
    found, unknown = [], []
    for path, file in files.items():
        revisions = _revisions_of(snapshot, file)
        if revisions:
            found.append(Held(revisions, path))
        else:
            unknown.append(path)
    return tuple(found), tuple(unknown)


def _revisions_of(snapshot: Snapshot, file: DesignFile) -> tuple[Revision, ...]:
    """Give the revisions a content belongs to: those that were drawn so.

    Where none was, those as which a release froze it, changed since they were drawn.
    """
    every = snapshot.all(Revision)
    drawn = tuple(
        one for one in every if any(same_content(known, file) for known in one.files)
    )
    if drawn:
        return drawn
    frozen = [
        (revisions_in(snapshot, release), known.path)
        for release in snapshot.all(Release)
        for known in release.files
        if same_content(known, file)
    ]
    return tuple(
        one
        for one in every
        if any(
            one in held and path in {known.path for known in one.files}
            for held, path in frozen
        )
    )


# -- how it stands ---------------------------------------------------------------


def standings(
    snapshot: Snapshot, held: Iterable[Held], build: Build | None = None
) -> tuple[Standing, ...]:
    """Give the faults that these things have, may have, or are cured of.

    What a rebuilder has taken in for the build is left out.
    """
    done = {
        ref.id
        for entry in snapshot.all(TakenIn)
        if build is not None and snapshot.find(entry.build) is build
        for ref in entry.errata
    }
    things = tuple(held)
    found = []
    for fault in known_faults(snapshot):
        if fault.status in DROPPED or fault.id in done:
            continue
        for thing in things:
            words = _words(snapshot, fault, thing.revisions)
            if may_have(words) and _suits(snapshot, fault, thing.piece):
                words = SUITS
            if words != NOT_AFFECTED:
                found.append(Standing(fault, thing, words))
    return tuple(found)


SUITS = f"{NOT_AFFECTED}: it was made to suit, and its gap is within"
"""Of a piece of a faulty drawing that was not made to it, as the readings show."""


def _suits(snapshot: Snapshot, fault: Erratum, piece: Piece | None) -> bool:
    """Tell whether all a fault is about was made to suit in a piece, and does."""
    entries = entries_of(snapshot, fault) if piece is not None else ()
    return bool(entries) and all(
        piece is not None
        and isinstance(entry, Deviation)
        and (item := snapshot.find(entry.characteristic, Characteristic)) is not None
        and suits(snapshot, piece, item) == ""
        for entry in entries
    )


def _words(snapshot: Snapshot, fault: Erratum, revisions: Sequence[Revision]) -> str:
    said = [standing(snapshot, fault, revision) for revision in revisions]
    if len(set(said)) == 1:
        return said[0]
    if said and all(may_have(words) for words in said):  # whichever of them it is
        return next((words for words in said if not has_it(words)), said[-1])
    unsure = any(has_it(words) or words.startswith(NOT_KNOWN) for words in said)
    return NOT_KNOWN if unsure else NOT_AFFECTED


# -- what is said of it ----------------------------------------------------------


def holding_advice(snapshot: Snapshot, found: Iterable[Standing]) -> Iterator[Advice]:
    """Say of each fault whom it concerns, what to do now, and where it is fixed."""
    for one in found:
        fault, held = one.fault, one.held
        grade = Grade.CHECK if one.applies else Grade.REMARK
        if may_have(one.words) and stops(fault):
            grade = Grade.WAIT
        yield Advice(
            key=f"errata {fault.id} {held.because}",
            topic="errata",
            grade=grade,
            about=Ref(fault.title, fault.id),
            statement=f"{fault.title}: {'; '.join(_said(snapshot, one))}",
            inputs=(*(r.ref for r in held.revisions), *fault.from_entries),
            formula="an affected revision without its cure has the fault",
            sources=("the known faults of this logbook",),
            changes=("a revision that cures it, or what its author says of it",),
        )


def _said(snapshot: Snapshot, one: Standing) -> Iterator[str]:
    fault, held = one.fault, one.held
    names = " or ".join(revision.title for revision in held.revisions)
    known = names == held.because
    if one.applies:
        yield f"{names} has it" if known else f"{held.because} is {names}, which has it"
        if until := not_until(snapshot, fault):
            yield f"do not use it {until}"
        do = instruction(snapshot, fault)
        yield f"do this now: {do}" if do else one.words
    elif one.unsure:
        yield f"not known of {names}" if known else f"{held.because} is {names}"
        if split := _split(snapshot, fault, held.revisions):
            yield split
            if do := instruction(snapshot, fault):
                yield f"if yours has it, do this now: {do}"
            yield fixed_words(snapshot, fault)
            return
        on = ", ".join(ref.name for ref in fault.revisions)
        on = f"it was found on {on}, and " if on else ""
        back = one.words.removeprefix(NOT_KNOWN).removeprefix(": ")
        yield back or f"{on}nobody has said whether this one has it too"
        if back and (until := not_until(snapshot, fault)):
            yield f"do not use it {until}"
        if fault.symptom:
            yield f"what was seen: {fault.symptom}"
    else:
        yield (
            f"{names}: {one.words}"
            if known
            else (f"{held.because} is {names}, {one.words}")
        )
        return
    yield fixed_words(snapshot, fault)


def _split(snapshot: Snapshot, fault: Erratum, revisions: Sequence[Revision]) -> str:
    """Say which of several revisions have a fault, where that is known of each.

    What is held does not tell them apart; what the piece was made to does.
    """
    said = [(one, standing(snapshot, fault, one)) for one in revisions]
    if any(words.startswith(NOT_KNOWN) for _, words in said):
        return ""
    having = [one.title for one, words in said if has_it(words)]
    without = [one.title for one, words in said if not has_it(words)]
    if not having or not without:
        return ""
    verb = "has" if len(having) == 1 else "have"
    return (
        f"{' and '.join(having)} {verb} it, {' and '.join(without)} not; the file does "
        "not tell, what yours was made to does"
    )


def fixed_words(snapshot: Snapshot, fault: Erratum) -> str:
    """Say which revision fixes a fault and which releases hold it."""
    now = fixed(snapshot, fault)
    if now is None:
        return "not fixed yet"
    where = now.where.removeprefix("in ").replace("not released yet", "no release yet")
    if now.back:
        return f"not fixed: {now.revision.title}, {where}, was to, but {now.back}"
    again = again_words(snapshot, fault)
    remake = f"remake: {again}" if again else ""
    said = (f"fixed in {now.revision.title}, {where}", remake, now.but, now.before)
    return ", ".join(filter(None, said))
