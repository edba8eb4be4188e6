"""Which size a revision is to draw, by what was found and what it should have been.

What came out wrong is never the size to draw: a part drawn 100 that came out at 99
and should be 100 has a drawing that leads there by something else. Only where the
drawing itself says what was found, or where a cure names the size, is it known.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.happenings import Deviation, Entry, Failure
from logbook.records.sizes.definition import WITHIN, Dimension
from logbook.records.sizes.limits import parse_drawn
from logbook.records.sizes.limits_held import as_held
from logbook.records.states.read_now import differs, found_now
from logbook.records.together.snapshot import Snapshot

_NUMBER = r"\d[\d.,/]*(?:\s+\d+/\d+)?"
_UNIT = r"(?:\s*(?:mm|cm|m|in|ft|°))?"
_SIZE = re.compile(
    r"\s*(?:[=:]|(?:is|be|drawn|draw|made|of|to|at|it)\b|\s)*"
    rf"(?P<size>{_NUMBER}{_UNIT}(?:\s*±\s*{_NUMBER}{_UNIT})?)"
    r"(?=\s*(?:$|[,;.)]|and\b|instead\b|so\b))",
    re.IGNORECASE,
)
"""A size with what leads to it; not “1 mm longer”, which is no size."""


def size_to_draw(snapshot: Snapshot, entry: Entry, drawn: Dimension) -> str:
    """Give the size an entry says a dimension has to be drawn at; empty: it does not.

    `drawn` is the dimension as the newest revision has it.
    """
    own = is_of(snapshot, entry, drawn)
    cure = entry.cure if isinstance(entry, Deviation | Failure) else ""
    named = {*_named(cure, drawn, snapshot.project.unit, alone=own)}
    if len(named) == 1:
        return named.pop()
    if named or not own or not isinstance(entry, Deviation) or not entry.wanted:
        return ""
    found, held = found_now(snapshot, entry), as_held(snapshot, drawn)
    leads = found is not None and _says(held, found) and not _says(held, entry.wanted)
    return str(entry.wanted) if leads else ""


def left_to_say(
    snapshot: Snapshot, entries: Iterable[Entry], drawn: Dimension
) -> tuple[Deviation, ...]:
    """Give those of these that say a dimension is wrong, but not what it has to be.

    None where another of them says it.
    """
    every = tuple(entries)
    if any(size_to_draw(snapshot, one, drawn) for one in every):
        return ()
    own = (one for one in every if is_of(snapshot, one, drawn))
    return tuple(one for one in own if isinstance(one, Deviation))


def is_of(snapshot: Snapshot, entry: Entry, drawn: Dimension) -> bool:
    """Tell whether an entry found this dimension to be another than it should be."""
    if not isinstance(entry, Deviation) or entry.found is None:
        return False
    item = snapshot.find(entry.characteristic, Characteristic)
    return item is drawn.characteristic


def _says(drawn: Dimension, size: Quantity) -> bool:
    """Tell whether a drawing allows a size: within its limits, else just that."""
    known = drawn.nominal or drawn.lower or drawn.upper
    if known is None or known.dimension != size.dimension:
        return False
    if drawn.has_limits:
        return drawn.verdict(size) == WITHIN
    return not differs(known, size)


def _named(cure: str, drawn: Dimension, unit: str, *, alone: bool) -> Iterator[str]:
    """Give the sizes a cure names of a dimension: “width to 101”.

    `alone`: it is told of this dimension, which then needs no name: “draw it at 101”.
    """
    known = drawn.nominal or drawn.lower or drawn.upper
    ends = [m.end() for m in re.finditer(rf"(?i)\b{re.escape(drawn.name)}\b", cure)]
    if alone:
        ends += [0, *(m.start() for m in re.finditer(r"(?i)\bdrawn?\b", cure))]
    for match in filter(None, (_SIZE.match(cure, end) for end in sorted(set(ends)))):
        try:
            said = parse_drawn(match["size"], known.unit if known else unit)
        except BadInput:
            continue
        size = said.nominal
        if size and (not known or size.dimension == known.dimension):
            yield match["size"]
