"""Pieces held against their drawings; all sizes are invented."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.advice.pieces.conformity import inspected
from logbook.advice.pieces.judging import Rule, Word
from logbook.project import Project
from logbook.records.kinds.workshop import Piece
from tests.cli.shop import Shop


@pytest.fixture
def bars(shop: Shop) -> Shop:
    """A bar drawn 20.0 ±0.1 and a critical one, measured with U 0.04 mm."""
    for words in (
        ("part", "rail", "--dimension", "width=20.0 ±0.1"),
        ("part", "pin", "--dimension", "width=20.0 ±0.1", "--critical", "width"),
        ("instrument", "caliper", "--uncertainty", "0.04 mm", "--resolution", "0.01"),
    ):
        assert shop.logbook(*words, "--later").code == 0
    return shop


def measure(shop: Shop, part: str, *values: str) -> None:
    words = ("measure", part, "width", *values, "--with", "caliper", "--later")
    assert shop.logbook(*words).code == 0


def held(shop: Shop, name: str, *more: str) -> dict[str, Any]:
    answer: dict[str, Any] = shop.asked("conformity", name, *more)
    return answer


def verdict(shop: Shop, name: str, *more: str) -> str:
    [piece] = held(shop, name, *more)["pieces"]
    return str(piece["verdict"])


@pytest.mark.parametrize(
    ("value", "plain", "guarded"),
    [
        # JCGM 106 and ISO 14253-1 with w = U = 0.04 mm about 19.9 and 20.1 mm.
        ("20.00", "accept", "accept"),
        ("20.05", "accept", "accept"),
        ("20.08", "too close to call", "too close to call"),
        ("20.12", "too close to call", "too close to call"),
        ("20.15", "reject", "reject"),
        ("19.84", "reject", "reject"),
    ],
)
def test_a_limit_within_u_is_too_close_to_call(
    bars: Shop, value: str, plain: str, guarded: str
) -> None:
    measure(bars, "rail", value)
    measure(bars, "pin", value)
    assert verdict(bars, "rail-1") == plain
    assert verdict(bars, "pin-1") == guarded


def test_the_worst_place_decides_and_places_are_not_averaged(bars: Shop) -> None:
    measure(bars, "rail", "left=20.20", "right=19.80")
    [piece] = held(bars, "rail-1")["pieces"]
    assert piece["verdict"] == "reject"
    [row] = piece["rows"]
    assert row["results"] == "19.80 to 20.20 mm"


def test_by_choice_the_conformance_probability_decides(bars: Shop) -> None:
    measure(bars, "rail", "20.09")
    # Φ(0.01 / 0.02) = 0.69 with u = U / 2 (JCGM 106, clause 7).
    assert verdict(bars, "rail-1", "--chance", "60 %") == "accept"
    assert verdict(bars, "rail-1", "--chance", "95 %") == "too close to call"
    assert bars.logbook("conformity", "rail-1", "--chance", "40 %").code == 2


def test_rows_have_the_fields_of_a_first_article(bars: Shop) -> None:
    measure(bars, "pin", "20.20")
    [deviation] = bars.records("deviations")
    identity = deviation.name[:8]
    bars.asked("dispose", identity, "use as is")
    [piece] = held(bars, "pin-1")["pieces"]
    [row] = piece["rows"]
    assert list(row) == [
        "characteristic_number", "reference_location", "characteristic_designator",
        "requirement", "results", "designed_tooling", "nonconformance_number",
        "additional_data",
    ]  # fmt: skip
    assert row["characteristic_designator"] == "critical"
    assert row["requirement"] == "width 20.0 mm (19.9 mm to 20.1 mm)"
    assert row["nonconformance_number"] == identity
    assert "use as is" in row["additional_data"]
    assert row["designed_tooling"] == ""


def asks(shop: Shop) -> list[str]:
    every = shop.asked("holds")["advice"]
    return [advice["says"] for advice in every if advice["topic"] == "conformity"]


def test_off_drawing_asks_until_somebody_decides(bars: Shop) -> None:
    measure(bars, "rail", "20.00")
    # A reading put right in an editor makes no deviation, as the verb would.
    [run] = bars.records("runs")
    run.write_text(run.read_text("utf-8").replace("20.00", "20.30"), "utf-8")
    [ask] = asks(bars)
    assert "rail-1 is off its drawing and nobody has decided" in ask
    checked = bars.logbook("check").out
    assert "would stop a release: rail-1 is off its drawing" in checked
    bars.asked("dispose", "rail-1", "use as is")
    assert asks(bars) == []
    assert "use as is" in held(bars, "rail-1")["pieces"][0]["says"]


def test_what_was_read_before_a_rework_is_not_called_unmeasured_without_a_word(
    bars: Shop,
) -> None:
    measure(bars, "rail", "20.30")
    bars.asked("dispose", "rail-1", "rework")
    [piece] = held(bars, "rail-1")["pieces"]
    assert piece["verdict"] == "unmeasured"
    assert "unmeasured: width (read 20.30 mm before the rework)" in piece["says"]
    table = bars.logbook("conformity", "rail-1", "--rows").out
    assert "unmeasured; read 20.30 mm before the rework" in table


def test_what_is_made_to_suit_is_not_rejected_by_its_drawn_size(shop: Shop) -> None:
    assert shop.logbook("measure", "crossbar", "length", "178.3", "--later").code == 0
    [piece] = held(shop, "crossbar-1")["pieces"]
    assert "made to suit" in piece["says"]
    assert piece["verdict"] == "no limits drawn"


def test_a_build_says_what_it_lacks_and_what_nobody_measured(bars: Shop) -> None:
    for part in ("rail", "pin"):
        bars.asked("line", part, "2")
    measure(bars, "rail", "20.00")
    bars.asked("piece", "pin")
    [whole] = held(bars, "build 1")["advice"]
    assert "accept: rail-1" in whole["says"]
    assert "unmeasured: pin-1" in whole["says"]
    assert "on the list and not there: 1 × pin, 1 × rail" in whole["says"]
    figures = {one["name"]: one["value"] for one in whole["numbers"]}
    assert figures["missing"] == 2


def test_a_release_names_what_nobody_has_made(bars: Shop) -> None:
    measure(bars, "rail", "20.00")
    assert bars.logbook("release", "1.0", "--anyway").code == 0
    [whole] = held(bars, "release 1.0")["advice"]
    untried = whole["says"].partition("untried: ")[2]
    assert "pin first issue" in untried
    assert "rail first issue" not in untried


def test_a_face_temperature_is_judged_in_degrees(shop: Shop) -> None:
    shop.asked("part", "gate", "--dimension", "face=11 °C to 55 °C")
    shop.asked("measure", "gate", "face", "58 °C", "--after", "2 h", "--room", "22 °C")
    assert verdict(shop, "gate-1") == "reject"
    shop.asked("measure", "gate", "face", "50 °C", "--after", "2 h", "--room", "22 °C")
    assert verdict(shop, "gate-1") == "accept"


@given(st.integers(19800, 20200))
def test_plain_and_guarded_never_contradict_each_other(microns: int) -> None:
    from logbook.shop.fitting.decision import Limits, Proof, Verdict, decide

    limits = Limits(Fraction(199, 10), Fraction(201, 10))
    found = decide(Fraction(microns, 1000), limits, Fraction(4, 100), None)
    if found.proof is Proof.CONFORMS:
        assert found.verdict is Verdict.ACCEPT
    if found.proof is Proof.DOES_NOT_CONFORM:
        assert found.verdict is Verdict.REJECT


def test_looking_at_a_snapshot_needs_no_build(bars: Shop) -> None:
    measure(bars, "rail", "20.00")
    snapshot = Project.open(bars.folder).snapshot
    piece = snapshot.lookup("rail-1", Piece)
    assert inspected(snapshot, piece, Rule(guard=True)).word is Word.ACCEPT


def test_a_revision_that_leaves_the_size_to_the_gap_says_so(shop: Shop) -> None:
    words = ("--changed", "made to suit", "--to-suit", "length")
    assert shop.logbook("revise", "crossbar", *words, "--later").code == 0
    assert shop.logbook("measure", "crossbar", "length", "178.3", "--later").code == 0
    [piece] = held(shop, "crossbar-1")["pieces"]
    assert "made to suit: length 178.30 mm" in piece["says"]
    assert "the gap decides" in piece["says"]
