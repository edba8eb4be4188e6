"""Which acts are not taken back: what others may hold, and what later records name."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.errors import Refused
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.last import Act
from logbook.store.acts.released import tagged
from logbook.store.git.repository import Repository


def refuse_released(snapshot: Snapshot, repository: Repository, act: Act) -> None:
    """Refuse to take an act back that made a release whose tag stands.

    Raises:
        Refused: it did.
    """
    made = {touched.path for touched in act.files if not touched.before}
    for release in snapshot.all(Release):
        if snapshot.path(release) not in made:
            continue
        if not release.tag or not tagged(repository, release.tag):
            continue
        raise Refused(
            f"the last act made release {release.label}: its tag {release.tag} and its "
            "pages may be in others' hands, so it is not taken back; accepted: tell "
            "what is wrong with it (logbook erratum), withdraw a revision in it "
            "(logbook status REVISION withdrawn), or, only if nobody has it yet, "
            f"git tag -d {release.tag} and then logbook undo"
        )


def refuse_named(snapshot: Snapshot, written: Iterable[Record], act: Act) -> None:
    """Refuse to take away a record that one which stays names.

    `written` are the records the act wrote, as they are now.

    Raises:
        Refused: there is one.
    """
    own = {touched.path: not touched.before for touched in act.files}
    for record in written:
        made = own.get(snapshot.path(record), False)
        for other in snapshot.mentions(record) if made else ():
            if snapshot.path(other) not in own:
                raise Refused(
                    f"“{record.title}” is not taken back: “{other.title}” came "
                    "later and is of it; accepted: that one taken back first"
                )
