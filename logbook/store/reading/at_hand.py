"""The build this user works on: where what he logs next belongs if he names none.

It is the one he last logged in on this clone, by the order of typing. An entry that
was moved to another build, or amended, does not lead there: only what was typed
counts. What was logged since in another clone is newer and leads to its build, where
that is of the same shop: a merge puts nobody into the build of another builder.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import current_build
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.twins import joined_to
from logbook.records.together.whose_shop import another_shop
from logbook.store.acts.last import Act


def worked_in(written: Sequence[Record], shown: str = "") -> str:
    """Give the id of the build that new records begin, are written in, or are of.

    `shown` is the build one is looking at. Empty: there is none of all these.
    """
    begun = [record.id for record in written if isinstance(record, Build)]
    of = [one.build.id for one in written if isinstance(one, Entry) and one.build]
    return begun[-1] if begun else shown or (of or [""])[-1]


def build_at_hand(snapshot: Snapshot, acts: Sequence[Act]) -> Build | None:
    """Give the build worked on by these acts of this clone, oldest first."""
    for act in reversed(acts):
        if not act.undone and (build := _now(snapshot, act.build)):
            own = {touched.path for each in acts for touched in each.files}
            return _begun_since(snapshot, act, own, build) or build
    return current_build(snapshot)


def build_left(snapshot: Snapshot, identity: str, since: datetime) -> Build | None:
    """Give the build with this id, in which a window was left then, to go on with.

    None where it is gone, or one was begun since: that is the one worked on.
    """
    builds = snapshot.all(Build)
    found = _now(snapshot, identity)
    second = since.replace(microsecond=0)  # no record is told finer
    newer = any(build.when >= second for build in builds if build is not found)
    return None if newer else found


def _now(snapshot: Snapshot, identity: str) -> Build | None:
    """Give the build that had this id, also where it was joined to another since."""
    ref = Ref("", identity)
    found = snapshot.find(ref, Build) or joined_to(snapshot, ref)
    return found if identity and isinstance(found, Build) else None


def _begun_since(
    snapshot: Snapshot, act: Act, own: set[str], of: Build
) -> Build | None:
    """Give the build worked on elsewhere after this act, by who makes that it is `of`.

    `own` files are this clone's.
    """
    for entry in reversed(snapshot.entries):
        if entry.when <= act.instant:
            break
        build = snapshot.find(entry.build, Build)
        if build is None or another_shop(build, of):
            continue
        if snapshot.path(entry) not in own:
            return build
    for build in reversed(snapshot.all(Build)):
        late = build.when > act.instant and snapshot.path(build) not in own
        if late and not another_shop(build, of):
            return build
    return None
