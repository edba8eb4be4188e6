"""How many are needed, told in a note, is offered to the parts list."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.advice.proposals import proposals
from logbook.advice.proposed.proposal import Proposal
from logbook.errors import BadInput
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Source
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import known, world

WORDS = Vocabulary(
    now=NOW, parts={"bracket": (), "fibre washer": (), "collar": (), "lid": ()}
)


def after(says: str) -> tuple[Record, ...]:
    records = known(WORDS)
    draft = Draft(world(records), NOW + timedelta(minutes=1))
    return (*records, *draft_line(draft, understand(says, WORDS)).records)


def asked(snapshot: Snapshot) -> list[Proposal]:
    return [one for one in proposals(snapshot) if one.key.startswith("needed")]


@pytest.mark.parametrize(
    ("says", "question"),
    [
        ("needs 2 brackets", "does one build take 2 × bracket? the list has none"),
        ("collar needs four fibre washers",
         "does one build take 4 × fibre washer? the list has none"),
        ("need 4 M4x12 screws",
         "does one build take 4 × M4x12 screw? the list has none"),
        ("lid needs 4 m4 x 12 pan head screws",
         "does one build take 4 × M4x12 pan head screw? the list has none"),
    ],
)  # fmt: skip
def test_what_is_needed_is_offered_to_the_list(says: str, question: str) -> None:
    records = after(says)
    snapshot = world(records)
    [one] = asked(snapshot)
    assert one.question == question
    draft = Draft(snapshot, NOW + timedelta(hours=1))
    one.take(draft, "yes")
    [line] = [made for made in draft.new if isinstance(made, Line)]
    assert f"take {line.quantity} × {line.part.name}?" in question
    assert asked(world((*records, *draft.records))) == []


def test_another_number_is_taken_and_words_are_refused() -> None:
    snapshot = world(after("needs 2 brackets"))
    [one] = asked(snapshot)
    draft = Draft(snapshot, NOW)
    with pytest.raises(BadInput, match="the number one build takes"):
        one.take(draft, "a few")
    one.take(draft, "3")
    assert [made.quantity for made in draft.new if isinstance(made, Line)] == [3]


@pytest.mark.parametrize(
    "says",
    ["lid needs 2 coats", "needs 2 more brackets", "bed needs 3 days to dry",
     "needs a bracket sometime"],
)  # fmt: skip
def test_what_is_no_number_of_a_part_is_not_asked(says: str) -> None:
    assert asked(world(after(says))) == []


def test_a_screw_no_record_names_is_made_a_part_as_it_is_listed() -> None:
    snapshot = world(after("need 4 M4x12 screws"))
    [only] = asked(snapshot)
    draft = Draft(snapshot, NOW + timedelta(minutes=2))
    only.take(draft, "yes")
    [part], [line] = draft.made(Part), draft.made(Line)
    assert (part.title, part.source, line.part.id) == (
        "M4x12 screw",
        Source.BOUGHT,
        part.id,
    )
    assert line.quantity == 4
