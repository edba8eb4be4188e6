"""Known faults that were saved twice: of one entry, in two clones apart."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.names import folded
from logbook.records.together.ordered import age
from logbook.records.together.snapshot import Snapshot


def saved_faults(snapshot: Snapshot) -> tuple[Erratum, ...]:
    """Give the known faults on record, without those that only repeat another."""
    return tuple(one for one in snapshot.all(Erratum) if not _repeats(snapshot, one))


def kept_fault(snapshot: Snapshot, fault: Erratum) -> Erratum:
    """Give the known fault that one stands for: itself, or the one it repeats."""
    seen = {fault.id}
    while (other := snapshot.find(fault.same_as, Erratum)) and other.id not in seen:
        seen.add(other.id)
        fault = other
    return fault


def _repeats(snapshot: Snapshot, fault: Erratum) -> bool:
    return kept_fault(snapshot, fault) is not fault


def _named(ref: Ref) -> str:
    return ref.id or folded(ref.name)


def saved_twice(snapshot: Snapshot) -> Iterator[tuple[Erratum, Erratum]]:
    """Give each known fault that has an entry of an older one, behind that one.

    One entry may tell a fault of two parts: these are two.
    """
    first: dict[tuple[str, str], Erratum] = {}
    for fault in sorted(saved_faults(snapshot), key=age):
        part = _named(fault.part) if fault.part else ""
        keys = [(_named(ref), part) for ref in fault.from_entries]
        older = next((first[key] for key in keys if key in first), fault)
        if older is not fault:
            yield older, fault
        for key in keys:
            first.setdefault(key, older)
