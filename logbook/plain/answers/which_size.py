"""Which size on record a name in a line means.

A name that begins that of a known size is not made a second one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from logbook.plain.sure.unread import A_NEW_SIZE
from logbook.plain.understanding import Doubt, Reading, Understanding
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import Dimension, characteristics_of, dimension
from logbook.records.sizes.expected import expected_of
from logbook.records.sizes.limits_held import as_held
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot


def called(snapshot: Snapshot, part: Part, what: str) -> Characteristic | None:
    """Give the size of this name; of a part with only one, what names none is that."""
    held = characteristics_of(snapshot, part)
    if not what:
        return held[0] if len(held) == 1 else None
    for item in held:
        names = (item.title, item.name, *item.formerly)
        if what.casefold() in {name.casefold() for name in names}:
            return item
    return None


def as_drawn(
    line: Understanding, snapshot: Snapshot, part: Part, item: Characteristic
) -> Dimension:
    """Give a size as the revision draws it that the piece of the line was made to."""
    pieces = snapshot.named(line.facts.piece, Piece) if line.facts.piece else ()
    revision = made_to(snapshot, part, pieces[0] if pieces else None)
    return as_held(snapshot, dimension(snapshot, revision, item))


def _longer(snapshot: Snapshot, part: Part, what: str) -> Iterator[Characteristic]:
    begins = f"{what.casefold()} "
    for item in characteristics_of(snapshot, part):
        if item.title.casefold().startswith(begins):
            yield item


def _ending(snapshot: Snapshot, part: Part, what: str) -> Iterator[Characteristic]:
    ends = f" {what.casefold()}"
    for item in characteristics_of(snapshot, part):
        if item.title.casefold().endswith(ends):
            yield item


def _takes(snapshot: Snapshot, item: Characteristic, value: Quantity) -> bool:
    """Tell whether a size is of this kind; one never drawn or read by its name."""
    held = Dimension(item, item.nominal, item.lower_limit, item.upper_limit)
    known = expected_of(snapshot, held)
    if known is None:
        return value.dimension in item.title.casefold().split()
    return known.size.dimension == value.dimension


def which_size(
    snapshot: Snapshot, part: Part, what: str, said: Reading
) -> Iterator[Doubt]:
    """See a name that no size has, and that begins the name of one which fits.

    Of a kind it may end it too: a temperature is that of the face, or a new one.
    """
    found = [*_longer(snapshot, part, what)]
    if what.casefold() == said.value.dimension:
        found += _ending(snapshot, part, what)
    fits = [one.title for one in found if _takes(snapshot, one, said.value)]
    if fits:
        choices = (*fits, f"{what}{A_NEW_SIZE}")
        yield Doubt("size", f"which {what}?", choices)


def of_longer_name(
    line: Understanding, snapshot: Snapshot, part: Part
) -> Understanding:
    """Read “face 61 °C” as of the face temperature: what is left out, the unit says."""
    what, readings = line.facts.what, line.facts.readings
    kinds = {one.value.dimension for one in readings}
    if not what or len(kinds) != 1 or called(snapshot, part, what) is not None:
        return line
    [kind] = kinds
    full = f"{what} {kind}".casefold()
    for item in _longer(snapshot, part, what):
        if item.title.casefold() == full and _takes(snapshot, item, readings[0].value):
            named = tuple(
                replace(one, what=item.title) if one.what == what else one
                for one in readings
            )
            facts = replace(line.facts, what=item.title, readings=named)
            return replace(line, facts=facts)
    return line
