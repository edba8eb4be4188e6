"""Names with hyphens are names, whatever stands behind the hyphen."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind
from logbook.plain.words.vocabulary import Vocabulary

WORDS = Vocabulary(
    now=datetime(2026, 3, 7, 12, 0, tzinfo=UTC),
    parts={"bar": (), "x-rail bracket": (), "y-home switch": ()},
    pieces={"bar": ("bar-1", "bar-2")},
    characteristics={"bar": ("length",)},
)


@pytest.mark.parametrize(
    ("line", "kind", "part"),
    [
        ("scrap bar-1", Kind.DISPOSITION, "bar"),
        ("x-rail bracket hole 5.3", Kind.READING, "x-rail bracket"),
        ("y-home switch broke after 3 hours", Kind.FAILURE, "y-home switch"),
        ("X-Rail Bracket rev B: hole 5.3, it binds", Kind.REVISION, "x-rail bracket"),
        ("bar rev A: length 41 because it binds", Kind.REVISION, "bar"),
    ],
)  # fmt: skip
def test_a_hyphened_name_is_found(line: str, kind: Kind, part: str) -> None:
    understood = understand(line, WORDS)
    assert (understood.kind, understood.facts.part) == (kind, part)
    assert understood.line == line


def test_a_minus_is_how_far_a_length_is_off_and_stays_one_of_a_temperature() -> None:
    facts = understand("bar length -0.1", WORDS).facts
    assert (str(facts.off), facts.off_sense, facts.readings) == ("0.1 mm", "under", ())
    [one] = understand("bar temperature -10 C", WORDS).facts.readings
    assert str(one.value) == "-10 C"


def test_the_number_of_a_piece_to_come_is_no_size() -> None:
    understood = understand("bar-3 length 178.5", WORDS)
    assert understood.facts.piece in {"bar-3", "bar 3"}
    assert [str(one.value) for one in understood.facts.readings] == ["178.5 mm"]


def test_at_most_five_names_are_offered_the_nearest_first() -> None:
    names = [
        f"{kind} lamp bracket" for kind in ["left", "right", "upper", "lower", "spare"]
    ]
    words = Vocabulary(now=WORDS.now, parts=dict.fromkeys([*names, "lamp"], ()))
    question = understand("bracket cracked", words).question
    assert question is not None
    assert question.about == "part"
    assert len(question.choices) == 5
    assert question.choices[0] in names
    assert question.choices[-1] == "no part"
