"""That a known fault does not occur in a build, and by which name it is called."""

from __future__ import annotations

from logbook.records.kinds.happenings import Deviation, Entry, Failure, Status
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Blame, State
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.once import once
from logbook.records.together.same_faults import saved_faults
from logbook.records.together.snapshot import Snapshot

Known = Erratum | Deviation | Failure
"""A known fault: saved as one, or the entry it is drafted from."""
_NAME = 4
"""Signs of an id that are said of it at least."""


def say_not_met(draft: Draft, fault: Known, because: str = "") -> Status:
    """Draft that a fault does not occur in the build at hand."""
    build = draft.build()
    draft.remarks.append(f"does not occur in {build.title}: {fault.title}")
    return draft.add(
        Status(
            id=new_id(),
            title=f"does not occur: {fault.title}",
            when=draft.when,
            build=build.ref,
            of=fault.ref,
            state=State.NOT_MET,
            because=because,
        )
    )


def not_met_in(snapshot: Snapshot, erratum: Erratum) -> tuple[Status, ...]:
    """Give what says that a fault does not occur in a build, the newest of each."""
    own = {erratum.id, *(ref.id for ref in erratum.from_entries)}
    last: dict[str, Status] = {}
    for one in snapshot.all(Status):
        if one.state is State.NOT_MET and one.of.id in own and one.build:
            last[one.build.id] = one
    return tuple(one for one in last.values() if snapshot.find(one.build, Build))


@once
def called_by_name(snapshot: Snapshot) -> dict[str, Known]:
    """Give every known fault by the id it was first told under: that never changes."""
    saved = saved_faults(snapshot)
    covered = {ref.id for one in saved for ref in one.from_entries}
    found: dict[str, Known] = {steady_id(one): one for one in saved}
    told: list[Known] = [*snapshot.all(Failure), *snapshot.all(Deviation)]
    for entry in told:
        blamed = getattr(entry, "met_by_others", None) is Blame.DRAWING
        if blamed and entry.id not in covered:
            found[entry.id] = entry
    return found


def steady_id(fault: Erratum | Entry) -> str:
    """Give the id a fault has before and after it is saved: of its first entry."""
    told = fault.from_entries if isinstance(fault, Erratum) else ()
    return told[0].id if told else fault.id


def steady_name(snapshot: Snapshot, fault: Erratum | Entry) -> str:
    """Give the name of a fault that no edition of a page changes: 7rzg."""
    own = steady_id(fault)
    others = [one for one in called_by_name(snapshot) if one != own]
    for length in range(_NAME, len(own)):
        if not any(one.startswith(own[:length]) for one in others):
            return own[:length]
    return own
