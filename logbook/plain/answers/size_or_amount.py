"""Whether “too long, 219.9” gives the size a part has, or how much it is off.

The words alone do not say it; the sizes on record do. A figure near one of them is that
size, one that is small beside it is the amount; what lies between is asked.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction

from logbook.plain.understanding import (
    Doubt,
    Kind,
    Reading,
    Understanding,
    Verdict,
)
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.definition import characteristics_of, dimension
from logbook.records.sizes.expected import expected_of
from logbook.records.sizes.limits_held import as_held
from logbook.records.together.revisions import made_to
from logbook.records.together.snapshot import Snapshot

_NEAR = Fraction(1, 4)
"""A figure within this share of a size is that size, whatever way it is off."""
_SMALL = Fraction(1, 4)
"""A figure below this share of a size is the amount it is off."""
_LEAST = 1
"""Millimetres, below which a figure behind “too long” is an amount, nothing known."""
_TOO = re.compile(
    r"(?i)\btoo\s+(?P<how>\w+)\s*[,:;=–-]?\s*(?:at|with|it is|it's|is)?\s*$"
)
_NAMES_IT = {
    "length": ("long", "short"),
    "width": ("wide", "narrow"),
    "thickness": ("thick", "thin"),
    "height": ("high", "low", "tall"),
    "depth": ("deep", "shallow"),
}
"""What a way to be off says of which size it is."""


def held_to_amount(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with its figure as the size it is near, or with what is asked."""
    off = line.facts.off
    parts = snapshot.named(line.facts.part, Part) if line.facts.part else ()
    taken = line.verdict is Verdict.TAKEN and line.kind is Kind.READING
    told = line.facts.readings or line.facts.wanted
    if not taken or off is None or told or off.metal or len(parts) != 1:
        return line
    before = line.line[: _start(line)]
    if re.search(r"(?i)\b(?:by|only|another|about)\s*$", before) or _signed(line):
        return line
    sizes = _meant(line, snapshot, parts[0], off)
    near = [item for item, size in sizes if _is_near(off, size)]
    behind = _TOO.search(before)
    if len(near) == 1 or (near and behind):
        return _as_size(line, near[0].title, off)
    if behind is None or _is_small(off, [size for _, size in sizes]):
        return line
    how, said = behind["how"], line.said("off")
    what = _thing(line) or _by_way(how) or "size"
    doubt = Doubt(
        "kind",
        f"“{said}”: is {what} {off}, and not too {how} by so much?",
        ("it is so", "only a note"),
    )
    if doubt.question in answered:
        return line
    asked = _as_size(line, what, off)
    return replace(asked, doubts=(doubt, *line.doubts))


def _start(line: Understanding) -> int:
    return min((span.start for span in line.words.get("off", ())), default=0)


def _signed(line: Understanding) -> bool:
    return line.said("off")[:1] in {"-", "+", "−"}


def _meant(
    line: Understanding, snapshot: Snapshot, part: Part, off: Quantity
) -> list[tuple[Characteristic, Quantity]]:
    """Give the sizes of a part that may be meant, by name or by the way it is off.

    Where the line names one of them it is no other; where it names another thing of
    the part, such as a hole, none that is on record is meant.
    """
    pieces = snapshot.named(line.facts.piece, Piece) if line.facts.piece else ()
    revision = made_to(snapshot, part, pieces[0] if pieces else None)
    found = []
    for item in characteristics_of(snapshot, part):
        held = as_held(snapshot, dimension(snapshot, revision, item))
        known = expected_of(snapshot, held)
        if known is not None and known.size.dimension == off.dimension:
            found.append((item, known.size))
    said = line.line.casefold()
    named = [one for one in found if one[0].title.casefold() in said]
    if named:
        longest = max(len(item.title) for item, _ in named)
        return [one for one in named if len(one[0].title) == longest]
    if _thing(line):
        return []
    way = _by_way(line.facts.off_sense.split()[-1]) if line.facts.off_sense else ""
    by_way = [one for one in found if way and one[0].title.casefold().endswith(way)]
    return by_way or found


def _by_way(how: str) -> str:
    """Give the size that a way to be off is of: “too long” is of the length."""
    ways = _NAMES_IT.items()
    return next((size for size, said in ways if how.casefold() in said), "")


def _thing(line: Understanding) -> str:
    """Give what stands between the part and how it is off: the “end hole too tight”."""
    part = max((span.end for span in line.words.get("part", ())), default=0)
    between, too, _ = line.line[part:].partition(" too ")
    words = re.findall(r"[a-z]+", between.casefold()) if too else []
    return " ".join(word for word in words if word not in _FILLING)


_FILLING = frozenset({"is", "was", "are", "were", "came", "come", "out", "turned", "a",
    "bit", "still", "now", "just", "the", "both", "all", "s", "got", "cut", "made",
    "sawn", "folded", "bent", "mm", "cm", "m", "in"})  # fmt: skip


def _is_near(off: Quantity, size: Quantity) -> bool:
    if size.metal or size.dimension != off.dimension or not size.value:
        return False
    return abs(off.to(size.unit) - size.value) <= abs(size.value) * _NEAR


def _is_small(off: Quantity, sizes: list[Quantity]) -> bool:
    """Tell whether a figure is an amount: small beside each size it may be of."""
    if off.dimension != "length":
        return True
    if not sizes:
        return off.to("mm") < _LEAST
    return all(abs(off.to(one.unit)) < abs(one.value) * _SMALL for one in sizes)


def _as_size(line: Understanding, what: str, off: Quantity) -> Understanding:
    """Give the line with its figure read as that size; how it is off stays with it."""
    readings = (Reading(off, what=what, place=line.facts.place),)
    facts = replace(line.facts, off=None, readings=readings, what=what)
    words = {fact: row for fact, row in line.words.items() if fact != "off"}
    words["readings"] = line.words.get("off", ())
    return replace(line, facts=facts, words=words)
