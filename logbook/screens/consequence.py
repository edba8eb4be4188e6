"""What the entry just taken means: the advice it made, or made another one."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from textwrap import shorten

from logbook.advice.advice import Advice
from logbook.advice.advisor import Told, strongest_first
from logbook.records.happenings import Entry, Run
from logbook.records.record import Record

MOST_SAID = 200
"""Signs of a statement; the message row has no room for more."""
SUMMED = {"figures", "order"}
"""Topics that sum up much more than one entry: each entry moves them a little."""


def consequence(before: Told, after: Told, written: Collection[Record]) -> str:
    """Say the strongest advice that came of these entries; empty where none did."""
    known = {(one.key, one.statement) for one in before.advice}
    told = set(_told_of(written))
    fresh = strongest_first(
        one
        for one in after.advice
        if one.topic not in SUMMED
        and (one.key, one.statement) not in known
        and _hangs_on(one, told)
    )
    if not fresh:
        return ""
    more = f" (and {len(fresh) - 1} more)" if len(fresh) > 1 else ""
    return shorten(fresh[0].statement, MOST_SAID, placeholder=" …") + more


def _told_of(written: Collection[Record]) -> Iterator[str]:
    """Give the ids of the entries, and of the sizes that were read."""
    for one in written:
        if isinstance(one, Entry):
            yield one.id
        if isinstance(one, Run):
            yield from (reading.what.id for reading in one.readings)


def _hangs_on(one: Advice, told: Collection[str]) -> bool:
    return any(ref.id in told for ref in one.inputs)
