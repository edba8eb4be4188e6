"""Records that cannot both be true: kinds of units, limits, two pieces in one place.

A problem names the file and the fact, so that the line can be found; whatever is
right goes on being told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from logbook.advice.ground.register import View
from logbook.advice.pieces.in_doubt import Doubted, expected_of_piece
from logbook.advice.pieces.piece_facts import key_of
from logbook.advice.pieces.readings import found_of
from logbook.errors import BadInput, Problem
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.design import Change, Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.expected import Expected, expected_of, misfit
from logbook.records.states.pieces import is_on_hand, pieces_of
from logbook.records.states.read_now import differs, reading_behind
from logbook.records.together.names import folded
from logbook.records.together.references import refers

_Numbered = tuple[Run, int, Reading]
"""A reading with its run and its number there."""


def unit_problems(view: View, what: Characteristic) -> Iterator[Problem]:
    """Tell of sizes of a dimension that are of another kind than it was drawn in.

    A reading in °C of a length passes the reader, because only the two records
    together are wrong. Limits the wrong way round are told here too.
    """
    yield from _limits(view, what, what, "")
    for record in view.mentions(what, Revision):
        for number, change in enumerate(record.changes, 1):
            if view.find(change.characteristic) is what:
                yield from _limits(view, record, change, f"change {number} ")
    drawn = what.nominal or what.lower_limit or what.upper_limit
    if drawn is None:
        yield from _read_otherwise(view, what)
        return
    for record, field, size in _others(view, what, drawn):
        found = f"“{size}”, a {size.dimension}, but {what.title} is drawn as {drawn}"
        other = "" if record is what else f" (or mend {view.path(what)})"
        accepted = f"a {drawn.dimension}{other}"
        yield Problem(view.path(record), 0, field, found, accepted)


def _read_otherwise(view: View, what: Characteristic) -> Iterator[Problem]:
    """Tell of readings of another kind than the others, of a size never drawn."""
    expected = expected_of(view, Dimension(what, None, None, None))
    for run, number, reading in _readings(view, what) if expected else ():
        refusal = misfit(reading.value, expected)
        if refusal is not None:
            found, accepted = refusal
            yield Problem(view.path(run), 0, f"reading {number} value", found, accepted)


def value_problems(view: View, what: Characteristic) -> Iterator[Problem]:
    """Tell of readings that cannot be of a size, or look like a slip nobody settled.

    Those of another kind `unit_problems` tells of.
    """
    read = list(_readings(view, what))
    suspect = _suspect(view, what, read)
    for run, number, reading in read if suspect else ():
        expected, slips = suspect.get(key_of(run.piece), (None, ()))
        field = f"reading {number} value"
        refusal = misfit(reading.value, expected)
        if refusal is not None and _same_kind(reading.value, expected):
            yield Problem(view.path(run), 0, field, *refusal)
        for slip in (slip for one, slip in slips if one.id == reading.id):
            meant = slip.meant or "what was read"
            accepted = f"{meant}, or with confirmed = true if it was read so"
            yield Problem(view.path(run), 0, field, slip.question, accepted)


def _suspect(
    view: View, what: Characteristic, read: Iterable[_Numbered]
) -> dict[str, tuple[Expected, Doubted]]:
    """Give what a size should be and its readings in doubt, by the key of a piece.

    A piece of which all readings are near what they should be is left out.
    """
    of: dict[str, tuple[Ref | None, list[Quantity | Absent]]] = {}
    for run, _, reading in read:
        of.setdefault(key_of(run.piece), (run.piece, []))[1].append(reading.value)
    found: dict[str, tuple[Expected, Doubted]] = {}
    for key, (ref, values) in of.items():
        piece = view.find(ref, Piece)
        expected = expected_of_piece(view, piece, what)
        if expected is not None and not expected.near(values):
            found[key] = expected, found_of(view, piece, what).doubted if piece else ()
    return found


def _same_kind(value: Quantity | Absent, expected: Expected | None) -> bool:
    if expected is None or isinstance(value, Absent):
        return False
    return value.dimension == expected.size.dimension


def _readings(view: View, what: Characteristic) -> Iterator[_Numbered]:
    """Give the readings of a size, each with its run and its number there."""
    for run in view.mentions(what, Run):
        for number, reading in enumerate(run.readings, 1):
            if refers(view, reading.what, what):
                yield run, number, reading


def _others(
    view: View, what: Characteristic, drawn: Quantity
) -> Iterator[tuple[Record, str, Quantity]]:
    """Give what is said of a dimension and is of another kind: record, fact, size."""
    for name in ("nominal", "lower_limit", "upper_limit"):
        size = getattr(what, name)
        if _is_other(size, drawn):
            yield what, name, size
    for record in view.mentions(what, Run, Deviation, Revision):
        if isinstance(record, Run) and not _strays(record, drawn):
            continue
        for ref, held, field, names in _holders(record):
            for name in names:
                size = getattr(held, name)
                if _is_other(size, drawn) and view.find(ref) is what:
                    yield record, f"{field}{name}", size


def _strays(run: Run, drawn: Quantity) -> bool:
    """Tell whether a run has readings in another unit; hardly any has."""
    units = {one.value.unit for one in run.readings if isinstance(one.value, Quantity)}
    return bool(units - {drawn.unit})


def _is_other(size: object, drawn: Quantity) -> bool:
    """Tell whether a size is of another kind; that of the same unit is not."""
    if not isinstance(size, Quantity) or size.unit == drawn.unit:
        return False
    return size.dimension != drawn.dimension


def _holders(record: Record) -> Iterator[tuple[Ref | None, object, str, Sequence[str]]]:
    """Give what of a record holds sizes, of which dimension, where, in which facts."""
    match record:
        case Run():
            for number, reading in enumerate(record.readings, 1):
                yield reading.what, reading, f"reading {number} ", ("value",)
        case Deviation():
            yield record.characteristic, record, "", ("wanted", "found", "off")
        case Revision():
            names = ("was", "becomes", "lower_limit", "upper_limit")
            for number, change in enumerate(record.changes, 1):
                yield change.characteristic, change, f"change {number} ", names


def _limits(
    view: View, record: Record, held: Characteristic | Change, field: str
) -> Iterator[Problem]:
    low, high = held.lower_limit, held.upper_limit
    if low is None or high is None:
        return
    try:
        crossed = low.to(high.unit) > high.value
    except BadInput:
        return
    if crossed:
        found = f"{low}, above the upper limit {high}"
        path = view.path(record)
        yield Problem(path, 0, f"{field}lower_limit", found, "the smaller of the two")


def cited_problems(view: View, what: Characteristic) -> Iterator[Problem]:
    """Tell of deviations that go on naming a value their reading no longer has."""
    for entry in view.mentions(what, Deviation):
        if entry.found is None or view.find(entry.characteristic) is not what:
            continue
        made_from = reading_behind(view, entry)
        if made_from is None:
            continue
        run, reading = made_from
        value = reading.value
        if isinstance(value, Quantity) and differs(entry.found, value):
            found = f"{entry.found}, but the reading it was made from is {value} now"
            accepted = f"{value} (or mend {view.path(run)})"
            yield Problem(view.path(entry), 0, "found", found, accepted)


def astray_problems(view: View, what: Characteristic) -> Iterator[Problem]:
    """Tell of readings and deviations of a size that are of a piece of another part.

    They are in no table of either part: the one has the piece, the other the size.
    """
    part = view.find(what.part, Part)
    for run, number, _ in _readings(view, what):
        yield from _astray(view, part, what, run, f"reading {number} what")
    for entry in view.mentions(what, Deviation):
        if view.find(entry.characteristic) is what:
            yield from _astray(view, part, what, entry, "characteristic")


def _astray(
    view: View, part: Part | None, what: Characteristic, of: Run | Deviation, field: str
) -> Iterator[Problem]:
    piece = view.find(of.piece, Piece)
    own = view.find(piece.part, Part) if piece else None
    if part is None or piece is None or own is None or own.id == part.id:
        return
    found = f"{what.title} of {part.title}, but {piece.title} is a {own.title}"
    accepted = f"a size of {own.title}, or a piece of {part.title}"
    yield Problem(view.path(of), 0, field, found, accepted)


def place_problems(view: View, part: Part) -> Iterator[Problem]:
    """Tell of two pieces of a part that are at one place of one build."""
    at: dict[tuple[str, str], list[Piece]] = {}
    for piece in pieces_of(view, part):
        if piece.place and is_on_hand(view, piece):
            build = view.find(piece.build)
            key = (build.id if build else "", folded(piece.place))
            at.setdefault(key, []).append(piece)
    for pieces in at.values():
        if len(pieces) > 1:
            yield _crowded(view, pieces)


def _crowded(view: View, pieces: Sequence[Piece]) -> Problem:
    names = " and ".join(f"{piece.title} {piece.id}" for piece in pieces)
    found = f"{names} both at {pieces[-1].place}"
    accepted = "one piece at a place; say that the other was taken out or scrapped"
    return Problem(view.path(pieces[-1]), 0, "place", found, accepted)
