"""Which page a fault's number is read on: of the release that is named, or built by."""

from __future__ import annotations

from logbook.advice.faults.applies import faults_in
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.by_number import FaultsOfPage
from logbook.records.making.not_met import Known, called_by_name, steady_id
from logbook.records.together.snapshot import Snapshot


def page_meant(
    snapshot: Snapshot, build: Build | None, label: str = ""
) -> FaultsOfPage | None:
    """Give the faults of the release of a label, else of the one a build is made by.

    None where there is no such release, or the build is made by none.
    """
    if label:
        bare = label.removeprefix("v")
        named = (one for one in snapshot.all(Release) if one.label in {label, bare})
        release = next(named, None)
    else:
        release = snapshot.find(build.release, Release) if build else None
    if release is None:
        return None
    found = (_on_record(snapshot, one) for one in faults_in(snapshot, release))
    return FaultsOfPage(release, tuple(found))


def _on_record(snapshot: Snapshot, fault: Erratum) -> Known:
    """Give what is on record of a fault: one that nobody saved is its entry."""
    return called_by_name(snapshot).get(steady_id(fault), fault)
