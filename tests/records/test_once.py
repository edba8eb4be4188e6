"""What is worked out once for a snapshot is asked of that snapshot's records alone."""

from __future__ import annotations

from dataclasses import replace

from logbook.advice.ground.register import Register, View
from logbook.records.kinds.design import Part, Revision
from logbook.records.together.once import once
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.together.succession import with_records
from tests.records.test_snapshot import BAR, BASE, HUB, REVS, snap

ASKED: list[str] = []


@once
def titled(snapshot: Snapshot, part: Part) -> str:
    ASKED.append(part.title)
    return f"{part.title} of {len(snapshot)}"


def test_it_is_asked_once_for_each_record_and_each_snapshot() -> None:
    ASKED.clear()
    snapshot, other = snap(*BASE), snap(BAR)
    assert titled(snapshot, BAR) == titled(snapshot, BAR) == f"crossbar of {len(BASE)}"
    assert titled(snapshot, part=BAR) == f"crossbar of {len(BASE)}"
    assert titled(other, BAR) == "crossbar of 1"
    assert titled(snapshot, HUB) == f"hub of {len(BASE)}"
    assert ASKED == ["crossbar", "crossbar", "hub"]


def test_a_draft_with_the_id_of_a_record_is_asked_about_itself() -> None:
    snapshot = snap(*BASE)
    assert titled(snapshot, BAR).startswith("crossbar ")
    for number in range(50):  # what is gone again leaves its place in memory to others
        draft = replace(BAR, title=f"draft {number}")
        assert titled(snapshot, draft).startswith(f"draft {number} ")


def test_the_snapshot_that_follows_is_asked_anew() -> None:
    snapshot = snap(*BASE)
    assert revisions_of(snapshot, BAR) == REVS
    more = replace(REVS[2], id="rev00004", title="crossbar C", label="C")
    later = with_records(snapshot, [Stored(more, "more.md", "")])
    assert revisions_of(later, BAR) == (*REVS, more)
    assert revisions_of(snapshot, BAR) == REVS


def test_a_view_looks_again_so_that_it_notes_what_it_looked_at() -> None:
    register = Register()
    register.update(snap(*BASE))
    for _ in range(2):
        view = View(register)
        assert revisions_of(view, BAR) == REVS
        assert f"@{BAR.id} {Revision.__name__}" in view.read
