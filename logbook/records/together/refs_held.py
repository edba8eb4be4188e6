"""Every reference a record holds, in nested tables too."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Iterator
from typing import Any

from logbook.records.kinds.ids import Ref


def refs_in(value: Any) -> list[Ref]:
    """Give every reference a record holds, in nested tables too, in order."""
    found: list[Ref] = []
    _gather(value, found)
    return found


def _gather(value: Any, found: list[Ref]) -> None:
    cls = type(value)
    if cls is Ref:
        found.append(value)
    elif cls is tuple:
        for item in value:
            _gather(item, found)
    else:
        for name in _referring(cls):
            held = getattr(value, name)
            if type(held) is Ref:
                found.append(held)
            elif held:
                _gather(held, found)


_REFERRING: dict[type, tuple[str, ...]] = {}


def _referring(cls: type) -> tuple[str, ...]:
    """Name the fields of a class that can hold a reference, at whatever depth."""
    found = _REFERRING.get(cls)
    if found is None:
        found = _REFERRING[cls] = tuple(_worked_out(cls))
    return found


def _worked_out(cls: type) -> Iterator[str]:
    if dataclasses.is_dataclass(cls):
        hints = typing.get_type_hints(cls)
        for field in dataclasses.fields(cls):
            if _can_refer(hints[field.name]):
                yield field.name


def _can_refer(hint: Any) -> bool:
    inner = typing.get_args(hint)
    if inner:
        return any(_can_refer(one) for one in inner)
    return hint is Ref or (isinstance(hint, type) and bool(_referring(hint)))
