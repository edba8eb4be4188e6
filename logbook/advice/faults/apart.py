"""What sets pieces that failed apart from those that did not, as far as is on record.

By revision, machine, stock, material, file, settings and the sizes read on them. Where
it may lie, and no proof.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from logbook.advice.faults.came_back import again_as
from logbook.advice.faults.drafted import fault_from
from logbook.advice.faults.held_so_far import said_good
from logbook.advice.faults.sizes_apart import read_apart, sizes_apart
from logbook.advice.ground.material import material_of
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Failure, Reading, StepDone
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Build, Machine, Piece, Stock
from logbook.records.making.not_met import not_met_in
from logbook.records.states.pieces import piece_state, pieces_of, readings_of
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

_GONE = {State.SCRAPPED, State.LOST, State.ORDERED, State.SENT_OUT}
ASKED = ("revision", "machine", "stock", "material")
"""Facts of a piece of which it is said where nobody put them on record."""
SETTING = "setting "


def failed_and_sound(
    snapshot: Snapshot, failure: Failure
) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Give the pieces that have this failure, and those here that have not."""
    part = part_of(snapshot, failure)
    pieces = pieces_of(snapshot, part) if part else ()
    failed = tuple(p for p in pieces if _failed(snapshot, p, failure))
    sound = tuple(
        piece
        for piece in pieces
        if piece not in failed and piece_state(snapshot, piece) not in _GONE
    )
    return failed, sound


def _failed(snapshot: Snapshot, piece: Piece, like: Failure) -> bool:
    """Tell whether a piece has this failure, or one that is the same again."""
    return any(
        snapshot.find(one.piece) is piece and _is_same(snapshot, one, like)
        for one in snapshot.mentions(piece, Failure)
    )


def _is_same(snapshot: Snapshot, one: Failure, like: Failure) -> bool:
    """Tell whether two failures are one: the same cure, line, or come back."""
    if one is like or (one.cured_by is not None and one.cured_by == like.cured_by):
        return True
    if folded(one.title) == folded(like.title):
        return True
    first, later = sorted((one, like), key=lambda entry: (entry.when, entry.id))
    return again_as(snapshot, first, later).holds


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
        shared = all(_same(facts.get(name, ""), value) for facts in failed)
        if shared and not any(_same(value, other) for other in others):
            rest = ", ".join(sorted(other or "not said" for other in others))
            found.append((name, value, rest))
    return tuple(found)


# -- told to who may meet it -------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Apart:
    """Pieces that failed, others that did not, and how these stand to each other.

    Of `unseen` nothing shows that they came to where it is met. `differs` gives what it
    is, then how it is with those that failed, then with the others; `one_sided` what is
    on record of one side only, with its value and of which pieces; `same` is alike with
    all, `unsaid` on record of none.
    """

    failed: tuple[Piece, ...]
    sound: tuple[Piece, ...]
    unseen: tuple[Piece, ...]
    differs: tuple[tuple[str, str, str], ...]
    one_sided: tuple[tuple[str, str, tuple[Piece, ...]], ...]
    same: tuple[str, ...]
    unsaid: tuple[str, ...]


def apart(snapshot: Snapshot, failure: Failure) -> Apart | None:
    """Compare the pieces of a part that failed so with those that did not.

    None where there are not both. Where it was met at a step, a piece whose build has
    not come so far says nothing; nor does one that failed in another way. Those that
    were seen to hold are compared, the others only where there are none of these.
    """
    failed, here = failed_and_sound(snapshot, failure)
    others_here = tuple(
        piece
        for piece in here
        if _came_to(snapshot, piece, failure) and not _fails(snapshot, piece)
    )
    sound = tuple(p for p in others_here if _was_in_use(snapshot, p, failure))
    unseen = tuple(p for p in others_here if p not in sound)
    compared = sound or unseen
    if not failed or not compared:
        return None
    theirs = [facts_of(snapshot, piece) for piece in failed]
    others = [facts_of(snapshot, piece) for piece in compared]
    named = (name for facts in (*theirs, *others) for name in facts)
    told = [
        (name, _values(theirs, name), _values(others, name))
        for name in dict.fromkeys((*ASKED, *named))
    ]
    both = [one for one in told if one[1] and one[2]]
    apart_by = [
        (name, here, there)
        for name, here, there in both
        if not any(_same(a, b) for a in here for b in there)
    ]
    return Apart(
        failed,
        sound,
        unseen,
        (*_listed(apart_by), *read_apart(snapshot, failed, compared)),
        tuple(
            _known_of(snapshot, name, (*failed, *compared))
            for name, one, other in told
            if bool(one) is not bool(other)
        ),
        tuple(name for name, a, b in both if a == b and len(a) == 1),
        tuple(name for name, a, b in told if not a and not b),
    )


def _same(one: str, other: str) -> bool:
    """Tell whether two facts are the same; values with units are, whatever the unit."""
    if one == other:
        return True
    try:
        sizes = parse_quantity(one), parse_quantity(other)
    except BadInput:
        return False
    alike = sizes[0].dimension == sizes[1].dimension and not any(s.metal for s in sizes)
    return alike and not sizes_apart(*sizes)


def _listed(
    told: Iterable[tuple[str, Sequence[str], Sequence[str]]],
) -> Iterator[tuple[str, str, str]]:
    for name, one, other in told:
        yield name, ", ".join(one), ", ".join(other)


def _known_of(
    snapshot: Snapshot, name: str, pieces: Sequence[Piece]
) -> tuple[str, str, tuple[Piece, ...]]:
    """Give a fact with what it is, and the pieces it is on record of."""
    known = [(piece, facts_of(snapshot, piece).get(name, "")) for piece in pieces]
    values = dict.fromkeys(value for _, value in known if value)
    return name, ", ".join(values), tuple(piece for piece, value in known if value)


def _under_use(reading: Reading) -> bool:
    """Tell whether it was read under what the piece is used under.

    Of a length the room may be told too, which says nothing of it.
    """
    value = reading.value
    warm = isinstance(value, Quantity) and value.dimension == "temperature"
    return reading.after is not None or (warm and reading.room is not None)


def _was_in_use(snapshot: Snapshot, piece: Piece, failure: Failure) -> bool:
    """Tell whether a piece came to where it could have failed so.

    Where it was met at a step, that is done in its build; else it was fitted, or read
    after a time under what it is used under, or a step that uses it was done since; or
    somebody said that it is still good, or that this does not occur in its build.
    """
    if said_good(snapshot, piece) or _not_met(snapshot, piece, failure):
        return True
    if snapshot.find(failure.step, Step) is not None:
        return True
    if piece_state(snapshot, piece) is State.FITTED:
        return True
    taken = readings_of(snapshot, piece)
    if any(_under_use(one.reading) for one in taken):
        return True
    part, build = part_of(snapshot, piece), snapshot.find(piece.build, Build)
    return any(
        not one.undone
        and one.when >= piece.when
        and snapshot.find(one.build) is build
        and _uses(snapshot, snapshot.find(one.step, Step), part)
        for one in snapshot.all(StepDone)
    )


def _not_met(snapshot: Snapshot, piece: Piece, failure: Failure) -> bool:
    """Tell whether somebody said that it does not occur in the build of a piece."""
    said = not_met_in(snapshot, fault_from(snapshot, failure))
    build = snapshot.find(piece.build, Build)
    return any(snapshot.find(one.build) is build for one in said)


def _uses(snapshot: Snapshot, step: Step | None, part: Part | None) -> bool:
    return step is not None and any(snapshot.find(ref) is part for ref in step.uses)


def _fails(snapshot: Snapshot, piece: Piece) -> bool:
    return any(
        snapshot.find(one.piece) is piece for one in snapshot.mentions(piece, Failure)
    )


def _came_to(snapshot: Snapshot, piece: Piece, failure: Failure) -> bool:
    """Tell whether the step a failure was met at was done in the build of a piece."""
    step, build = snapshot.find(failure.step, Step), snapshot.find(piece.build, Build)
    if step is None:
        return True
    done = [
        one
        for one in snapshot.all(StepDone)
        if snapshot.find(one.step) is step and snapshot.find(one.build) is build
    ]
    return bool(done) and not done[-1].undone


def _values(facts: Sequence[Mapping[str, str]], name: str) -> tuple[str, ...]:
    found = (one.get(name, "") for one in facts)
    return tuple(dict.fromkeys(filter(None, found)))
