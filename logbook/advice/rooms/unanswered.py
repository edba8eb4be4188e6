"""Why a part gets no answer about the rooms: what is on record, and what is missing."""

from __future__ import annotations

import shlex
from collections.abc import Collection, Iterator

from logbook.advice.ground.material import material_of, row_for
from logbook.advice.rooms.climate import rooms, species_near, species_row
from logbook.errors import BadInput
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.together.snapshot import Snapshot
from logbook.shop.tables import table


def rooms_told(snapshot: Snapshot) -> str:
    """Say which rooms the project names; where it names none, how to say them."""
    try:
        found = rooms(snapshot.project)
    except BadInput as refusal:
        return str(refusal)
    heat = _range(found.coldest, found.hottest, "°C")
    damp = _range(found.driest, found.dampest, "% humidity")
    if said := ", ".join(one for one in (heat, damp) if one):
        return f"rooms on record: {said}"
    return (
        "no rooms are on record: logbook project --coldest, --hottest (15 °C), "
        "--driest, --dampest (30 %)"
    )


def unanswered(
    snapshot: Snapshot, parts: Collection[Part], answered: Collection[str]
) -> Iterator[tuple[Part, str]]:
    """Give each part, but those answered by id, with what its answer waits for.

    Nothing is said of what is bought, nor of what is neither wood nor a plastic.
    """
    for part in parts:
        if part.id in answered or part.source is Source.BOUGHT:
            continue
        if said := _missing(part, material_of(snapshot, part)):
            yield part, f"{part.title}: {said}"


def _missing(part: Part, material: str) -> str:
    """Give what is missing for an answer, empty where none is to be expected."""
    named = shlex.quote(part.title)
    if not material:
        return f"no material on record: logbook part {named} --material …"
    if any(species_row(name, material) for name in ("coefficients", "shrinkage")):
        return (
            f"{material}, but no size across the grain is on record; one called width "
            f'is taken for it: logbook part {named} --dimension "width=…"'
        )
    if near := species_near(material):
        return (
            f"no figures of “{material}” alone; a kind of it, where the material "
            f"stands on record: {'; '.join(near)}"
        )
    if row_for(table("heat", "softening"), material):
        return (
            f"{material}, but no temperature was read on it: “{part.title} … °C "
            "after … h in a … °C room”"
        )
    return ""


def _range(low: float | None, high: float | None, unit: str) -> str:
    match low, high:
        case None, None:
            return ""
        case None, _:
            return f"up to {high:g} {unit}"
        case _, None:
            return f"from {low:g} {unit}"
    return f"{low:g} to {high:g} {unit}"
