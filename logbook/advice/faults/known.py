"""All known faults: those saved, and those drafted from entries, each once.

What went wrong with the very revision that was to cure a fault, in the same way, is
that fault come back and none of its own, until its author saves it as one.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.advice.faults.drafted import blamed_entries, drafted
from logbook.advice.faults.failing import returned
from logbook.advice.faults.headline import titled
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Severity
from logbook.records.together.once import once
from logbook.records.together.same_faults import saved_faults
from logbook.records.together.snapshot import Snapshot

_GRAVITY = list(Severity)


@once
def known_faults(snapshot: Snapshot) -> tuple[Erratum, ...]:
    """Give every known fault, saved or drafted, gravest first."""
    saved = saved_faults(snapshot)
    covered = {ref.id for erratum in saved for ref in erratum.from_entries}
    named = [replace(one, title=titled(snapshot, one)) for one in saved]
    drafts = [
        drafted(snapshot, entry)
        for entry in blamed_entries(snapshot)
        if entry.id not in covered
    ]
    back = {
        entry.id
        for fault in (*named, *drafts)
        for entry in returned(snapshot, fault)
        if entry.id != fault.id
    }
    kept = (fault for fault in drafts if fault.id not in back)
    return tuple(sorted((*named, *kept), key=gravity))


def gravity(erratum: Erratum) -> tuple[bool, int, object, str]:
    """Order faults: what must not be used first, then by severity, then by age."""
    stop = not (erratum.stop_using_until or erratum.severity is Severity.SAFETY)
    return stop, _GRAVITY.index(erratum.severity), erratum.when, erratum.id
