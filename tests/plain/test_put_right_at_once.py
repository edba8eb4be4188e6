"""A value put right in its own line: the last counts, the first stays in words."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Deviation, Run
from tests.plain import on_record as before
from tests.plain.judge import NOW

PARTS = "base crossbar bed lid lamp cable gate collar hinge drum"
WORDS = Vocabulary(
    now=NOW,
    parts=dict.fromkeys(PARTS.split(), ()),
    characteristics={"crossbar": ("length",)},
)


@pytest.mark.parametrize(
    ("says", "value", "left"),
    [
        ("hinge pin bore 6.12, no wait, 6.21", "6.21 mm", "6.12, no wait"),
        ("drum width 88.4, sorry, 84.8", "84.8 mm", "88.4, sorry"),
        ("bed width 240.2, make that 240.4", "240.4 mm", "240.2, make that"),
        ("lamp draws 1.4 A, no, 1.3", "1.3 A", "1.4 A, no"),
        ("lamp 61 C, I mean 56 C", "56 C", "61 C, I mean"),
        ("cable 812, sorry 821 mm long", "821 mm", "812, sorry"),
        ("collar bore 6.35... no 6.30", "6.30 mm", "6.35... no"),
        ("collar thickness is 6.35, not the 6.0 I noted earlier", "6.35 mm", "6.0"),
        ("lid weighs 412 g, not 142 g as I wrote", "412 g", "142 g"),
        ("cable resistance 0.47 ohm, not 4.7", "0.47 ohm", "4.7"),
        ("crossbar 178.54 no wait 178.45", "178.45 mm", "178.54 no wait"),
        ("drum width 88.4 sorry 84.8", "84.8 mm", "88.4 sorry"),
        ("lamp 0.62 A make that 0.66", "0.66 A", "0.62 A make that"),
        ("base opening 178.62 not 187.62", "178.62 mm", "187.62"),
        ('gate slot 13/32", or rather 7/16"', '7/16"', '13/32", or rather'),
        ("crossbar 13 3/8 in, sorry 13 5/16 in", "13 5/16 in", "13 3/8 in, sorry"),
        ("lid 1-1/4 in, no wait, 1-3/8 in", "1-3/8 in", "1-1/4 in, no wait"),
        ("bed gap 5/32 or rather 3/16", "3/16 in", "5/32 or rather"),
        ("gate width 40.1, better said 40.4", "40.4 mm", "40.1, better said"),
        ("lamp face 58 C, more like 62", "62 C", "58 C, more like"),
        ("hinge pin 12.2, actually 12.4", "12.4 mm", "12.2, actually"),
        ("gate 40.1 wide at the top, sorry 40.4", "40.4 mm", "40.1, sorry"),
        ('lid 7/16" deep on the inside, or rather 13/32"', '13/32"', '7/16"'),
    ],
)
def test_the_last_value_counts(says: str, value: str, left: str) -> None:
    line = understand(says, WORDS)
    assert (line.line, line.kind, line.verdict) == (says, Kind.READING, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == [value]
    assert line.facts.wanted == ()
    assert left in in_one_line(line).partition("only in words")[2]


@pytest.mark.parametrize(
    "says",
    [
        "crossbar 178.3, no 4 mm holes yet",
        "lid 1.2, not 12 holes",
        "base opening 178.6, wait 2 h before the lid goes on",
        "sorry, crossbar is 178.5",
        "drum has 4 or rather 5 holes",
        "lid 1.2 no wait until 12 holes are in",
        "make that 178.5",
        "mask aperture 36.1 x 24.1, no, 36.0 x 24.1",
        'crossbar length 13 3/8", or rather 13/32"',
    ],
)
def test_what_may_put_nothing_right_is_asked_about(says: str) -> None:
    assert understand(says, WORDS).verdict is not Verdict.TAKEN


@pytest.mark.parametrize("says", ["lamp 58 C, rather warm", "lid 1.2, rather thin"])
def test_how_it_is_rather_is_no_choice(says: str) -> None:
    assert understand(says, WORDS).kind is not Kind.DECISION


def test_what_it_should_be_is_still_wanted() -> None:
    line = understand("base opening is 178.62, not 180", WORDS)
    assert [str(one) for one in line.facts.wanted] == ["180 mm"]


@pytest.mark.parametrize(
    ("says", "values"),
    [
        ("base opening drawn 180, actually 178.6", ["178.6 mm"]),
        ("gate 40.1 rather than 40", ["40.1 mm"]),
        ("hinge hole 8.2, better than 8.4", ["8.2 mm"]),
        ("bed better 240 wide", ["240 mm"]),
    ],
)
def test_what_it_is_held_against_is_neither_put_right_nor_read(
    says: str, values: list[str]
) -> None:
    line = understand(says, WORDS)
    assert [str(one.value) for one in line.facts.readings] == values


def test_work_is_done_to_the_last_size() -> None:
    line = understand("filed the crossbar to 178.4, sorry, 178.3", WORDS)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == ["178.3 mm"]


def test_the_first_value_where_it_is_on_record_is_offered_to_be_put_right() -> None:
    snapshot = before.on_record(WORDS, "crossbar length 178.3")
    line = before.asked(WORDS, "crossbar length 178.3, make that 178.5", snapshot)
    assert line.question is not None
    assert "178.3 mm is on record" in line.question.question
    draft = before.told(WORDS, line, "put it right", snapshot)
    [run] = [one for one in draft.amended if isinstance(one, Run)]
    assert [str(one.value) for one in run.readings] == ["178.5 mm"]


def test_what_was_put_right_at_once_is_no_deviation() -> None:
    snapshot = before.on_record(WORDS, "resistance of the cable 0.47 ohm, not 4.7")
    assert not snapshot.all(Deviation)
    [run] = snapshot.all(Run)
    assert [str(one.value) for one in run.readings] == ["0.47 ohm"]
