"""What somebody does who has begun by a release and finds that there is a newer one.

What is made already is kept or made anew, what is not yet is made by the newer one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from logbook.publish.faults.newer import newer_than
from logbook.publish.faults.withdrawn import withdrawn_parts
from logbook.publish.guide.bought_parts import Rebought
from logbook.publish.guide.history import history
from logbook.publish.guide.since_before import Since, since_before
from logbook.publish.release.released import Released
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class HalfWay:
    """The newer release to go on by, and how it stands to what is made by the older.

    `keep` are unchanged and without a known fault, `faulty` unchanged with one,
    `remade` with one against which they are made again all the same, `other` changed
    with whether one that is made is made anew, `blameless` what changed in those of
    them that no known fault speaks of, `stopped` those of them that are made by the
    newer one, and `withdrawn` those whose newer revision was withdrawn, with why and
    which is left; `suited` were made to suit a part that changed; `rebought` is bought
    by another revision. `new` the older one had not, `gone` the newer needs no more;
    `changes` tells whether its guide says what changed.
    """

    label: str
    keep: tuple[str, ...]
    faulty: tuple[str, ...]
    remade: tuple[str, ...]
    other: tuple[tuple[str, str], ...]
    blameless: Mapping[str, str]
    stopped: tuple[str, ...]
    withdrawn: Mapping[str, str]
    suited: tuple[tuple[str, str, str], ...]
    rebought: tuple[Rebought, ...]
    new: tuple[str, ...]
    gone: tuple[str, ...]
    changes: bool


def half_way(snapshot: Snapshot, release: Release) -> HalfWay | None:
    """Say it to who reads a page of this release; None where there is none to take.

    A newer release against which more is known is none to go over to.
    """
    newer = newer_than(snapshot, release)
    if newer is None or newer.worse:
        return None
    take = next(one for one in snapshot.all(Release) if one.label == newer.label)
    held = Released(snapshot, take)
    every = since_before(held)
    since = next((one for one in every if one.label == release.label), None)
    changes = any(True for _ in history(held))
    return _told(held, since, changes=changes) if since else None


def _told(held: Released, since: Since, *, changes: bool) -> HalfWay:
    withdrawn = withdrawn_parts(held.snapshot, held.revisions)
    return HalfWay(
        label=held.release.label,
        keep=since.same,
        faulty=tuple(part for part, _ in since.faulty if part not in since.remade),
        remade=since.remade,
        other=since.again,
        blameless=dict(since.blameless),
        stopped=tuple(part for part, _ in since.again if part not in withdrawn),
        withdrawn=withdrawn,
        suited=since.suited,
        rebought=since.rebought,
        new=since.new,
        gone=since.gone,
        changes=changes,
    )
