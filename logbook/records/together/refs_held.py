"""Every reference a record holds, in nested tables too."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Callable
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar

from logbook.records.kinds.field_types import field_types
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record

R = TypeVar("R", bound=Record)


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


def pointed(record: R, gone: str, to: Ref) -> R:
    """Give a record with every reference to the id `gone` led elsewhere.

    What then stands twice in a row of references stands there once.
    """
    return typing.cast("R", _pointed(record, gone, to))


def _pointed(value: Any, gone: str, to: Ref) -> Any:
    if type(value) is Ref:
        return to if value.id == gone else value
    if type(value) is tuple:
        led = [_pointed(item, gone, to) for item in value]
        refs = all(type(item) is Ref for item in led)
        return tuple(dict.fromkeys(led) if refs else led)
    cls: type = type(value)
    names = _referring(cls)
    if not names:
        return value
    led_on = {name: _pointed(getattr(value, name), gone, to) for name in names}
    return dataclasses.replace(value, **led_on)


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
