"""What a line says is kept in a field, said to be only in its words, or asked about."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.drafts.entries import draft_line
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.named.unnamed import which_part
from logbook.plain.shown import describe
from logbook.plain.sure.coverage import AS_TYPED, kept, left_in_words
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.happenings import Status
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import parse_drawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fastening.screws import read_screw
from tests.plain.fresh import BATCHES, PROJECTS, batch
from tests.plain.judge import LINES, NOW, PROJECT, of_parts
from tests.plain.records_of import drafted, known, values_of, world

LEG = "walker upper leg left side"
LEGS = of_parts(LEG, "walker foot")
EVERY = PROJECTS


def _every_line() -> Iterator[tuple[str, str]]:
    yield from (("lines", line["says"]) for line in LINES)
    for number in BATCHES:
        yield from ((line["in"], line["says"]) for line in batch(number))


@cache
def _world(name: str) -> tuple[tuple[Record, ...], Snapshot]:
    records = known(EVERY[name])
    return records, world(records)


@cache
def _taken() -> tuple[tuple[str, Understanding, tuple[Record, ...]], ...]:
    """Give every line that is taken, with the project and the records it becomes."""
    found = []
    for name, says in _every_line():
        line = understand(says, EVERY[name])
        if line.verdict is Verdict.TAKEN:
            found.append((name, line, drafted(line, _world(name)[1])))
    return tuple(found)


_SAID_OTHERWISE = {"kind", "when", "build", "only in words", "for a part say"}
"""What is no fact, or what the caller opens the draft with."""


def _unstored(line: Understanding, records: tuple[Record, ...]) -> Iterator[str]:
    """Go through what is echoed and stands in no field of the records."""
    if line.facts.withdrawn and not any(isinstance(one, Status) for one in records):
        return  # No such revision is on record: it becomes a note.
    values = {value.casefold() for value in values_of(records)}
    for label, text in describe(line):
        if label in _SAID_OTHERWISE:
            continue
        for one in _texts(line, label, text):
            if one.casefold() not in values:
                yield f"{label} {one}"


def _texts(line: Understanding, label: str, text: str) -> list[str]:
    """Give the values that an echoed row names."""
    facts = line.facts
    if label == "size":
        [said] = [one for one in facts.readings if text.endswith(str(one.value))][:1]
        named = [said.what] if said.what and "measured" in dict(describe(line)) else []
        return [str(said.value), *named]
    yes = {"closes": "yes", "undone": "yes", "lies": facts.part}
    if label in yes:
        return [yes[label]]
    if label == "piece":
        return ["-".join(text.rsplit(" ", 1))]
    if label == "revision":
        return [text] if text != "new" and not facts.withdrawn else []
    if label == "withdrawn":
        return ["withdrawn"]
    several = {
        "joint through": facts.layers,
        "drawn": tuple(str(parse_drawn(x.size, "mm").nominal) for x in facts.drawn),
        "also named": facts.others,
        "each": tuple(f"{facts.part}-{n + 1}" for n in range(max(facts.so_many, 1))),
        "and an order of": tuple(one.item or one.part for one in facts.besides),
        "wanted": tuple(str(one) for one in facts.wanted),
    }
    if label in several:
        return list(several[label])
    if label in ("cause", "reason") and facts.cause and facts.cause.said in text:
        return [facts.cause.said]
    if label == "off":
        return [str(facts.off)]
    if label == "price" and facts.price:
        return [str(facts.price)]
    return [text.removesuffix(" (new)").removeprefix("only ")]


def test_whatever_is_echoed_stands_in_a_field_of_the_records() -> None:
    wrong = [
        f"{line.line}: {', '.join(found)}"
        for _, line, records in _taken()
        if (found := [*_unstored(line, records)])
    ]
    assert len(_taken()) > 1000
    assert not wrong, "\n".join(wrong)


def test_every_number_of_a_line_is_echoed_or_said_to_be_only_in_words() -> None:
    lost = [
        f"{line.line}: {number}"
        for _, line, _ in _taken()
        if line.kind not in AS_TYPED
        for number in _unsaid(line)
    ]
    assert not lost, "\n".join(lost)


def _unsaid(line: Understanding) -> list[str]:
    """Give the numbers that stand in no fact and not among what is only in words."""
    spans = [
        line.line[span.start : span.end]
        for fact, row in line.words.items()
        if kept(line, fact)
        for span in row
    ]
    told = " ".join([*spans, *(text for _, text in describe(line))])
    return [one for one in re.findall(r"\d+", line.line) if one not in told]


def test_nothing_written_from_a_line_is_a_problem_when_it_is_read_back() -> None:
    wrong = []
    for name, line, records in _taken():
        before, _ = _world(name)
        held = {record.id: record for record in (*before, *records)}
        found = world(held.values()).problems
        wrong += [f"{line.line}: {problem}" for problem in found]
        for record in records:
            if isinstance(record, Joint):
                assert read_screw(record.fastener), line.line
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    ("says", "left"),
    [
        ("printed the gate in PETG, 0.28 layers, 4 walls, nozzle 250",
         "PETG, 0.28 layers, 4 walls, nozzle 250"),
        ("diffuser cracked at the corner screw", ""),
        ("diffuser cracked at a corner, overtightened", ""),
        ("put the cable through its channel, then screwed the lid on",
         "screwed the lid"),
        ("base opening 178.6 should be 180", ""),
    ],
)  # fmt: skip
def test_what_no_fact_took_is_said_as_it_was_typed(says: str, left: str) -> None:
    assert left_in_words(understand(says, PROJECT)) == left


@pytest.mark.parametrize(
    "says",
    [
        "printed the gate in PETG, 0.28 layers, 4 walls, nozzle 250",
        "printed the lid in PETG 0.2 layers 40% infill nozzle 240C",
        "sanded the lid with 240 grit",
        "mask-2 reworked: rounded with 400 paper, no scratch after 20 frames",
        "mask deburred with a 3000 stone, fits now",
    ],
)
def test_a_setting_is_never_a_size(says: str) -> None:
    project: Vocabulary = PROJECTS["demo"]
    assert understand(says, project).facts.readings == ()


# -- what is remarked before a line is taken ---------------------------------------


def _remarked(says: str, *more: Callable[[Draft], object]) -> tuple[str, ...]:
    """Give the remarks on a line in the demo's project with some more on record."""
    project: Vocabulary = PROJECTS["demo"]
    before, snapshot = _world("demo")
    draft = Draft(snapshot, NOW)
    for make in more:
        make(draft)
    held = {record.id: record for record in (*before, *draft.records)}
    later = Draft(world(held.values()), NOW + timedelta(hours=1))
    return remarks(draft_line(later, understand(says, project)))


def test_a_piece_that_a_line_implies_is_named_with_its_revision() -> None:
    def revised(draft: Draft) -> None:
        draft.new_revision(draft.part("diffuser"), "A")

    said = _remarked("diffuser cracked at a corner", revised)
    assert said == ("new: diffuser-1 of rev A",)
    assert _remarked("went with screws for the lid because rivets are shut") == ()


def test_another_drawn_size_than_the_one_on_record_is_remarked() -> None:
    def drawn(draft: Draft) -> None:
        mask = draft.part("mask")
        draft.piece(mask)
        draft.characteristic(mask, "aperture height", parse_quantity("24 mm"))

    [said] = _remarked("mask aperture height 36.2, drawn 36", drawn)
    assert said == "said to be drawn 36 mm, on record aperture height is drawn 24 mm"
    assert _remarked("mask aperture height 24.2, drawn 24", drawn) == ()


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("reamed the bearing bore on the upper leg to 16.02", LEG),
        ("upper leg split along the layers", LEG),
    ],
)
def test_words_that_only_one_name_has_mean_that_part(says: str, part: str) -> None:
    assert understand(says, LEGS).facts.part == part


@pytest.mark.parametrize(
    "says",
    [
        "foot came out 35.8, drawing says 36.2",
        "foot peeled off its stub after 20 jumps",
        "glued the foot on with epoxy",
    ],
)
def test_the_last_word_of_one_name_means_that_part(says: str) -> None:
    line = understand(says, LEGS)
    assert line.verdict is Verdict.TAKEN
    assert line.facts.part == "walker foot"


def test_a_foot_behind_a_number_is_a_length() -> None:
    assert understand("bought 3 foot of acrylic tube", LEGS).facts.part == ""


def test_an_answer_in_the_words_of_one_known_name_makes_no_second_part() -> None:
    line = understand("foot came out 35.8, drawing says 36.2", LEGS)
    asked = which_part(("walker foot",), ("foot",))
    meant = answered(line, asked, "upper leg", LEGS)
    assert (meant.facts.part, meant.facts.part_is_new) == (LEG, False)
    new = answered(line, asked, "hoof", LEGS)
    assert (new.facts.part, new.facts.part_is_new) == ("hoof", True)


def test_a_reason_closes_nothing_and_a_place_reworks_nothing() -> None:
    shut = understand("bed from birch ply because the timber yard was shut", PROJECT)
    assert not shut.facts.closes
    bent = understand("bent the base, opening 178.7 at the back", PROJECT)
    assert (bent.kind, bent.facts.disposition) == (Kind.STEP, "")


def test_an_order_keeps_the_part_that_is_known_and_counts_no_weeks() -> None:
    demo = PROJECTS["demo"]
    screws = understand("ordered 10 M4x20, 3.60 eur", demo).facts
    assert (screws.part, screws.quantity) == ("M4x20 screw", 10)
    tube = understand("ordered 1 m of acrylic tube, 11.50 eur, 2 weeks", demo)
    assert tube.facts.quantity is None
    assert tube.facts.due == (NOW + timedelta(weeks=2)).date()


def test_a_size_that_is_too_tight_is_a_size_and_no_difference() -> None:
    facts = understand("lid hole 4.9 too tight for M5", PROJECT).facts
    assert facts.off is None


def test_the_number_of_a_glue_is_no_size() -> None:
    line = understand("glue is grade 3, clamp 40 min", Vocabulary(now=NOW))
    assert line.verdict is not Verdict.TAKEN


def test_another_thickness_than_that_of_its_stock_is_remarked() -> None:
    def made(draft: Draft) -> None:
        bed = draft.part("bed")
        draft.amend(replace(bed, thickness=parse_quantity("18 mm")))

    said = _remarked("bed 21 thick instead of 24", made)
    assert "said to be drawn 24 mm, on record bed is made from 18 mm" in said
