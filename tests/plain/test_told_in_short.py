"""What short lines tell with a stop, a short word or a size. All lines are invented."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part", "what", "value"),
    [
        ("bracket bolts, torque 2 Nm", "bracket", "bolts torque", "2 Nm"),
        ("lamp leads, resistance 0.3 ohm", "lamp", "leads resistance", "0.3 ohm"),
        ("gate pins: diameter 2.98", "gate", "pins diameter", "2.98 mm"),
        ("collar nuts, torque 1.2 Nm", "collar", "nuts torque", "1.2 Nm"),
    ],
)
def test_a_size_is_of_what_stands_before_the_stop(
    says: str, part: str, what: str, value: str
) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind, line.line) == (Verdict.TAKEN, Kind.READING, says)
    [read] = line.facts.readings
    assert (line.facts.part, read.what, str(read.value)) == (part, what, value)
    assert [says[one.start : one.end] for one in line.words["what"]] == what.split()


@pytest.mark.parametrize(
    "says",
    ["cable too short, length 1.2 m", "lid warped, length 140.2", "lid off, gap 0.3"],
)
def test_another_fact_before_a_stop_is_no_heading(says: str) -> None:
    line = understand(says, PROJECT)
    plain = line.verdict is Verdict.TAKEN and line.kind is Kind.READING
    assert not plain or line.facts.readings[0].what in ("length", "gap")


@pytest.mark.parametrize(
    ("says", "quantity"),
    [
        ("collars ordered: 4 from the water jet place, due friday", 4),
        ("masks ordered, 6 from the laser shop, 12.00", 6),
        ("ordered lids: 2, 18.00", 2),
        ("brackets on order: 10 from the bending shop", 10),
        ("diffusers ordered (3), 27.00", 3),
        ("diffusers ordered, 27.00, due friday", None),
        ("lids ordered, 3 weeks, 18.00", None),
    ],
)
def test_how_many_were_ordered_may_stand_by_itself(
    says: str, quantity: int | None
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.facts.quantity) == (Kind.ORDER, quantity)


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("get 4 mm drills, the short ones", Kind.NOTE),
        ("get M4 nuts, the thin kind", Kind.NOTE),
        ("get 0.5 card, the black one", Kind.NOTE),
        ("get two spare masks cut", Kind.DECISION),
        ("order 5 spare masks", Kind.DECISION),
    ],
)
def test_what_is_only_to_be_fetched_is_noted(says: str, kind: Kind) -> None:
    assert understand(says, PROJECT).kind is kind


@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("i've glued the collar on", Kind.STEP, "collar"),
        ("we've painted the base", Kind.STEP, "base"),
        ("I’ve riveted the lid on", Kind.STEP, "lid"),
        ("i've cracked the diffuser", Kind.FAILURE, "diffuser"),
        ("cut the gate from brass shim", Kind.STEP, "gate"),
        ("made the collar from 0.5 shim", Kind.STEP, "collar"),
        ("lamp 6 W at half", Kind.READING, "lamp"),
        ("lamp 0.4 A at full power", Kind.READING, "lamp"),
        ("diffuser lets through 46 % of the light", Kind.READING, "diffuser"),
    ],
)
def test_a_short_word_stands_in_nobodys_way(says: str, kind: Kind, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind, line.facts.part) == (Verdict.TAKEN, kind, part)


@pytest.mark.parametrize("says", ["shimmed the bed 0.3", "shim the lid"])
def test_a_shim_that_was_put_in_is_still_work_on_the_piece(says: str) -> None:
    assert understand(says, PROJECT).kind is not Kind.STEP


@pytest.mark.parametrize(
    ("says", "part", "value"),
    [
        ("The flange of the base stood at 88 degrees.", "base", "88 degrees"),
        ("The cable tested at 0.3 ohm from end to end.", "cable", "0.3 ohm"),
        ("I found the crossbar to be 178.4 long.", "crossbar", "178.4 mm"),
        ("After an hour the lamp was at 52 C.", "lamp", "52 C"),
        ("The scale showed 412 g for the bracket.", "bracket", "412 g"),
        ("The gate, which I printed last week, is 51.8 wide.", "gate", "51.8 mm"),
    ],
)
def test_a_whole_sentence_tells_a_size(says: str, part: str, value: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind, line.facts.part) == (
        Verdict.TAKEN, Kind.READING, part,
    )  # fmt: skip
    assert [str(one.value) for one in line.facts.readings] == [value]


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("I cleaned the bed with spirit and let it dry overnight.", Kind.STEP),
        ("We glued the collar on and left it to set.", Kind.STEP),
        ("I found a crack in the lid.", Kind.FAILURE),
        ("The lid is to be screwed, not riveted.", Kind.DECISION),
        ("The gate, which I printed last week, warped.", Kind.FAILURE),
    ],
)
def test_what_leads_to_a_fact_or_follows_it_is_none(says: str, kind: Kind) -> None:
    assert understand(says, PROJECT).kind is kind
