"""A proposal is offered once, meant by its mark, and stays away when declined."""

from __future__ import annotations

import pytest

from logbook.advice.proposals import brought_up, offered, proposals
from logbook.advice.proposed.proposal import MARK_LENGTH, Proposal, decline
from logbook.errors import NotFound
from logbook.records.kinds.happenings import Note
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from tests.advice.proposed.together_by_hand import Bench, done


def test_one_that_was_declined_stays_away(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    snapshot = bench.snapshot()
    draft = Draft(snapshot, bench.now)
    decline(draft, proposals(snapshot)[0])
    bench.put(draft.new[0])
    assert bench.asked() == []


def test_only_what_the_entry_brought_up_is_asked_about(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    before = bench.snapshot()
    bench.put(Note(id=new_id(), title="remember the wide jaw", when=bench.now))
    assert brought_up(before, bench.snapshot()) is None
    done(bench, "glued the channel")
    asked = brought_up(before, bench.snapshot())
    assert asked is not None
    assert "glue the channel" in asked.question
    assert brought_up(bench.snapshot(), bench.snapshot()) is None


def test_a_proposal_is_meant_by_mark_beginning_or_name(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    done(bench, "glued the channel")
    snapshot = bench.snapshot()
    first, second = proposals(snapshot)
    assert len(first.mark) == MARK_LENGTH
    assert offered(snapshot, first.mark.upper()) == first
    assert offered(snapshot, second.mark[:4]) == second
    assert offered(snapshot, "Riveted the lid on") == first
    with pytest.raises(NotFound, match="accepted: "):
        offered(snapshot, "nothing of the sort")


@pytest.mark.parametrize(
    ("answer", "subject"),
    [
        ("y", "size: does bar-2 read 179.1 mm? yes"),
        ("179.2", "size: does bar-2 read 179.1 mm? 179.2"),
        ("179.2 at the left", "size: 179.2 at the left"),
        ("no", "not wanted: does bar-2 read 179.1 mm?"),
        ("not wanted", "not wanted: does bar-2 read 179.1 mm?"),
    ],
)
def test_what_was_answered_is_told_in_git_by_more_than_a_yes(
    answer: str, subject: str
) -> None:
    asked = Proposal(
        key="as cut 0d0d0d0d",
        topic="size",
        about=Ref("bar-2", "0p0p0p0p"),
        question="does bar-2 read 179.1 mm?",
        buys="",
        accepts="yes",
        inputs=(),
        take=lambda _, __: None,
    )
    assert asked.subject(answer) == subject
