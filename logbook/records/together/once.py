"""What follows from a snapshot and some of its records, worked out once for them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial, wraps
from typing import Concatenate, ParamSpec, TypeVar

from logbook.records.together.snapshot import Snapshot

P = ParamSpec("P")
T = TypeVar("T")


def once(
    work: Callable[Concatenate[Snapshot, P], T],
) -> Callable[Concatenate[Snapshot, P], T]:
    """Let a function of a snapshot and of records remember its answers.

    They are kept with the snapshot and go with it. Only for what is asked again and
    again, takes records alone, in their order, and gives what nobody changes.
    """

    @wraps(work)
    def asked(snapshot: Snapshot, /, *about: P.args, **named: P.kwargs) -> T:
        answer = partial(work, snapshot, *about, **named)
        return snapshot.once(work, (*about, *named.values()), answer)

    return asked
