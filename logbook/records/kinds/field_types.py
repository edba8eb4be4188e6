"""The types of a record's fields, which say how each is read and what it can hold.

Nearly all kinds are made of the same few classes: what each class says itself is
worked out once, since every start waits for it.
"""

from __future__ import annotations

import inspect
import typing
from collections.abc import Mapping
from functools import cache
from typing import Any


@cache
def field_types(cls: type) -> Mapping[str, Any]:
    """Give the type of each field of a class, by its name.

    >>> from logbook.records.kinds.ids import Ref
    >>> list(field_types(Ref).items())
    [('name', <class 'str'>), ('id', <class 'str'>)]
    """
    found: dict[str, Any] = {}
    for one in reversed(cls.__mro__):
        found.update(_own(one))
    return found


@cache
def _own(cls: type) -> Mapping[str, Any]:
    written = inspect.get_annotations(cls)
    if not written:
        return {}
    facts = {"__annotations__": written, "__module__": cls.__module__}
    return typing.get_type_hints(type("own", (), facts))
