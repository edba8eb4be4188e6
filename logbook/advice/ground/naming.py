"""What the names in a formula mean: a part, perhaps at a place, and its dimension."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from logbook.advice.ground.drawn import dimensions_of
from logbook.errors import BadInput
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.ids import formula_name
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import Formula, Name, read_formula

read = lru_cache(maxsize=4096)(read_formula)
"""Read a formula; the same text is read once."""


@dataclass(frozen=True, slots=True)
class Meant:
    """What a name means; `renamed` is what it is called now, where it is not."""

    name: Name
    part: Part
    what: Characteristic
    renamed: str = ""


def meant(snapshot: Snapshot, name: Name) -> Meant:
    """Give the part and dimension that a name in a formula means.

    Raises:
        BadInput: no part or dimension, or several, are called so.
    """
    parts = snapshot.named(name.part, Part)
    if len(parts) != 1:
        raise BadInput(_which("part", name.part, [part.title for part in parts]))
    part = parts[0]
    held = dimensions_of(snapshot, part)
    now = [c for c in held if _called(c, name.dimension)]
    then = [c for c in held if name.dimension in map(formula_name, c.formerly)]
    found = now or then
    if len(found) != 1:
        known = [c.title for c in found or held]
        raise BadInput(_which(f"dimension of {part.title}", name.dimension, known))
    renamed = ""
    if not now:
        renamed = f"{part.name}.{found[0].name}"
    elif folded(name.part) not in {folded(part.name), folded(part.title)}:
        renamed = (
            f"{part.name}.{found[0].name}" if name.part not in part.aliases else ""
        )
    return Meant(name, part, found[0], renamed)


def _called(what: Characteristic, name: str) -> bool:
    return name in {what.name, formula_name(what.title)}


def _which(kind: str, name: str, known: list[str]) -> str:
    accepted = ", ".join(known[:12]) or "one that is on record"
    return f"no one {kind} is called “{name}”; accepted: {accepted}"


def formula_of(text: str) -> Formula:
    """Read a formula.

    Raises:
        BadInput: the text is none.
    """
    return read(text)
