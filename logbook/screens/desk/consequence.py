"""What the entry just taken means: the advice it made, or made another one."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from logbook.advice.advisor import Told, strongest_first
from logbook.advice.ground.advice import Advice
from logbook.records.kinds.happenings import Entry, Run
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Grade
from logbook.records.together.snapshot import Snapshot

OVER = "the wait is over"
SUMMED = {"figures", "order"}
"""Topics that sum up much more than one entry: each entry moves them a little."""


class Aftermath:
    """What entries just taken come to mean, once they were advised on."""

    def __init__(self) -> None:
        """Wait for nothing."""
        self._said = ""
        self._before: Told | None = None
        self._written: list[Record] = []

    def expect(self, said: str, written: Sequence[Record], now: Told) -> None:
        """Wait for the advice about what was written; `now` is what is advised yet."""
        self._said = said
        self._before = self._before or now
        self._written += written

    def of(self, snapshot: Snapshot, told: Told, over: str) -> str:
        """Say what was written and what it means; nothing while that is not known.

        The waits that are `over` are said first, whoever ended them.
        """
        before, written = self._before, self._written
        if before is None or any(one.id not in snapshot for one in written):
            return over
        self._before, self._written = None, []
        means = over or consequence(before, told, written)
        return f"{self._said} · {means}" if means else ""


def consequence(before: Told, after: Told, written: Collection[Record]) -> str:
    """Say the strongest advice that came of these entries; empty where none did.

    A joint through what was measured is told though its verdict stayed: what comes of
    another thickness is asked each time, and its screw is bought by the answer.
    """
    known = {(one.key, one.statement) for one in before.advice}
    told = set(_told_of(written))
    hanging = [one for one in after.advice if _hangs_on(one, told)]
    fresh = strongest_first(
        one
        for one in hanging
        if one.topic not in SUMMED
        and ((one.key, one.statement) not in known or one.topic == "joints")
    )
    if not fresh:
        return ""
    more = f" (and {len(fresh) - 1} more)" if len(fresh) > 1 else ""
    return fresh[0].statement + _reach(fresh[0]) + more


def waits_over(before: Told, after: Told, snapshot: Snapshot) -> dict[str, str]:
    """Say which waits are over, and what is to be done now, by the key of each.

    What was gone past waits still, and what was taken off the record is not over; nor
    is it where a step that closes still asks for its ticks.
    """
    now = {one.key: one for one in after.advice}
    said = {}
    for one in before.open:
        then = now.get(one.key)
        if one.grade is not Grade.WAIT or one.about.id not in snapshot:
            continue
        if then is None and f"past {one.about.id}" not in now:
            said[one.key] = f"{one.about.name}: {OVER}"
        elif then is None:
            continue  # its step was done past it
        elif then.grade is not Grade.WAIT and not _asks_for_ticks(then):
            said[one.key] = _to_do_now(then)
    return said


def over_still(said: Mapping[str, str], told: Told) -> dict[str, str]:
    """Say of waits that were over what is to be done by now; one may be back."""
    now = {one.key: one for one in told.advice}
    return {
        key: _to_do_now(now[key]) if key in now else words
        for key, words in said.items()
        if key not in now
        or (now[key].grade is not Grade.WAIT and not _asks_for_ticks(now[key]))
    }


def _asks_for_ticks(one: Advice) -> bool:
    """Tell whether this is a step to be closed: it asks until it is done."""
    return one.topic == "holds" and one.key.startswith("close ")


def _to_do_now(one: Advice) -> str:
    words = one.statement
    if words.startswith(one.about.name):
        words = words.partition(": ")[2] or words
    return f"{OVER}: {words}"


def _reach(one: Advice) -> str:
    """Say by how much a screw stands through, where the advice tells."""
    shown = {number.name: number.shown for number in one.numbers}
    if one.topic != "joints" or not {"lowest", "highest"} <= set(shown):
        return ""
    return f": {shown['lowest']} to {shown['highest']} beyond the nut"


def _told_of(written: Collection[Record]) -> Iterator[str]:
    """Give the ids of the entries, and of the sizes that were read."""
    for one in written:
        if isinstance(one, Entry):
            yield one.id
        if isinstance(one, Run):
            yield from (reading.what.id for reading in one.readings)


def _hangs_on(one: Advice, told: Collection[str]) -> bool:
    return any(ref.id in told for ref in one.inputs)
