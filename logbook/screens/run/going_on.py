"""Runs that were interrupted, gone on with where they stood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.screens.desk.desk import Desk
from logbook.screens.run.grid import Grid
from logbook.screens.run.measure import Measure
from logbook.screens.run.slots import Subject

Runs = Sequence[Sequence[str]]
"""The pieces that were measured, each with the run on it."""


def measuring(
    desk: Desk, part: str, number: int | None, title: str, *begun: Any
) -> Measure:
    """Give the run on a piece as it stood; its part may be on no record yet."""
    sheet = Measure(desk, [Subject(part, number, title)])
    _begin(sheet, desk, *begun)
    return sheet


def batch_of(desk: Desk, part_id: str, what: str, *begun: Any) -> Grid | None:
    """Give the run across the pieces of a part as it stood; None: it is gone.

    Last of what was begun are the numbers of its pieces; without them all there are.
    """
    if desk.snapshot.by_id(part_id, Part) is None:
        return None
    runs, at, warmth, *numbers = begun
    sheet = Grid(desk, part_id, numbers=numbers[0] if numbers else ())
    sheet.go_on_across(what)
    _begin(sheet, desk, runs, at, warmth)
    return sheet


def _begin(
    sheet: Measure, desk: Desk, runs: Runs, at: str, warmth: Sequence[str]
) -> None:
    sheet.go_on([*_of_today(desk, runs)], at, warmth)


def _of_today(desk: Desk, runs: Runs) -> Iterator[Sequence[str]]:
    """Give the runs that are still gone on with; a later day takes a run of its own."""
    for piece, identity in runs:
        run = desk.snapshot.by_id(identity, Run)
        if run is not None and run.readings:
            last = run.readings[-1].at.astimezone()
            if last.date() == desk.when().date():
                yield piece, identity
