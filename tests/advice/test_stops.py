"""What stops a release, and how it is gone past; all of it is invented."""

from __future__ import annotations

import pytest

from logbook.errors import Refused
from tests.cli.shop import Shop


def assert_nothing_stops(shop: Shop) -> None:
    """Only that no part has a file is still said, and what builders will ask."""
    told, _, _ = said(shop).partition("\nbuilders will ask")
    first, *others = told.splitlines()
    assert first.startswith("nothing hinders this release")
    assert all("no file on record" in line for line in others), others


def said(shop: Shop) -> str:
    return shop.logbook("release", "1.0", "--check").out


def test_a_declared_wait_stops_a_release_until_somebody_goes_past_it(
    shop: Shop,
) -> None:
    shop.asked("step", "print the gate", "--makes", "base")
    assert_nothing_stops(shop)
    shop.asked("hold", "print the gate", "PLA was not tried warm", "--until", "tried")
    refused = shop.logbook("release", "1.0")
    assert refused.code == Refused.exit_code
    assert "print the gate: PLA was not tried warm, until tried" in refused.err
    assert "logbook override" in refused.err
    assert "would stop a release: print the gate" in shop.logbook("check").out
    shop.asked("override", "PLA was not tried warm", "--because", "PETG now")
    assert "gone past: print the gate" in said(shop)
    done = shop.logbook("release", "1.0")
    assert done.code == 0
    assert "passed over: print the gate: PLA was not tried warm" in done.out


def test_a_gap_that_waits_stops_once_the_build_has_a_piece_of_it(shop: Shop) -> None:
    shop.asked("build", "build 1")
    shop.asked("piece", "trial strip")
    assert_nothing_stops(shop)
    shop.asked("piece", "base")
    assert "crossbar in base: cutting the crossbar waits" in said(shop)
    shop.asked("override", "crossbar in base", "--reason", "fit")
    assert "nothing hinders this release" in said(shop)


def test_a_rejection_nobody_decided_on_stops_a_release(shop: Shop) -> None:
    words = ("part", "rail", "--dimension", "width=20.0 ±0.1")
    assert shop.logbook(*words, "--later").code == 0
    shop.asked("measure", "rail", "width", "20.5")
    assert "rail-1 width 20.5 mm should be 20.0 mm: nobody has decided" in said(shop)
    [deviation] = shop.records("deviations")
    shop.asked("dispose", deviation.name[:8], "use as is")
    assert_nothing_stops(shop)


def test_what_a_step_asks_before_it_closes_is_named_and_stops_nothing(
    shop: Shop,
) -> None:
    shop.asked("step", "put the cable in its channel", "--uses", "cable")
    shop.asked("step", "screw the lid on", "--closes", "--inside", "cable")
    assert_nothing_stops(shop)
    checked = shop.asked("check")
    assert checked["stops"] == []


def test_an_order_that_closes_over_what_is_to_go_in_stops_until_it_is_numbered(
    shop: Shop,
) -> None:
    risk = (
        "“put the cable in” is written after “screw the lid on”: cable would still be "
        "outside when it closes; it has to come first"
    )
    shop.asked("build", "build 1")
    shop.asked("step", "screw the lid on", "--closes", "--inside", "cable")
    shop.asked("step", "put the cable in", "--uses", "cable")
    assert f"wait: {risk}" in shop.logbook("holds").out
    assert said(shop).startswith(f"{risk}\n")
    checked = shop.logbook("check").out
    assert checked.count(risk) == 1
    assert f"would stop a release: {risk}" in checked
    assert risk in shop.logbook("release", "1.0").err
    # Done the right way round, or closed all the same: the next one reads it anew.
    shop.asked("step", "put the cable in", "--done")
    assert risk not in shop.logbook("holds").out.replace(f"remark: {risk}", "")
    shop.asked("override", "screw the lid on", "--because", "it can be opened again")
    assert said(shop).startswith(f"{risk}\n")
    shop.asked("override", "put the cable in", "--because", "it goes in by the slot")
    assert f"gone past: {risk} (it goes in by the slot)" in said(shop)
    shop.asked("step", "screw the lid on", "--number", "3")
    assert_nothing_stops(shop)


@pytest.mark.parametrize("state", ["withdrawn"])
def test_a_part_whose_only_revision_was_withdrawn_stops_it(
    shop: Shop, state: str
) -> None:
    shop.asked("status", "base first issue", state)
    assert "base: it has no revision that is not withdrawn" in said(shop)


def test_a_file_changed_after_it_was_tagged_names_its_revision_and_release(
    shop: Shop,
) -> None:
    drawing = shop.folder / "base.dxf"
    drawing.write_text("999\nfirst\n0\nEOF\n", "utf-8")
    shop.git("add", "base.dxf")
    shop.git("commit", "-q", "-m", "Draw the base")
    shop.asked("revise", "base", "--file", "base.dxf", "--redrawn")
    assert shop.logbook("release", "1.0").code == 0
    drawing.write_text("999\nsecond\n0\nEOF\n", "utf-8")
    [stop] = shop.asked("check")["stops"]
    assert "base.dxf: changed since base first issue was recorded" in stop["says"]
    assert "which release 1.0 holds; that is a new revision" in stop["says"]
    assert any(ref.startswith("base first issue") for ref in stop["inputs"])
    shop.asked("revise", "base", "--changed", "redrawn", "--file", "base.dxf")
    assert shop.asked("check")["stops"] == []
