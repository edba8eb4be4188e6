"""A line means the same whatever leads to it, ends it, or is typed between its words.

Every line that is read right is told in other ways that may change nothing of what it
says: what comes of it is the same, or is asked about; never something else unasked.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.happenings import Deviation
from tests.plain import fresh, judge
from tests.plain.records_of import drafted, known, world

_PLAIN = (Kind.NOTE, Kind.QUESTION)
_TIMED = re.compile(
    r"(?i)\b(?:mon|tue|wed|thu|fri|sat|sun|yester|yday|today|tomor|last|morning|evening|"
    r"night|noon|week|ago|\d+ ?[ap]m|\d+[:.]\d\d|the \d+(?:st|nd|rd|th)|at \d|\d{4}|"
    r"am |pm |in \d|since|until)"
)
_FIRST_PAST = re.compile(r"[a-z]+ed\b")

Told = tuple[str, Vocabulary]


@cache
def right_lines() -> tuple[Told, ...]:
    """Give the lines that are read right, each with the project it is told in."""
    found = [
        (line["says"], fresh.PROJECTS[line["in"]])
        for number in fresh.BATCHES
        for line in fresh.batch(number)
        if fresh.judge(line)[0] == "right"
    ]
    found += [
        (line["says"], judge.PROJECT)
        for line in judge.LINES
        if judge.judge(line)[0] == "right"
    ]
    return tuple(found)


def _taken(line: Understanding) -> bool:
    return line.verdict is Verdict.TAKEN and line.kind not in _PLAIN


def _facts(line: Understanding) -> dict[str, object]:
    """Give what a line says of the bench, without when it was and how it was typed."""
    facts = line.facts
    return {
        "kind": line.kind,
        "part": facts.part.casefold(),
        "piece": facts.piece.casefold(),
        "place": facts.place.casefold(),
        "readings": tuple((one.value.value, one.value.unit) for one in facts.readings),
        "wanted": tuple((one.value, one.unit) for one in facts.wanted),
        "off": facts.off.value if facts.off else None,
        "hours": facts.hours.value if facts.hours else None,
        "minutes": facts.minutes.value if facts.minutes else None,
        "room": facts.room.value if facts.room else None,
        "disposition": facts.disposition,
        "whose": facts.met_by_others,
        "cause": facts.cause.said.casefold().split() if facts.cause else [],
        "cure": facts.cure.casefold().split(),
        "absent": facts.absent,
        "quantity": facts.quantity,
        "closes": facts.closes,
        "inside": facts.inside,
    }


def _silently_changed(told: str, otherwise: str, project: Vocabulary) -> str:
    """Say what the other way of telling changed unasked, nothing where all is well."""
    first, second = understand(told, project), understand(otherwise, project)
    if not _taken(second):
        return ""
    if not _taken(first):
        return f"taken as {second.kind}"
    before, after = _facts(first), _facts(second)
    return ", ".join(
        f"{name}: {value!r} → {after[name]!r}"
        for name, value in before.items()
        if after[name] != value
    )


def _led_by_a_time(says: str) -> Iterator[str]:
    if not _TIMED.search(says):
        yield f"yesterday 16:00 {says}"
        yield f"yesterday at 16:00, {says}"
        yield f"on sunday {says}"


def _led_by_words(says: str) -> Iterator[str]:
    if not _TIMED.search(says):
        yield f"just {says}" if _FIRST_PAST.match(says) else f"ok, {says}"
    if _FIRST_PAST.match(says):
        yield f"I {says}"


def _typed_otherwise(says: str) -> Iterator[str]:
    yield "  ".join(says.split(" "))
    yield says[:1].upper() + says[1:]
    if says[-1].isalnum():
        yield f"{says}."


def _with_a_mood(says: str) -> Iterator[str]:
    if says[-1] not in "?!…":
        yield f"{says}, what a pain"
        yield f"{says}, typical"


WAYS: tuple[Callable[[str], Iterator[str]], ...] = (
    _led_by_a_time,
    _led_by_words,
    _typed_otherwise,
    _with_a_mood,
)


@given(st.data(), st.sampled_from(WAYS))
def test_a_line_means_the_same_whatever_leads_to_it_and_ends_it(
    data: st.DataObject, way: Callable[[str], Iterator[str]]
) -> None:
    says, project = data.draw(st.sampled_from(right_lines()))
    for otherwise in way(says):
        changed = _silently_changed(says, otherwise, project)
        assert not changed, f"{otherwise}: {changed}"


def _slips(word: str) -> Iterator[str]:
    """Give a word with a letter left out, doubled, or changed over with its next."""
    for at in range(1, len(word) - 1):
        yield word[:at] + word[at + 1 :]
        yield word[:at] + word[at] + word[at:]
        yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]


@pytest.mark.parametrize(
    ("before", "turns", "behind"),
    [
        ("bed 239.6", "should", "be 240"),
        ("collar is 6.35", "instead", "of 6"),
        ("crossbar 178.4", "nominal", "178.3"),
        ("lid width 59.8", "supposed", "to be 60"),
        ("gate slot 36.2", "drawing", "says 36"),
        ("mask aperture 36.2", "against", "36 drawn"),
    ],
)
def test_a_slip_in_the_word_that_turns_a_line_makes_no_second_size(
    before: str, turns: str, behind: str
) -> None:
    for slip in _slips(turns):
        line = understand(f"{before} {slip} {behind}", judge.PROJECT)
        wanted = len(line.facts.readings) == len(line.facts.wanted) == 1
        assert wanted or not _taken(line), line.line


@pytest.mark.parametrize(
    "says",
    [
        "printed the gate, took 3 h 20, first layer lifted at the front corner",
        "glued the lid, clamped it for two hours, one corner lifted",
    ],
)
def test_what_was_done_before_it_failed_cured_nothing(says: str) -> None:
    line = understand(says, judge.PROJECT)
    assert line.kind is Kind.FAILURE
    assert not line.facts.cure


@pytest.mark.parametrize(
    "says",
    [
        "ground the bracket flush, now it seats",
        "filed the gate tab, it slides now",
        "planed the bed a bit and now it drops in",
    ],
)
def test_worked_until_it_goes_is_rework(says: str) -> None:
    line = understand(says, judge.PROJECT)
    assert (line.kind, line.facts.disposition) == (Kind.DISPOSITION, "rework")


@pytest.mark.parametrize(
    "says",
    [
        "lid scr stripped",
        "base bent 2 deg over",
        "veneer bubbled by the lamp",
        "screwed the lid down before the cable was in, had to undo all six",
        "made gate 4 with 6 walls, still flat after 2 h at 24 C",
        "collar is 6.4 but my micrometer says 6.36",
        "folder stop set to 0.6 back from the line",
    ],
)
def test_what_may_be_something_else_is_asked_about(says: str) -> None:
    assert understand(says, judge.PROJECT).verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "says",
    [
        "correction: the lid length is 197.4, not 197.9",
        "no wait, base opening back was 178.9 not 178.7",
        "the lid was 197.4 not 197.9, I read the wrong jaw",
    ],
)
def test_a_correction_is_no_new_size_and_says_where_it_is_made(says: str) -> None:
    line = understand(says, judge.PROJECT)
    assert line.verdict is Verdict.ASKED
    assert line.question is not None
    assert "open it" in line.question.question
    assert "measured" not in line.question.choices


def test_a_remark_of_contentment_leaves_a_size_a_size() -> None:
    line = understand(
        "lid wall measured 2.9, drawing says 3.0, good enough", judge.PROJECT
    )
    assert line.kind is Kind.READING
    assert [str(one) for one in line.facts.wanted] == ["3.0 mm"]


@pytest.mark.parametrize("says", ["not sure if the lid wants the flat side up"])
def test_what_is_not_sure_is_a_question(says: str) -> None:
    assert understand(says, judge.PROJECT).kind is Kind.QUESTION


@pytest.mark.parametrize(
    ("short", "part"), [("diff", "diffuser"), ("xbar", "crossbar"), ("msk", "mask")]
)
def test_a_name_cut_short_is_that_part(short: str, part: str) -> None:
    assert understand(f"{short} cracked", judge.PROJECT).facts.part == part


@pytest.mark.parametrize("short", ["dif", "gates", "lamps", "cover", "lamb"])
def test_another_word_is_no_name_cut_short(short: str) -> None:
    assert judge.PROJECT.shortened(short) == ""


def test_why_a_size_is_off_is_kept_with_the_deviation() -> None:
    says = "crossbar 178.1 instead of 178.3 because the stop slipped"
    records = drafted(understand(says, judge.PROJECT), world(known(judge.PROJECT)))
    causes = [
        one.cause.said for one in records if isinstance(one, Deviation) and one.cause
    ]
    assert causes == ["the stop slipped"]
