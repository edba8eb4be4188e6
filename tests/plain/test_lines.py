"""Plain lines are understood, asked about, or kept: counted, not hoped for."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from dataclasses import fields
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.plain.lines import LONGEST_LINE, understand
from logbook.plain.shown import describe, in_one_line
from logbook.plain.understanding import Facts, Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import Quantity
from tests.plain.judge import LINES, NOW, PROJECT, judge

RIGHT_AT_LEAST = 0.80
WRONG_AT_MOST = 0.02
NEW = Vocabulary(now=NOW)


def read(line: str) -> Understanding:
    return understand(line, PROJECT)


@pytest.mark.parametrize(
    "line", [line for line in LINES if line.get("shown")], ids=lambda line: line["says"]
)
def test_a_shown_example_comes_out_right(line: dict[str, object]) -> None:
    assert judge(line) == ("right", "")


@pytest.mark.parametrize("aside", [False, True])
def test_enough_lines_are_right_and_hardly_any_silently_wrong(aside: bool) -> None:
    group = [line for line in LINES if bool(line.get("aside")) is aside]
    found = Counter(judge(line)[0] for line in group)
    wrong = [line["says"] for line in group if judge(line)[0] == "wrong" and not aside]
    assert len(group) > 100
    assert found["right"] >= RIGHT_AT_LEAST * len(group), found
    assert found["wrong"] <= WRONG_AT_MOST * len(group), "\n".join(wrong)


@pytest.mark.parametrize(
    "kind",
    sorted(
        kind
        for kind, count in Counter(line["kind"] for line in LINES).items()
        if count >= 5
    ),
)
def test_no_kind_is_mostly_asked_about(kind: str) -> None:
    group = [line for line in LINES if line["kind"] == kind]
    found = Counter(judge(line)[0] for line in group)
    assert found["right"] >= 0.6 * len(group), found


LONGER_NAMES = {
    "crosbar", "diffusor", "lamp board", "lamp supply", "mask window", "base upright",
    "bed board", "bracket leg", "fuse holder",
}  # fmt: skip
"""Names that a project without parts takes whole, as they were typed."""


def test_a_project_without_parts_hardly_ever_makes_a_wrong_one() -> None:
    lines = [line for line in LINES if "part" in line]
    taken = [(line, understand(line["says"], NEW)) for line in lines]
    found = [
        (line["part"], understood.facts.part)
        for line, understood in taken
        if understood.verdict is Verdict.TAKEN
    ]
    wrong = {
        part for right, part in found if part and part not in (right, *LONGER_NAMES)
    }
    assert wrong == set()
    assert sum(right == part for right, part in found) >= 0.6 * len(lines)


def test_an_adjective_names_the_dimension_it_stands_for() -> None:
    wide, width = read("bed 240.1 wide"), read("bed width 240.1")
    assert wide.facts.what == width.facts.what == "width"


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        ("heat set inserts in the bracket at 230", "°C"),
        ("sawed the crossbar at 178.45", "mm"),
        ("tightened the collar to 1.2 Nm", "N·m"),
        ("radius inside bend 2.1", "mm"),
        ("bend 88.5", "°"),
    ],
)
def test_a_bare_number_takes_the_unit_of_what_it_measures(line: str, unit: str) -> None:
    assert read(line).facts.readings[0].value.unit == unit


def test_a_fastener_is_fitted_through_layers_nobody_has_named_yet() -> None:
    facts = understand("M4x16 locknut through collar and base", NEW).facts
    assert (facts.fastener, facts.layers) == ("M4x16", ("collar", "base"))


# -- any text ----------------------------------------------------------------------

BENCH = st.lists(
    st.sampled_from(
        [word for line in LINES for word in line["says"].split()]
        + ["M3x8", "18 ga", "1/0", "1,234", "-", "±", "x", "\u202e", "½", "9/0", "''"]
    ),
    max_size=12,
).map(" ".join)


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=200), BENCH))
def test_no_text_raises_and_every_fact_stands_in_the_line(line: str) -> None:
    for project in (PROJECT, NEW):
        understood = understand(line, project)
        assert understood.line == line
        assert in_one_line(understood)
        for fact, spans in understood.words.items():
            assert fact in {field.name for field in fields(Facts)}
            for span in spans:
                assert 0 <= span.start < span.end <= len(line)


@settings(max_examples=200, deadline=None)
@given(BENCH)
def test_no_number_is_invented(line: str) -> None:
    facts = read(line).facts
    digits = [sign for sign in line if sign.isdigit()]
    digits += "12" if "½" in line else ""
    for reading in facts.readings:
        typed = [sign for sign in reading.value.text if sign.isdigit()]
        spelled = reading.value.text.startswith(("half", "an hour", "one hour"))
        assert spelled or all(sign in digits or sign in "02346578" for sign in typed)
        assert isinstance(reading.value, Quantity)


@pytest.mark.parametrize(
    "line",
    [
        "lid 59.6 " * 200_000,
        "",
        " ",
        "\x1b[31mlid 59.6\x1b[0m",
        "lid 59.6\nlid 59.7",
        "lid \u202e59.6",
        "lid\x0059.6",
        "1 " * 300,
    ],
    ids=["megabyte", "empty", "blank", "escape", "two lines", "bidi", "null", "long"],
)
def test_what_is_no_ordinary_line_is_kept_as_a_note(line: str) -> None:
    understood = read(line)
    assert understood.kind is Kind.NOTE
    assert understood.verdict is Verdict.KEPT
    assert understood.line == line


def test_a_line_of_the_longest_length_is_still_read() -> None:
    line = "lid width 59.6" + " " * (LONGEST_LINE - 14)
    assert read(line).kind is Kind.READING


# -- figures that are no readings --------------------------------------------------


@pytest.mark.parametrize(
    "line",
    [
        "lid M3x8",
        "lid 18 ga steel",
        "bed 2026-03-14",
        "lid at 16:00",
        "lid rev 3",
        "gate layer 40",
        "lid hole 3",
        "lid 2 pieces",
        "mask https://example.org/36.2",
        "mask-36.2.dxf",
        "lid 5 screws",
        "used a 22 uH coil on the lamp",
        "lamp fan 1200 rpm",
        "lid 3D print",
        "lid 40.2q",
        "1/4-20",
        "#6-32",
        "v2",
        "H7",
    ],
)
def test_a_figure_that_is_no_size_never_becomes_a_reading(line: str) -> None:
    understood = read(line)
    assert understood.facts.readings == ()


def test_a_number_with_two_meanings_is_asked_about() -> None:
    understood = read("crossbar length 1,234")
    assert understood.verdict is Verdict.ASKED
    assert understood.question is not None
    assert understood.question.choices == ("1.234", "1234")


def test_the_unit_of_the_project_is_used_where_none_is_typed() -> None:
    inches = Vocabulary(now=NOW, parts={"lid": ()}, unit="in")
    [reading] = understand("lid width 2.35", inches).facts.readings
    assert reading.value.unit == "in"


def test_an_angle_needs_no_unit() -> None:
    [reading] = read("base flange angle 91").facts.readings
    assert reading.value.unit == "°"


# -- names -------------------------------------------------------------------------


def test_a_misspelt_part_is_found_by_one_slip() -> None:
    facts = read("crosbar 178.31").facts
    assert (facts.part, facts.part_is_new) == ("crossbar", False)


def test_a_part_is_found_by_its_other_names_and_in_the_plural() -> None:
    project = Vocabulary(now=NOW, parts={"cross bar": ("beam",)})
    for line in ("beam 178.3", "cross-bar 178.3", "the cross bars cracked"):
        assert understand(line, project).facts.part == "cross bar"


def test_the_first_line_of_a_new_project_makes_its_part() -> None:
    facts = understand("base opening 178.6 should be 180", NEW).facts
    assert (facts.part, facts.part_is_new, facts.what) == ("base", True, "opening")


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("diffuser cracked at the corner screw", "diffuser"),
        ("yesterday 16:00 sawed the crossbar at 178.45", "crossbar"),
        ("riveted the lid", "lid"),
    ],
)
def test_the_object_of_a_verb_is_a_new_part_in_a_new_project(
    line: str, part: str
) -> None:
    understood = understand(line, NEW)
    assert understood.verdict is Verdict.TAKEN
    assert (understood.facts.part, understood.facts.part_is_new) == (part, True)


def test_the_owner_of_a_dimension_is_its_part() -> None:
    project = Vocabulary(
        now=NOW, parts={"base": ()}, characteristics={"base": ["opening"]}
    )
    understood = understand("opening 178.62", project)
    assert understood.facts.part == "base"
    assert understood.said("part") == "opening"


def test_a_piece_is_found_by_number_and_by_order() -> None:
    assert read("scrap diffuser 1").facts.piece == "diffuser 1"
    assert read("re-squared the second base").facts.piece == "base 2"


def test_builds_machines_stock_steps_and_instruments_are_known_by_name() -> None:
    project = Vocabulary(
        now=NOW,
        parts={"base": (), "lid": ()},
        builds=["build 2"],
        machines=["the green folder"],
        stocks=["2 mm 5052"],
        steps=["rivet the lid"],
        instruments=["long caliper"],
        places=["inner lip"],
    )
    facts = understand("base inner lip 12.1 long caliper", project).facts
    assert (facts.instrument, facts.place) == ("long caliper", "inner lip")
    facts = understand("folded the base on the green folder for build 2", project).facts
    assert (facts.machine, facts.build) == ("the green folder", "build 2")
    assert understand("cut the lid from 2 mm 5052", project).facts.stock == "2 mm 5052"
    assert understand("lid cracked at rivet the lid", project).facts.step


def test_scrap_as_a_noun_scraps_nothing() -> None:
    for line in (
        "lid cracked, hole too big, tried on scrap",
        "lid cracked but not scrapped",
        "cut the lid from a scrap of plate",
    ):
        assert read(line).facts.disposition == ""


# -- moments -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "when"),
    [
        ("yesterday 16:00", "2026-03-13T16:00"),
        ("yesterday at 4pm", "2026-03-13T16:00"),
        ("2 h ago", "2026-03-14T08:15"),
        ("20 min ago", "2026-03-14T09:55"),
        ("an hour ago", "2026-03-14T09:15"),
        ("3 days ago", "2026-03-11T12:00"),
        ("this morning", "2026-03-14T09:00"),
        ("on the 12th", "2026-03-12"),
        ("on monday", "2026-03-09"),
        ("12 march", "2026-03-12"),
        ("2026-02-28", "2026-02-28"),
        ("28.2.2026", "2026-02-28"),
    ],
)
def test_a_moment_is_told_in_many_ways(said: str, when: str) -> None:
    moment = read(f"{said} glued the lid").facts.when
    assert moment is not None
    assert moment.isoformat().startswith(when)
    assert moment.utcoffset() == timedelta(hours=1)


@pytest.mark.parametrize("said", ["2027-01-01", "in 2 days", "at 23:50"])
def test_a_moment_ahead_is_asked_about(said: str) -> None:
    understood = read(f"{said} glued the lid")
    assert understood.verdict is Verdict.ASKED
    assert understood.question is not None
    assert understood.question.about == "when"


# -- what is shown -----------------------------------------------------------------


def test_an_understanding_is_shown_in_one_line() -> None:
    shown = in_one_line(read("diffuser cracked at the corner screw"))
    assert shown == "failure · diffuser · at the corner screw"


def test_a_reading_is_shown_with_its_unit_and_what_was_wanted() -> None:
    rows = describe(read("base opening 178.6 should be 180"))
    assert rows[:4] == [
        ("kind", "measured"),
        ("part", "base"),
        ("size", "opening 178.6 mm"),
        ("wanted", "180 mm"),
    ]


def test_whose_fault_a_failure_is_may_be_asked_but_does_not_hold_it_up() -> None:
    understood = read("diffuser cracked at the corner screw")
    assert understood.verdict is Verdict.TAKEN
    assert understood.question is not None
    assert understood.question.about == "met_by_others"


def test_understanding_loads_nothing_heavy() -> None:
    script = (
        "import sys; from logbook.plain.lines import understand;"
        "heavy = {'textual','sqlmodel','pydantic','numpy','scipy','git','tomlkit'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
