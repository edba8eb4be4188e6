"""Gaps that wait for each other: each made last to suit what the next makes last."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.ground.naming import formula_of, meant
from logbook.advice.ground.register import View
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic


def circle_of(view: View, fit: Fit) -> tuple[Fit, ...]:
    """Give the gaps of a circle that begins and ends at this one, else none."""
    start = view.find(fit.made_last, Characteristic)
    if start is None:
        return ()
    seen: set[str] = set()
    waiting: list[tuple[Fit, ...]] = [(fit,)]
    while waiting:
        path = waiting.pop()
        for what in _others(view, path[-1]):
            if what is start:
                return path
            if what.id not in seen:
                seen.add(what.id)
                waiting += [(*path, other) for other in _making(view, what)]
    return ()


def _others(view: View, fit: Fit) -> Iterator[Characteristic]:
    """Give what the last dimension of a gap has to wait for."""
    last = view.find(fit.made_last, Characteristic)
    try:
        names = [meant(view, name) for name in formula_of(fit.formula).names]
    except BadInput:
        return  # said with that gap itself
    yield from (one.what for one in names if one.what is not last)


def _making(view: View, what: Characteristic) -> Iterator[Fit]:
    """Give the gaps that make a dimension last."""
    for record in view.mentions(what):
        if isinstance(record, Fit) and view.find(record.made_last) is what:
            yield record
