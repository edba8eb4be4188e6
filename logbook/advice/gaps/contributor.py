"""What a dimension of a gap is known to be: read, or how far it may be off.

A piece that was read counts by its readings. Before that the shop's own figures
count, then the default of the process; drawn limits only where the drawing gives
them itself and they are narrower. A general tolerance is never taken for what a
process does. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from logbook.advice.gaps.places_unread import unread_places
from logbook.advice.ground.drawn import drawn_as, newest_revision
from logbook.advice.ground.register import View
from logbook.advice.pieces.contours import contour_sign
from logbook.advice.pieces.figures import Shop, features
from logbook.advice.pieces.in_doubt import Doubted
from logbook.advice.pieces.readings import Measured, found_of
from logbook.advice.pieces.usual import figure_key, usual
from logbook.errors import BadInput, Problem
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Feature, Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension
from logbook.records.states.pieces import is_on_hand, pieces_of
from logbook.records.together.references import refers
from logbook.shop.chains.spread import Contributor

DRAWN = 3.0
"""Standard deviations from the middle to a drawn limit."""
FINISHING = 0.05
"""± about 95 % of filing to a reading (mm); common practice, no source."""


@dataclass(frozen=True, slots=True)
class Known:
    """One dimension of a gap.

    `low` and `high` are the sizes that govern entry and looseness; `half` is ± on
    either, `coverage` how many standard deviations that is. `free` is a size made
    to suit, that no drawing gives. `unread` are those of its `places` at which it was
    not read, though at others it was.
    """

    name: str
    what: Characteristic
    part: Part
    piece: Piece | None
    nominal: float
    low: float
    high: float
    half: float
    coverage: float
    read: Measured | None
    said: str
    inputs: tuple[Ref, ...]
    source: str = ""
    free: bool = False
    unread: tuple[str, ...] = ()
    places: int = 0

    @property
    def scale(self) -> float:
        """Half width of the scale error of its readings."""
        return self.read.scale if self.read else 0.0

    def sized(self, slope: float) -> tuple[float, float]:
        """Give the size at the tightest and at the loosest place, for a slope."""
        return (self.low, self.high) if slope > 0 else (self.high, self.low)

    def chained(self, slope: float, setup: str = "") -> Contributor:
        """Give it as a contributor to a chain, centred between its places."""
        middle = (self.low + self.high) / 2
        return Contributor(
            self.name, middle, self.half, self.half, slope,
            coverage=self.coverage, setup=setup,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unknown:
    """A dimension of which nothing says how big it is, or how far it may be off.

    The sentence says what is missing; `nominal` is its drawn size, if there is one.
    It is `doubted` where it was read, and a reading looks like a slip.
    """

    name: str
    what: Characteristic
    part: Part
    sentence: str
    nominal: float | None = None
    doubted: bool = False


def candidates(
    view: View, part: Part, place: str, build: Build | None = None
) -> tuple[Piece, ...]:
    """Give the pieces of a part that a build may mean, oldest first.

    Without one the build in hand is meant.
    """
    build = build or view.build
    found = [
        piece
        for piece in _on_hand(view, part)
        if piece.build is None or build is None or refers(view, piece.build, build)
    ]
    if place:
        at = [piece for piece in found if _same_place(piece.place, place)]
        found = at or [piece for piece in found if not piece.place]
    return tuple(found)


def _on_hand(view: View, part: Part) -> tuple[Piece, ...]:
    """Give the pieces of a part that are not scrapped, taken out or away."""

    def work() -> tuple[Piece, ...]:
        every = pieces_of(view, part)
        return tuple(one for one in every if is_on_hand(view, one))

    return view.remembered("on hand", (part,), work)


def _same_place(one: str, other: str) -> bool:
    return one.lower().replace(" ", "_") == other.lower().replace(" ", "_")


def known(
    view: View,
    name: str,
    what: Characteristic,
    piece: Piece | None,
    problems: list[Problem],
) -> Known | Unknown:
    """Give what a dimension of a piece, or of a part not made yet, is known to be."""
    part = view.find(what.part, Part)
    assert part is not None
    revision = view.find(piece.revision, Revision) if piece else None
    drawn = drawn_as(view, revision or newest_revision(view, part), what)
    if piece is not None:
        read, faults, slips = found_of(view, piece, what)
        if slips:
            said = _in_doubt(piece, what, slips)
            return Unknown(name, what, part, said, _length(drawn.nominal), doubted=True)
        problems += faults
        if read is not None:
            found = _read(name, what, part, piece, read, _length(drawn.nominal))
            unread, places = unread_places(view, piece, what, read)
            return replace(found, unread=unread, places=places)
    try:
        return _planned(view, name, part, piece, drawn)
    except BadInput as refusal:
        said = f"{part.title} {what.title}: {refusal}"
        return Unknown(name, what, part, said, _length(drawn.nominal))


def _in_doubt(piece: Piece, what: Characteristic, slips: Doubted) -> str:
    """Say which readings stand in doubt, each with what was probably meant."""
    each = [
        f"{one.place}: {slip.question}" if one.place else slip.question
        for one, slip in slips
    ]
    return f"{piece.title} {what.title} stands in doubt: {', '.join(each)}"


def _read(
    name: str,
    what: Characteristic,
    part: Part,
    piece: Piece,
    read: Measured,
    nominal: float | None,
) -> Known:
    places = len(read.places)
    where = f"read at {places} places" if places > 1 else "read"
    return Known(
        name, what, part, piece,
        read.low if nominal is None else nominal,
        read.low, read.high, 2 * read.standard, 2.0, read,
        f"{piece.title} {what.title} {where}: {'; '.join(read.said)}",
        (piece.ref, *read.runs),
    )  # fmt: skip


def _mm(size: Quantity | None) -> float | None:
    return None if size is None else float(size.to("mm"))


def _length(size: Quantity | None) -> float | None:
    """Give a size in mm, None where it is no length."""
    return _mm(size) if size and size.dimension == "length" else None


def _planned(
    view: View, name: str, part: Part, piece: Piece | None, drawn: Dimension
) -> Known:
    """Give a size not read yet from its nominal and how far such a size is off.

    Raises:
        BadInput: there is no nominal, or nothing says how far it may be off.
    """
    what = drawn.characteristic
    nominal = _mm(drawn.nominal)
    if nominal is None:
        raise BadInput("neither measured nor drawn; accepted: a reading or a size")
    inputs = (what.ref, *((piece.ref,) if piece else ()))
    by_process = _by_process(view, what)
    by_limits = _by_limits(drawn)
    if by_limits and (by_process is None or by_limits[1] <= by_process[1]):
        middle, half, said = by_limits
        coverage, source = DRAWN, ""
    elif by_process:
        off, half, said, source = by_process
        middle, coverage = nominal + off, 2.0
    else:
        raise BadInput(
            "not measured, no limits drawn, and no process known; accepted: a reading, "
            "limits, or the process that makes it"
        )
    text = f"{part.title} {what.title} not measured: {said}"
    return Known(
        name, what, part, piece, nominal, middle, middle, half, coverage, None, text,
        inputs, source,
    )  # fmt: skip


def _by_limits(drawn: Dimension) -> tuple[float, float, str] | None:
    """Give middle and half width of the limits that the drawing itself gives."""
    if drawn.characteristic.limits_from or drawn.lower is None or drawn.upper is None:
        return None
    low, high = float(drawn.lower.to("mm")), float(drawn.upper.to("mm"))
    if low > high:
        raise BadInput(
            f"the lower limit {drawn.lower} is above the upper {drawn.upper}; "
            "accepted: the lower one below"
        )
    return (low + high) / 2, (high - low) / 2, f"limits drawn {low:g} to {high:g} mm"


def by_hand(one: Unknown, size: float) -> Known:
    """Give a dimension that is brought to a size by hand, whatever makes it."""
    said = f"{one.part.title} {one.what.title} made to suit, ±{FINISHING:g} mm"
    return Known(
        one.name, one.what, one.part, None, size, size, size, FINISHING, 2.0, None,
        said, (one.what.ref,), free=one.nominal is None,
    )  # fmt: skip


def _by_process(
    view: View, what: Characteristic
) -> tuple[float, float, str, str] | None:
    """Give offset, ± about 95 %, words and source for the operations that make it."""
    made = features(view, what)
    each = [_operation(view, one, contour_sign(one.process, what)) for one in made]
    if not made or any(one is None for one in each):
        return None
    parts = [one for one in each if one is not None]
    off = math.fsum(one[0] for one in parts)
    half = math.hypot(*(one[1] for one in parts))
    sources = dict.fromkeys(one[3] for one in parts if one[3])
    return off, half, "; ".join(one[2] for one in parts), "; ".join(sources)


def _operation(
    view: View, made: Feature, sign: int
) -> tuple[float, float, str, str] | None:
    """Give what one operation does to a size; `sign` is how a kerf moves it."""
    count = max(1, made.count)
    width = count if made.shared else math.sqrt(count)
    times = f"{count} × " if count > 1 else ""
    shop = _shop(view, made)
    if shop is not None:
        said = (
            f"{times}{made.process}, own figure {shop.offset:+.2f} "
            f"±{2 * shop.sd:.2f} mm from {shop.count}"
        )
        sure = 2 * math.hypot(width * shop.sd, count * shop.error)
        return sign * count * shop.offset, sure, said, "the shop's own pieces"
    default = usual(made.process)
    if default is None:
        return None
    said = f"{times}{default.process}, usually ±{default.scatter:g} mm"
    return sign * count * default.offset, width * default.scatter, said, default.source


def _shop(view: View, made: Feature) -> Shop | None:
    for machine in dict.fromkeys((made.machine, None)):
        found = view.figure(figure_key(made.process, machine))
        if isinstance(found, Shop) and found.counts:
            return found
    return None


def finishing(one: Known) -> Known:
    """Give a dimension that is finished by hand to a reading, at its nominal."""
    said = f"{one.part.title} {one.what.title} filed to size, ±{FINISHING:g} mm"
    return replace(
        one, low=one.nominal, high=one.nominal, half=FINISHING, coverage=2.0, said=said
    )
