"""What a line says is kept in a field, said to be only in its words, or asked about."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest

from logbook.plain.coverage import AS_TYPED, kept, left_in_words
from logbook.plain.lines import understand
from logbook.plain.shown import describe
from logbook.plain.understanding import Understanding, Verdict
from logbook.plain.vocabulary import Vocabulary
from logbook.records.model import Joint, Record, Status
from logbook.records.snapshot import Snapshot
from logbook.shop.screws import read_screw
from tests.plain.fresh import BATCHES, PROJECTS, batch
from tests.plain.judge import LINES, PROJECT
from tests.plain.records_of import drafted, known, values_of, world

EVERY = {**PROJECTS, "lines": PROJECT}


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


_SAID_OTHERWISE = {"kind", "when", "build", "only in words:"}
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
    yes = {"closes": "yes", "undone": "yes", "inside": facts.part}
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
        "also named": facts.others,
        "wanted": tuple(str(one) for one in facts.wanted),
    }
    if label in several:
        return list(several[label])
    if label == "cause" and facts.cause:
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
        ("diffuser cracked at a corner, overtightened", "overtightened"),
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
    ],
)
def test_a_setting_is_never_a_size(says: str) -> None:
    project: Vocabulary = PROJECTS["demo"]
    assert understand(says, project).facts.readings == ()
