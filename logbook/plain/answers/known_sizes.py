"""What a line measured, held to the sizes on record: what is to be asked first.

`understand` knows only what things are called. Here what it read is held to what the
sizes are drawn as and were read as: a value of another kind is never taken, and one
that looks like a slip is asked about.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import replace

from logbook.plain.answers.slip_settled import AS_TYPED
from logbook.plain.answers.which_size import (
    as_drawn,
    called,
    of_longer_name,
    which_size,
)
from logbook.plain.understanding import (
    Doubt,
    Kind,
    Reading,
    Understanding,
    Verdict,
)
from logbook.plain.wanting import wanted_of
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.expected import Expected, expected_of, misfit
from logbook.records.sizes.slips import Slip, doubt_of, slip_of
from logbook.records.together.snapshot import Snapshot

_MEASURING = (Kind.READING, Kind.STEP, Kind.DISPOSITION)
_OF_NO_SIZE = frozenset({"torque"})
"""Kinds that are of what is done to a part, where no size of it is named."""
_FAR_OFF = 2
"""Times its limits' distance, a bare −3 is more likely a slip than a difference."""


def held_to_sizes(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with what its values leave to be asked before it is taken.

    What was `answered` is not asked again.
    """
    parts = snapshot.named(line.facts.part, Part) if line.facts.part else ()
    if line.verdict is not Verdict.TAKEN or line.kind not in _MEASURING:
        return line
    doubts: list[Doubt] = []
    if len(parts) == 1:
        line = of_longer_name(line, snapshot, parts[0])
        doubts += _doubts(line, snapshot, parts[0])
    for doubt in doubts or _off_what_is_wanted(line):
        # What is no value of its size is asked again: that answers nothing.
        if doubt.question not in answered or doubt.unit:
            return replace(line, doubts=(doubt, *line.doubts))
    return line


def _doubts(line: Understanding, snapshot: Snapshot, part: Part) -> Iterator[Doubt]:
    facts = line.facts
    for said in facts.readings:
        what = said.what or facts.what
        item = called(snapshot, part, what)
        if not what and said.value.dimension in _OF_NO_SIZE:
            continue
        if not what and (_set_beside(line, said) or _bent_to(line, said, item)):
            continue
        if not what and _worked_with(line, said):
            continue
        if what and item is None and line.kind is Kind.READING:
            yield from which_size(snapshot, part, what, said)
            yield from _of_its_stock(line, part, what, said)
        if item is not None and not said.confirmed:
            drawn = as_drawn(line, snapshot, part, item)
            yield from _cannot_be(snapshot, drawn, said)
            yield from _slipped(line, snapshot, drawn, said)
    by = line.said("off")
    if facts.off is not None and not facts.readings and _is_bare(by):
        item = called(snapshot, part, facts.what)
        if item is not None:
            drawn = as_drawn(line, snapshot, part, item)
            yield from _far_off(drawn, facts.off, by)


def _set_beside(line: Understanding, said: Reading) -> bool:
    """Tell whether an unnamed warmth stands beside a size: printed at 215, 74.45 long.

    It was set, and asking what size it is would put the size itself in its place.
    """
    others = {one.value.dimension for one in line.facts.readings} - {"temperature"}
    return said.value.dimension == "temperature" and bool(others)


def _bent_to(line: Understanding, said: Reading, item: Characteristic | None) -> bool:
    """Tell whether an unnamed angle is what work was done to: bent at 90.5°.

    It says nothing of a length, though the part may have no other size.
    """
    drawn = item.nominal if item is not None else None
    of_angle = drawn is not None and drawn.dimension == "angle"
    worked = line.kind is Kind.STEP and said.value.dimension == "angle"
    return worked and not of_angle


def _worked_with(line: Understanding, said: Reading) -> bool:
    """Tell whether an unnamed value is of what was worked with: with 2 mm corners."""
    figure, _, unit = said.value.text.partition(" ")
    typed = rf"{re.escape(figure)}\s*(?:{re.escape(unit)})?"
    led = rf"(?i)\b(?:with|using|from|out of|in)\s+(?:an?\s+)?{typed}\s+[a-z]"
    return line.kind is Kind.STEP and bool(re.search(led, line.line))


def _is_bare(said: str) -> bool:
    """Tell whether a difference is only a signed number, no word saying which way."""
    return said[:1] in {"-", "+", "−"} and not any(sign.isalpha() for sign in said)


def _cannot_be(snapshot: Snapshot, drawn: Dimension, said: Reading) -> Iterator[Doubt]:
    """See a value of another kind: 240.2 kg of a width."""
    expected = expected_of(snapshot, drawn)
    refusal = misfit(said.value, expected)
    if refusal is None or expected is None or not (said.what or expected.drawn):
        return
    value, size = said.value, expected.size
    alike = value.dimension == size.dimension
    meant = (str(-value),) if alike else ()  # a wrong unit says nothing of the number
    found, accepted = refusal
    question = f"{found}; accepted: {accepted}"
    yield Doubt("slip", question, (*meant, "only a note"), unit=size.unit)


def _slipped(
    line: Understanding, snapshot: Snapshot, drawn: Dimension, said: Reading
) -> Iterator[Doubt]:
    """See a value that looks like a slip, unless the line says such a one is wanted."""
    yield from _asked(line, doubt_of(snapshot, drawn, said.value), said)


def _of_its_stock(
    line: Understanding, part: Part, what: str, said: Reading
) -> Iterator[Doubt]:
    """See a slip away from the thickness a part is made from, where none is drawn."""
    made_from = part.thickness
    if what.casefold() == "thickness" and made_from and not said.confirmed:
        slip = slip_of(said.value, Expected(what, made_from))
        yield from _asked(line, slip, said)


def _asked(line: Understanding, slip: Slip | None, said: Reading) -> Iterator[Doubt]:
    if slip is None or any(_near(said.value, w) for w in line.facts.wanted):
        return
    if slip.meant is not None:
        yield Doubt("slip", slip.question, (str(slip.meant), AS_TYPED))
    elif not line.facts.wanted:  # who says beside it what it should be, knows
        yield Doubt("slip", slip.question, (AS_TYPED,))


def _near(value: Quantity, other: Quantity) -> bool:
    if value.metal or other.metal or value.dimension != other.dimension:
        return False
    return abs(value.to(other.unit) - other.value) * 4 <= abs(other.value)


def _off_what_is_wanted(line: Understanding) -> Iterator[Doubt]:
    """See a slip away from the size that the line itself says is wanted."""
    for at, said in enumerate(line.facts.readings):
        wanted = wanted_of(line, at)
        if said.confirmed or wanted is None:
            continue
        slip = slip_of(said.value, Expected("", wanted))
        if slip is not None and slip.meant is not None:
            yield Doubt("slip", slip.question, (str(slip.meant), AS_TYPED))


def _far_off(drawn: Dimension, off: Quantity, said: str) -> Iterator[Doubt]:
    """See a bare “-3” far beyond what the limits allow: the size, or a difference."""
    size = drawn.nominal
    if size is None or size.metal or off.metal or off.dimension != size.dimension:
        return
    under = said[:1] != "+"
    limit = drawn.lower if under else drawn.upper
    room = abs(size.value) / 100
    if limit is not None and limit.dimension == size.dimension:
        room = abs(limit.to(size.unit) - size.value)
    if abs(off.to(size.unit)) > _FAR_OFF * room:
        by = str(-off if off.value < 0 else off)
        way = "under" if under else "over"
        question = f"“{said}”: is {drawn.name} {by} {way} what is drawn, {size}?"
        yield Doubt("kind", question, ("it is so", "only a note"))
