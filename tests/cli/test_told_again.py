"""A verb that names what is on record changes what it tells, and keeps the rest."""

from __future__ import annotations

from typing import TypeVar

import pytest

from logbook.records.kinds.assembling import Fit, Joint, Line, Step
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Instrument, Stock
from logbook.store.reading.records import read_files, snapshot_of
from tests.cli.shop import Shop

FIRST = {
    "step": (
        "rivet the lid on", "--uses", "lid", "--uses", "rivet 3.2", "--closes",
        "--inside", "cable", "--tested", "the lamp",
    ),
    "line": ("rivet 3.2", "4", "--bought-as", "blind, dome head", "--spare", "2"),
    "joint": (
        "lid to base", "M3x6", "--layer", "lid=2 mm", "--layer", "base=2 mm",
        "--edge", "9 mm", "--edge-of", "lid", "--nut", "plain", "--number", "4",
    ),
    "gap": (
        "bar in the opening", "base.opening - crossbar.length", "--limits",
        "0.1 to 0.5", "--last", "crossbar.length", "--one-instrument",
    ),
    "stock": ("2 mm sheet", "--material", "5052-H32", "--pieces", "3", "--lot", "B7"),
    "instrument": ("caliper", "--uncertainty", "0.04 mm", "--resolution", "0.01 mm"),
    "part": (
        "bracket", "--material", "5052", "--process", "folding", "--also", "angle",
        "--remake-time", "40 min", "--remake-cost", "12 EUR", "--last-stock",
    ),
    "project": (
        "--hottest", "35 °C", "--coldest", "15 °C", "--licence", "CERN-OHL-W-2.0",
    ),
}  # fmt: skip
"""What is told first, of the invented copy stand."""


R = TypeVar("R", bound=Record)


def on_record(shop: Shop, name: str, cls: type[R]) -> R:
    return snapshot_of(read_files(shop.folder)).lookup(name, cls)


@pytest.mark.parametrize(
    ("verb", "again", "changed"),
    [
        ("step", ("rivet the lid on", "--number", "9"), ["number: 1 → 9"]),
        (
            "step",
            ("rivet the lid on", "--uses", "lid"),
            ["uses: lid · rivet 3.2 → lid"],
        ),
        ("line", ("rivet 3.2", "6"), ["quantity: 4 → 6"]),
        ("line", ("rivet 3.2", "--spare", "0"), ["spare: 2 → taken away"]),
        ("joint", ("lid to base", "M3x8"), ["fastener: M3x6 → M3x8"]),
        (
            "joint",
            ("lid to base", "--edge", "8 mm", "--edge-of", "lid"),
            ["layer 1 edge distance: 9 mm → 8 mm"],
        ),
        (
            "joint",
            ("lid to base", "--layer", "lid=1.5 mm", "--layer", "base"),
            ["layer 1 thickness: 2 mm → 1.5 mm"],
        ),
        (
            "gap",
            ("bar in the opening", "--limits", "0.1 to 0.6"),
            ["upper limit: 0.5 mm → 0.6 mm"],
        ),
        ("stock", ("2 mm sheet", "--pieces", "2"), ["pieces: 3 → 2"]),
        (
            "instrument",
            ("caliper", "--uncertainty", "0.05 mm"),
            ["uncertainty: 0.04 mm → 0.05 mm"],
        ),
    ],
)
def test_only_what_is_told_again_changes_and_it_is_said(
    verb: str, again: tuple[str, ...], changed: list[str], shop: Shop
) -> None:
    assert shop.logbook(verb, *FIRST[verb]).code == 0
    said = shop.logbook(verb, *again)
    assert said.code == 0, said.err
    assert [
        line.strip() for line in said.out.splitlines() if line.startswith("  ")
    ] == changed


def test_what_is_not_told_again_is_still_there(shop: Shop) -> None:
    for verb in ("step", "line", "joint", "gap"):
        assert shop.logbook(verb, *FIRST[verb]).code == 0
    shop.logbook("step", "Rivet the lid on", "--number", "9")
    step = on_record(shop, "rivet the lid on", Step)
    assert (step.closes, step.inside, step.tested) == (True, ("cable",), ("the lamp",))
    assert [one.name for one in step.uses] == ["lid", "rivet 3.2"]
    shop.logbook("line", "rivet 3.2", "6")
    line = on_record(shop, "rivet 3.2 in the whole", Line)
    assert (line.quantity, line.spare, line.bought_as) == (6, 2, "blind, dome head")
    shop.logbook("joint", "lid to base", "M3x8")
    joint = on_record(shop, "lid to base", Joint)
    assert (joint.fastener, joint.nut, joint.quantity) == ("M3x8", "plain", 4)
    assert str(joint.layers[0].edge_distance) == "9 mm"
    shop.logbook("gap", "bar in the opening", "base.opening - crossbar.width")
    gap = on_record(shop, "bar in the opening", Fit)
    assert str(gap.upper_limit) == "0.5 mm"
    assert gap.made_last is None, "what is made last is none of its dimensions any more"


@pytest.mark.parametrize(
    ("verb", "words", "changed"),
    [
        (
            "step",
            ("rivet the lid on", "--without", "closes", "--without", "inside"),
            ["closes: yes → taken away", "inside: cable → taken away"],
        ),
        (
            "joint",
            ("lid to base", "--without", "nut", "--without", "edge"),
            ["nut: plain → taken away", "layer 1 edge distance: 9 mm → taken away"],
        ),
        (
            "line",
            ("rivet 3.2", "--without", "bought as"),
            ["bought as: blind, dome head → taken away"],
        ),
        (
            "part",
            (
                "bracket",
                "--without",
                "material",
                "--without",
                "also",
                "--without",
                "remake-cost",
                "--without",
                "last-stock",
            ),
            [
                "material: 5052 → taken away",
                "remake money: 12 EUR → taken away",
                "remake stock left: no → taken away",
                "aliases: angle → taken away",
            ],
        ),
        (
            "project",
            ("--without", "hottest", "--without", "licence"),
            [
                "climate hottest: 35 °C → taken away",
                "licence: CERN-OHL-W-2.0 → taken away",
            ],
        ),
    ],
)
def test_a_fact_is_taken_away_where_that_is_said(
    verb: str, words: tuple[str, ...], changed: list[str], shop: Shop
) -> None:
    assert shop.logbook(verb, *FIRST[verb]).code == 0
    said = shop.logbook(verb, *words)
    assert said.code == 0, said.err
    told = [line.strip() for line in said.out.splitlines() if line.startswith("  ")]
    assert told == changed


def test_nothing_is_taken_away_by_a_slip(shop: Shop) -> None:
    assert shop.logbook("step", *FIRST["step"]).code == 0
    said = shop.logbook("step", "rivet the ldi on", "--without", "closes")
    assert said.code == 5
    assert "nothing is on record as “rivet the ldi on” yet" in said.err
    for words in (
        ("step", "rivet the lid on", "--inside", "x", "--without", "inside"),
        ("part", "bracket", "--remake-cost", "1 EUR", "--without", "remake-cost"),
        ("part", "bracket", "--material", "x", "--without", "material"),
        ("project", "--hottest", "30 °C", "--without", "hottest"),
        ("project", "--licence", "x", "--without", "licence"),
    ):
        shop.logbook(words[0], *FIRST[words[0]])
        said = shop.logbook(*words)
        assert said.code == 2
        assert "one of the two" in said.err


def test_a_design_file_said_to_be_no_part_is_not_offered_or_asked_about_again(
    shop: Shop,
) -> None:
    for name in ("whole.stl", "lid.stl"):
        (shop.folder / name).write_text(f"solid {name}\n", "utf-8")
    shop.asked("part", "arm")
    assert "2 design files here are of no part" in shop.logbook("release", "1.0").out
    slip = shop.logbook("project", "--no-part", "whle.stl")
    assert slip.code == 2
    assert "found “whle.stl”; accepted: lid.stl, whole.stl" in slip.err
    assert shop.logbook("project", "--no-part", "whole.stl").code == 0
    told = shop.logbook("release", "1.1").out
    assert "1 design file here is of no part and not frozen: lid.stl; " in told
    assert shop.asked("start", "--yes")["parts"] == ["lid"]
    assert shop.logbook("project", "--part-after-all", "whole.stl").code == 0
    assert shop.asked("start", "--yes")["parts"] == ["whole"]


def test_a_new_joint_gap_or_line_says_what_it_lacks(shop: Shop) -> None:
    for words, lacks in (
        (("joint", "lid to base"), "no fastener is told"),
        (("gap", "bar in the opening"), "no formula is told"),
        (("line", "washer M4"), "how many of the washer M4?"),
    ):
        said = shop.logbook(*words)
        assert said.code == 2
        assert lacks in said.err


def test_stock_and_instrument_keep_what_is_not_told(shop: Shop) -> None:
    for verb in ("stock", "instrument"):
        assert shop.logbook(verb, *FIRST[verb]).code == 0
    shop.logbook("stock", "2 mm sheet", "--pieces", "2")
    stock = on_record(shop, "2 mm sheet", Stock)
    assert (stock.material, stock.pieces, stock.lot) == ("5052-H32", 2, "B7")
    shop.logbook("instrument", "caliper", "--uncertainty", "0.05 mm")
    assert str(on_record(shop, "caliper", Instrument).resolution) == "0.01 mm"
