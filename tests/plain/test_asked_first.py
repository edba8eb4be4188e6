"""Where a line may be two things, or a name may be a part's, it is asked about."""

from __future__ import annotations

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.of_part import A_NEW_PART
from logbook.plain.kinds.sizes import AS_BOUGHT
from logbook.plain.lines import understand
from logbook.plain.named.unnamed import which_part
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Order
from tests.plain.fresh import DEMO
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

LEGS = of_parts("walker upper leg left side", "walker upper leg right side")


def test_a_typed_name_near_known_ones_is_asked_about_once_more() -> None:
    line = understand("second hoof came out 35.8, drawing says 36.2", LEGS)
    again = answered(line, which_part(()), "upper leg", LEGS)
    assert again.verdict is Verdict.ASKED
    assert again.question is not None
    assert set(LEGS.parts) < set(again.question.choices)
    new = answered(again, again.question, f"upper leg{A_NEW_PART}", LEGS)
    assert (new.facts.part, new.facts.part_is_new) == ("upper leg", True)
    one = answered(again, again.question, "walker upper leg left side", LEGS)
    assert (one.facts.part, one.facts.part_is_new) == (
        "walker upper leg left side",
        False,
    )


def test_a_size_beside_a_material_is_measured_or_what_it_is_made_from() -> None:
    line = understand("base sheet 2.0 mm 5052", DEMO)
    assert line.question is not None
    meant = answered(line, line.question, AS_BOUGHT, DEMO)
    assert meant.kind is Kind.DRAWN
    [base] = [
        one for one in drafted(meant, world(known(DEMO))) if isinstance(one, Part)
    ]
    assert str(base.thickness) == "2.0 mm"


@pytest.mark.parametrize(
    "says",
    [
        "stripped hole 2 in the lid",
        "glass plate cracked at the corner",
        "because the saw drifts the crossbar is 179.6",
        "put the cable in first",
        "bent the second upright",
        "re-soldered it with more flux and it holds",
        "second crossbar bent while packing",
        "crossbar bent at the first opening",
        "wired the lamp, gate 58 C at the top",
    ],
)
def test_what_may_be_two_things_is_not_taken(says: str) -> None:
    assert understand(says, DEMO).verdict is Verdict.ASKED


@pytest.mark.parametrize(
    ("says", "reason"),
    [
        ("going to print the gate in PETG, PLA goes soft", "PLA goes soft"),
        ("lid screwed instead of riveted so that the cable can be replaced",
         "the cable can be replaced"),
        ("went with pan heads for the diffuser as countersunk ones wedge",
         "countersunk ones wedge"),
        ("keep the first lid as it is, the scratch is inside", "the scratch is inside"),
        ("bed slots widened to 5 from now on, 90 now", ""),
    ],
)  # fmt: skip
def test_a_reason_is_kept_by_whatever_words_it_is_told(says: str, reason: str) -> None:
    cause = understand(says, DEMO).facts.cause
    assert (cause.said if cause else "") == reason


@pytest.mark.parametrize(
    ("says", "cure"),
    [
        ("diffuser cracked at a corner, 6 walls did", "6 walls did"),
        ("gate warped, printing slower cured it", "printing slower cured it"),
        ("M3x8 too short for the lid, take M3x6", "take M3x6"),
        ("gate insert went in crooked, warm it first", "warm it first"),
        ("diffuser cracked again, overtightened, went hand tight plus a quarter",
         "went hand tight plus a quarter"),
        ("bed cupped over the weekend, oiled one side only", ""),
        ("diffuser cracked, file slipped", ""),
    ],
)  # fmt: skip
def test_a_cure_is_kept_and_a_cause_is_none(says: str, cure: str) -> None:
    assert understand(says, DEMO).facts.cure == cure


@pytest.mark.parametrize(
    ("says", "quantity", "item"),
    [
        ("ordered 4 rubber feet 12 mm, 3.20 eur", 4, "rubber feet 12 mm"),
        ("ordered 20 M4x30 button heads", 20, "M4x30 button heads"),
        ("bought 2 hinges for the lid", 2, "hinges"),
        ("ordered 3 diffusers", 3, ""),
    ],
)
def test_what_was_ordered_stands_in_the_record(
    says: str, quantity: int, item: str
) -> None:
    records = drafted(understand(says, DEMO), world(known(DEMO)))
    [order] = [one for one in records if isinstance(one, Order)]
    assert (order.quantity, order.item) == (quantity, item)


def test_a_size_has_the_name_that_stands_beside_it() -> None:
    line = understand("turned the lamp foot, 140 across and 32 thick", LEGS)
    sizes = {one.what: str(one.value) for one in line.facts.readings}
    assert sizes == {"across": "140 mm", "thickness": "32 mm"}
    apart = understand("oiled the bed twice, 30 min apart", DEMO)
    assert apart.facts.minutes is None


def test_work_told_by_the_clock_has_its_minutes_and_began_at_the_first() -> None:
    facts = understand("screwed the lamp in, 9:15 to 9:35", DEMO).facts
    assert str(facts.minutes) == "20 min"
    assert facts.when is not None
    assert (facts.when.hour, facts.when.minute) == (9, 15)


def test_what_a_line_tells_is_asked_once_though_a_word_of_it_was_left_unread() -> None:
    line = understand("burned the logo into the base", DEMO)
    assert line.question is not None
    assert line.question.choices == ("work done", "something failed", "only a note")
    done = answered(line, line.question, "work done", DEMO)
    assert (done.kind, done.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert done.question is None
    note = answered(line, line.question, "only a note", DEMO)
    assert note.kind is Kind.NOTE
