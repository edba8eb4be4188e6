"""Several things told in one option, with commas or “and” between them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from logbook.errors import BadInput
from logbook.plain.stated.part_names import new_part
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_COMMA = re.compile(r"\s*,\s+(?:and\s+)?")
_BETWEEN = re.compile(r"\s*,\s+(?:and\s+)?|\s+and\s+|\s*&\s*")
LONGEST_THING = 3
"""Words of a thing in a row of several; what has more is told in one piece."""


def things_told(values: Sequence[str]) -> tuple[str, ...]:
    """Give each thing of a row by itself: each is ticked by itself.

    “the lamp lights, and stays lit for an hour” is one sentence, and stays one.
    """
    return tuple(thing for value in values for thing in _things(value))


def _things(value: str) -> Iterator[str]:
    parted = [thing for thing in _COMMA.split(value.strip()) if thing]
    row = all(len(thing.split()) <= LONGEST_THING for thing in parted)
    yield from parted if row else (value,)


def parts_told(
    draft: Draft, option: str, values: Sequence[str], *, insist: bool = False
) -> tuple[Part, ...]:
    """Give the parts of a row: a whole name that is on record, else one by one.

    Raises:
        BadInput: several are told in one row and one of them is on no record: it may
            be a slip, or a part whose name has a comma.
    """
    named = [name for value in values for name in _names(draft.snapshot, option, value)]
    return tuple(new_part(draft, name, insist=insist) for name in named)


def _names(snapshot: Snapshot, option: str, value: str) -> Sequence[str]:
    known = bool(snapshot.named(value, Part))
    parted = [] if known else [one for one in _BETWEEN.split(value.strip()) if one]
    if len(parted) < 2:
        return (value,)
    missing = [one for one in parted if not snapshot.named(one, Part)]
    if not missing:
        return parted
    told = " ".join(f'--{option} "{one}"' for one in parted)
    none = " or ".join(f"“{one}”" for one in missing)
    raise BadInput(
        f"“{value}” names several, and no part is called {none}; accepted: one by one, "
        f"which makes what is new: {told}"
    )
