"""Read files handed from one process to another, a parcel at a time.

The one that takes them has little to do: a value is sent as what makes it, without
what it has anyway, and equal references become one. So it can do something else
beside it, which it could not while reading the files itself.
"""

from __future__ import annotations

import dataclasses
import pickle
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache, lru_cache
from itertools import islice
from typing import IO, Any

from logbook.records.kinds.ids import Ref
from logbook.records.written.text import Parsed

File = tuple[str, tuple[str, Parsed]]
"""A path, and what was read there: digest and content."""

IN_A_PARCEL = 25
"""Files: few enough that taking them is over in the blink of an eye."""


def send(files: Iterable[File], to: IO[bytes]) -> None:
    """Send files as they are read, and word that these were all."""
    rest = iter(files)
    while parcel := tuple(islice(rest, IN_A_PARCEL)):
        _Packer(to, pickle.HIGHEST_PROTOCOL).dump(parcel)
        to.flush()
    pickle.dump((), to)
    to.flush()


def take(out_of: IO[bytes]) -> Iterator[File]:
    """Take in what a process of our own sends.

    Raises:
        EOFError: it ended before it had sent everything.
    """
    while parcel := pickle.load(out_of):  # noqa: S301  # from our own process
        yield from parcel


class _Packer(pickle.Pickler):
    def reducer_override(self, value: Any) -> Any:
        cls = type(value)
        if cls is Ref:
            return _shared, (value.name, value.id)
        if cls is Fraction:
            return Fraction, (value.numerator, value.denominator)
        if not dataclasses.is_dataclass(cls):
            return NotImplemented
        names, held, usual = _fields(cls)
        facts = {
            name: one
            for name, one, other in zip(names, held(value), usual, strict=True)
            if one is not other and (one or other or type(one) is not type(other))
        }
        return _made, (cls, facts)


@cache
def _fields(cls: Any) -> tuple[tuple[str, ...], Callable[[Any], Any], tuple[Any, ...]]:
    """Give the names of the fields of a class, what gets them all, what they are."""
    fields = dataclasses.fields(cls)
    names = tuple(field.name for field in fields)
    usual = tuple(
        field.default
        if field.default_factory is dataclasses.MISSING
        else field.default_factory()
        for field in fields
    )
    return names, lambda value: tuple(getattr(value, name) for name in names), usual


def _made(cls: Callable[..., Any], facts: Mapping[str, Any]) -> Any:
    return cls(**facts)


@lru_cache(maxsize=1 << 14)
def _shared(name: str, identity: str) -> Ref:
    return Ref(name, identity)
