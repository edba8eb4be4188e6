"""Every reference a record holds, in nested tables too."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Callable, Iterator
from functools import cache
from operator import attrgetter
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
        for held in _holder(cls)(value):
            if type(held) is Ref:
                found.append(held)
            elif held:
                _gather(held, found)


@cache
def _holder(cls: type) -> Callable[[Any], tuple[Any, ...]]:
    """Give what takes out the fields that can hold a reference, at whatever depth."""
    names = tuple(_worked_out(cls))
    if len(names) > 1:
        return attrgetter(*names)
    if not names:
        return lambda _: ()
    alone = attrgetter(*names)
    return lambda value: (alone(value),)


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
    return hint is Ref or (
        isinstance(hint, type) and any(True for _ in _worked_out(hint))
    )
