"""The vocabulary of a project, taken from its records."""

from __future__ import annotations

from collections import defaultdict
from datetime import datetime

from logbook.plain.vocabulary import Vocabulary
from logbook.records import model
from logbook.records.snapshot import Snapshot


def vocabulary(snapshot: Snapshot, now: datetime) -> Vocabulary:
    """Give the names a plain line may use in this project."""
    parts = {
        part.title: (part.name, *part.aliases, *part.formerly)
        for part in snapshot.all(model.Part)
    }
    characteristics: dict[str, list[str]] = defaultdict(list)
    places: dict[str, None] = {}
    for item in snapshot.all(model.Characteristic):
        owner = snapshot.find(item.part, model.Part)
        if owner is not None:
            characteristics[owner.title].append(item.title)
        places.update(dict.fromkeys(item.places))
    pieces: dict[str, list[str]] = defaultdict(list)
    for piece in snapshot.all(model.Piece):
        owner = snapshot.find(piece.part, model.Part)
        if owner is not None:
            pieces[owner.title].append(piece.title)
    for run in snapshot.all(model.Run):
        places.update((r.place, None) for r in run.readings if r.place)
    return Vocabulary(
        now=now,
        parts=parts,
        characteristics=characteristics,
        pieces=pieces,
        builds=_titles(snapshot, model.Build),
        places=tuple(places),
        machines=_titles(snapshot, model.Machine),
        instruments=_titles(snapshot, model.Instrument),
        stocks=_titles(snapshot, model.Stock),
        steps=_titles(snapshot, model.Step),
        unit=snapshot.project.unit,
    )


def _titles(snapshot: Snapshot, cls: type[model.Record]) -> tuple[str, ...]:
    return tuple(record.title for record in snapshot.all(cls))
