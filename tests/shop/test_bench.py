"""Questions a metalworker asks at the bench, answered through the shell."""

from __future__ import annotations

import json
from typing import Any

import pytest

from logbook.cli import main


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert main(["sums", *words, "--json"]) == 0
    held: dict[str, Any] = json.loads(capsys.readouterr().out)
    return held


def value(held: dict[str, Any], name: str) -> Any:
    return held["results"][name]["value"]


def test_channel_of_two_bends_on_a_folder(capsys: pytest.CaptureFixture[str]) -> None:
    held = asked(
        capsys, "setup-sheet", "--legs", "60", "100", "60", "--radius", "3", "mm",
        "--thickness", "2.0", "mm", "--neutral-factor", "0.42", "--tool", "folder",
        "--clamped", "far", "near", "--material", "5052-H32", "--grain", "across",
        "--coupon-set", "92", "--coupon-got", "90",
    )  # fmt: skip
    # BA = π/2 (3 + 0.42 · 2) = 6.0319; setback 5; flat 55 + 90 + 55 + 2 BA
    assert value(held, "flat_length") == pytest.approx(212.0637, abs=1e-4)
    # web clamped: 55 + BA − 3 from the far tangent line, 151.0319 + 3 from the near
    assert value(held, "lines") == pytest.approx([58.0319, 154.0319], abs=1e-4)
    assert value(held, "set_bend_angles") == pytest.approx([92.0, 92.0])
    sheet = held["tables"][0]
    heads = [column["name"] for column in sheet["columns"]]
    assert heads[:6] == ["step", "bend", "line", "clamp", "face up", "fold marked face"]
    assert [row[:2] for row in sheet["rows"]] == [[1, 1], [2, 2]]
    assert [row[7:9] for row in sheet["rows"]] == [[92.0, 88.0]] * 2
    assert held["warnings"] == []
    assert held["note"] == "a calculation, not an approval"


def test_line_at_the_outside_size_is_told_to_cost_two_millimetres(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "wrong-line", "--radius", "3", "--thickness", "2",
        "--neutral-factor", "0.42", "--tool", "folder", "--marked", "outside corner",
    )  # fmt: skip
    # the corner lies one setback (5) from the tangent line, the sight line 3
    assert value(held, "clamped_leg") == pytest.approx(2.0)
    assert value(held, "free_leg") == pytest.approx(-2.0)


def test_radius_too_tight_for_the_sheet_is_warned_of(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "setup-sheet", "--legs", "60", "100", "--radius", "1", "--thickness",
        "2.0", "--material", "5052-H32", "--grain", "along the bend lines",
    )  # fmt: skip
    said = " ".join(held["warnings"])
    assert "the trade table asks for 3 mm (1.5 T) in 5052-H32" in said
    assert "along the rolling direction" in said


def test_beech_bed_against_its_slots(capsys: pytest.CaptureFixture[str]) -> None:
    held = asked(
        capsys, "wood-movement", "--species", "beech", "--width", "240", "mm",
        "--humidity-from", "30", "%", "--humidity-to", "65", "%", "--slot-play", "4",
    )  # fmt: skip
    # moisture 6.2 and 12.0 % by the published table; D C (M2 − M1) with C 0.00431
    assert value(held, "moisture_from") == pytest.approx(6.2, abs=0.06)
    assert value(held, "moisture_to") == pytest.approx(12.0, abs=0.06)
    assert value(held, "change") == pytest.approx(240 * 0.00431 * 5.8, abs=0.1)
    assert value(held, "slots_enough") == "no: it moves more than the slot allows"
    assert any("upper bound" in said for said in held["assumptions"])


def test_petg_beside_the_lamp_in_a_hot_room(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "heat-margin", "--material", "PETG", "--measured", "51 °C", "--room",
        "22 °C", "--hottest-room", "35 °C", "--hours", "2",
    )  # fmt: skip
    assert value(held, "hottest") == pytest.approx(64)
    # unloaded: low end of the glass transition, 77 °C
    assert value(held, "margin") == pytest.approx(13)
    # loaded: low end of the deflection temperature, 63 °C (memory)
    assert value(held, "margin_loaded") == pytest.approx(-1)
    assert any("no load, clamp or spring" in line for line in held["warnings"])
    assert any("your own spool's sheet" in line for line in held["assumptions"])
    assert value(held, "holds").startswith("yes")


def test_pla_beside_the_lamp_softens(capsys: pytest.CaptureFixture[str]) -> None:
    held = asked(
        capsys, "heat-margin", "--material", "PLA", "--measured", "58", "--room", "22",
    )  # fmt: skip
    assert value(held, "holds") == "no: it softens there"
    assert value(held, "margin") < 0


def test_margin_below_the_wanted_one_is_too_close(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "heat-margin", "--material", "PETG", "--measured", "55", "--room", "22",
        "--wanted-margin", "18 °F",
    )  # fmt: skip
    # 18 °F are 10 K; 55 + 13 = 68 leaves 9 K below 77 °C
    assert value(held, "margin") == pytest.approx(9)
    assert value(held, "holds") == "too close: below the margin wanted"


def test_under_load_the_deflection_temperature_counts(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "heat-margin", "--material", "PETG", "--measured", "51", "--room", "22",
        "--loaded", "yes",
    )  # fmt: skip
    assert value(held, "holds") == "no: it softens there"
    assert value(held, "margin") == value(held, "margin_loaded") == pytest.approx(-1)


def test_two_blanks_from_the_offcut(capsys: pytest.CaptureFixture[str]) -> None:
    held = asked(
        capsys, "blanks-from-stock", "--stock", "400x150", "--blanks", "180x95",
        "--count", "2", "--kerf", "1.5", "mm",
    )  # fmt: skip
    assert value(held, "come_out") == "yes"
    assert len(held["tables"][0]["rows"]) == 2


def test_mask_comes_out_one_kerf_too_large(capsys: pytest.CaptureFixture[str]) -> None:
    forgot = asked(capsys, "kerf-uncompensated", "--drawn", "36.0", "--kerf", "0.2")
    assert value(forgot, "hole") == pytest.approx(36.2)
    mended = asked(
        capsys, "kerf-path", "--size", "36.0", "--kerf", "0.2", "--contour", "inside"
    )
    assert value(mended, "path") == pytest.approx(35.8)
    assert value(mended, "offset_per_side") == pytest.approx(0.1)


def test_folding_bars_take_the_line_by_the_edge_of_the_bar(
    capsys: pytest.CaptureFixture[str],
) -> None:
    words = ["setup-sheet", "--legs", "60", "100", "--radius", "3", "--thickness", "2"]
    words += ["--neutral-factor", "0.42", "--tool", "folding bars"]
    sharp = asked(capsys, *words, "--bar-edge", "0")
    assert value(sharp, "lines") == pytest.approx([55.0])
    rounded = asked(capsys, *words)
    assert value(rounded, "lines") == pytest.approx([58.0])


def test_press_brake_takes_the_bend_centre(
    capsys: pytest.CaptureFixture[str],
) -> None:
    held = asked(
        capsys, "setup-sheet", "--legs", "60", "100", "--radius", "3", "--thickness",
        "2", "--neutral-factor", "0.42", "--tool", "press brake",
    )  # fmt: skip
    assert value(held, "lines") == pytest.approx([55 + 6.031858 / 2], abs=1e-5)


def test_refusal_has_its_exit_code_and_one_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["sums", "flat-length", "--legs", "60", "--thickness", "0"]) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "accepted" in said
    assert main(["sums", "no-such-sum", "--x", "1"]) == 5
