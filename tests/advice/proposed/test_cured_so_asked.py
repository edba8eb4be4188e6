"""Work that holds is asked about once: is it what cured the failure before it?"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from logbook.advice.faults.helped import HELPED, helped
from logbook.advice.proposals import brought_up, proposals
from logbook.advice.proposed.proposal import Proposal, decline
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Failure, Note, Status
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import known, world

WORDS = Vocabulary(now=NOW, parts={"lamp": (), "gate": (), "lid": ()})


def after(*lines: str) -> Snapshot:
    """Log lines one minute after the other; what no rule reads is kept as a note."""
    records: tuple[Record, ...] = known(WORDS)
    for minute, says in enumerate(lines, 1):
        draft = Draft(world(records), NOW + timedelta(minutes=minute))
        drafted = draft_line(draft, understand(says, WORDS))
        amended = {one.id for one in drafted.amended}
        kept = tuple(one for one in records if one.id not in amended)
        records = (*kept, *drafted.amended, *drafted.records)
    return world({one.id: one for one in records}.values())


def asked(snapshot: Snapshot) -> list[Proposal]:
    return [one for one in proposals(snapshot) if one.key.startswith("cured so")]


@pytest.mark.parametrize(
    "line",
    [
        "soldered the lamp anew with a strain relief, it lights",
        "glued the lamp again and it holds",
        "screwed the lamp on with pan heads, it works",
        "reworked the lamp with a shim, works now",
    ],
)
def test_work_that_holds_is_what_cured_it_if_its_maker_says_so(line: str) -> None:
    before = after("the lamp broke off at the cable")
    now = after("the lamp broke off at the cable", line)
    [one] = asked(now)
    assert "is that what cured “the lamp broke off at the cable”?" in one.question
    assert not asked(before)
    draft = Draft(now, NOW + timedelta(hours=1))
    one.take(draft, "yes")
    taken = world({r.id: r for r in (*now, *draft.amended, *draft.records)}.values())
    [failure] = taken.all(Failure)
    assert failure.cure == line
    assert helped(taken, failure) == HELPED
    assert not asked(taken)
    assert any(isinstance(one, Status) for one in draft.records)


def test_it_is_asked_before_anything_else_an_entry_brings_up() -> None:
    before = after("the lid broke off at the cable")
    now = after("the lid broke off at the cable", "riveted the lid on again, it holds")
    found = brought_up(before, now)
    assert found is not None
    assert found.key.startswith("cured so")


def test_a_no_is_asked_no_more() -> None:
    now = after("the lamp broke off", "glued the lamp again and it holds")
    draft = Draft(now, NOW + timedelta(hours=1))
    decline(draft, asked(now)[0])
    assert not asked(world((*now, *draft.records)))


@pytest.mark.parametrize(
    "lines",
    [
        ("the lamp broke off", "glued the lamp again"),
        ("the lamp broke off", "glued the gate again and it holds"),
        ("glued the lamp on and it holds", "the lamp broke off"),
        ("the lamp broke off", "glued the lamp and it holds", "the lamp broke again"),
    ],
)
def test_what_says_nothing_of_it_or_came_before_is_not_asked(
    lines: tuple[str, ...],
) -> None:
    assert not asked(after(*lines))


@pytest.mark.parametrize(("between", "count"), [((), 1), (("oiled the gate",), 0)])
def test_a_note_of_no_part_is_of_the_failure_right_before_it(
    between: tuple[str, ...], count: int
) -> None:
    snapshot = after("the lamp broke off", *between)
    draft = Draft(snapshot, NOW + timedelta(minutes=9))
    says = "with pan heads it works now"
    draft.add(Note(id=new_id(), title=says, when=draft.when, build=draft.build().ref))
    assert len(asked(world((*snapshot, *draft.records)))) == count


def test_a_cure_named_before_is_asked_whether_it_held() -> None:
    now = after("the lamp broke off", "glued the lamp on with epoxy, it held")
    [failure] = now.all(Failure)
    named = replace(failure, cure="glue it on with epoxy")
    now = world((*(one for one in now if one.id != failure.id), named))
    [one] = asked(now)
    assert "is that with “glue it on with epoxy”" in one.question
    draft = Draft(now, NOW + timedelta(hours=1))
    one.take(draft, "yes")
    records = {r.id: r for r in (*now, *draft.amended, *draft.records)}
    taken = world(records.values())
    assert taken.all(Failure)[0].cure == "glue it on with epoxy"
    assert helped(taken, taken.all(Failure)[0]) == HELPED
    assert not asked(taken)
