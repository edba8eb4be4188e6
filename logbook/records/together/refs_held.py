"""Every reference a record holds, in nested tables too."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Callable
from functools import cache
from operator import attrgetter
from typing import Any

from logbook.records.kinds.field_types import field_types
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
        held_by = _HELD_BY.get(cls) or _learned(cls)
        for held in held_by(value):
            if type(held) is Ref:
                found.append(held)
            elif held:
                _gather(held, found)


_HELD_BY: dict[type, Callable[[Any], tuple[Any, ...]]] = {}
"""What takes out the fields of a class that can hold a reference, however deep."""


def _learned(cls: type) -> Callable[[Any], tuple[Any, ...]]:
    names = _referring(cls)
    if len(names) > 1:
        _HELD_BY[cls] = attrgetter(*names)
    elif names:
        alone = attrgetter(*names)
        _HELD_BY[cls] = lambda value: (alone(value),)
    else:
        _HELD_BY[cls] = lambda _: ()
    return _HELD_BY[cls]


@cache
def _referring(cls: type) -> tuple[str, ...]:
    """Name the fields of a class that can hold a reference."""
    if not dataclasses.is_dataclass(cls):
        return ()
    types = field_types(cls)
    names = (field.name for field in dataclasses.fields(cls))
    return tuple(name for name in names if _can_refer(types[name]))


def _can_refer(hint: Any) -> bool:
    inner = typing.get_args(hint)
    if inner:
        return any(_can_refer(one) for one in inner)
    return hint is Ref or (isinstance(hint, type) and bool(_referring(hint)))
