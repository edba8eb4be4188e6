"""Two shops in one record: what one's machines do sets nothing in the other's.

All sizes are invented.
"""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from logbook.cli import main
from logbook.plain.told.build_begun import build_begun
from logbook.project import Project
from logbook.records.kinds.workshop import Build, Machine
from tests.cli.shop import Shop
from tests.cli.test_clones import Bench, clones, git, shop
from tests.cli.typed import Terminal

BITES = {"bench0": -0.70, "bench1": -0.20}
"""What one bend takes in each shop, in mm."""


@pytest.fixture
def apart(tmp_path: Path) -> list[Bench]:
    """Two shops that each folded three bases, on the machine of one record."""
    here, there = clones(tmp_path, 2)
    shop(here, "08:00", "machine", "folder", "--process", "folding")
    shop(here, "08:01", "part", "base", "--dimension", "opening=180.0")
    bends = ("--process", "folding", "--crosses", "opening=2 bends on the folder")
    shop(here, "08:02", "part", "base", *bends)
    there.pull(here)
    for hour, bench, build in ((9, here, "build 1"), (10, there, "shed-1")):
        shop(bench, f"{hour:02d}:00", "build", build)
        opening = f"{180 + 2 * BITES[bench.folder.name]:.2f}"
        for number in (1, 2, 3):
            piece = ("--piece", str(number), "--build", build)
            shop(bench, f"{hour:02d}:{number:02d}", "measure", "base", "opening",
                 opening, *piece)  # fmt: skip
    return [here, there]


def answered(bench: Bench, capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    capsys.readouterr()
    assert main([*words, "--in", str(bench.folder), "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def figures(bench: Bench, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """Give what each figure says, to what is to be set at the machine."""
    return [one["says"] for one in answered(bench, capsys, "figures")["advice"]]


def both_took_in(apart: list[Bench]) -> None:
    here, there = apart
    here.pull(there)
    there.pull(here)


def test_a_merge_changes_neither_shops_figure(
    apart: list[Bench], capsys: pytest.CaptureFixture[str]
) -> None:
    before = [figures(bench, capsys) for bench in apart]
    both_took_in(apart)
    folding = "hand folding, bend line position on the folder"
    expected = [
        f"{folding} ({name}): {bite:+.2f} mm at each bend, 6 bends on record; "
        f"set {-bite:+.2f} mm at the machine next time"
        for name, bite in BITES.items()
    ]
    for bench in apart:
        assert figures(bench, capsys) == expected
    alone = [re.sub(r" \(bench\d\)", "", one) for one in expected]
    assert [*before[0], *before[1]] == alone


def test_a_gap_counts_on_the_shop_its_build_is_of(
    apart: list[Bench], capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = apart
    shop(here, "11:00", "part", "bar", "--dimension", "length=179.0 ±0.1")
    bar_in = ("base.opening - bar.length", "--limits", "0.1 to 3")
    shop(here, "11:01", "gap", "bar in", *bar_in)
    both_took_in(apart)
    for number, (build, bite) in enumerate(
        zip(("build 2", "shed-2"), BITES.values(), strict=True)
    ):
        bench = apart[number]
        shop(bench, f"12:0{number}", "build", build)
        told = answered(bench, capsys, "gaps", "--build", build)["advice"]
        assumed = "\n".join(line for one in told for line in one["assumed"])
        found = re.findall(r"own figure ([−+-]\d\.\d+)", assumed)
        assert found
        # Drawn toward the default of the process, and to the own side of it.
        assert all((float(one) < -0.4) == (bite < -0.4) for one in found), found


def test_who_takes_in_another_shops_work_goes_on_in_a_build_of_his_own(
    apart: list[Bench],
) -> None:
    both_took_in(apart)
    for bench, build in zip(apart, ("build 1", "shed-1"), strict=True):
        at_hand = Project.open(bench.folder).at_hand
        assert at_hand is not None
        assert at_hand.title == build


def test_what_another_shop_has_not_read_yet_stops_no_release_here(
    apart: list[Bench], capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart
    shop(here, "11:00", "part", "bar", "--dimension", "length=179.0 ±0.1")
    bar_in = ("base.opening - bar.length", "--limits", "0.1 to 0.5")
    shop(here, "11:01", "gap", "bar in", *bar_in, "--last", "bar.length")
    there.pull(here)
    shop(there, "12:00", "build", "shed-2")
    shop(there, "12:01", "piece", "base")
    here.pull(there)
    for bench, stopped in ((here, False), (there, True)):
        capsys.readouterr()
        main(["release", "1.0", "--check", "--in", str(bench.folder)])
        told = capsys.readouterr().out
        assert ("making the bar waits" in told) == stopped


def test_one_or_two_is_asked_with_whose_each_is(
    apart: list[Bench],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    both_took_in(apart)
    capsys.readouterr()
    monkeypatch.setattr("sys.stdin", Terminal("2\n2\n2\n"))
    assert main(["settle", "--in", str(apart[0].folder)]) == 0
    asked = capsys.readouterr().out
    assert asked.count("(build 1 of bench0): ") == 3
    assert asked.count("(shed-1 of bench1): ") == 3


def test_one_shop_sets_its_machine_anew_and_the_others_figure_stays(
    apart: list[Bench], capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart
    shop(there, "13:00", "machine", "folder", "--set-anew")
    both_took_in(apart)
    for bench in apart:
        [said] = figures(bench, capsys)
        assert "(bench0): -0.70 mm at each bend, 6 bends on record" in said
    # The other's setting would be lost: it is refused, and stays.
    words = ["machine", "folder", "--set-anew", "--in", str(here.folder)]
    assert main([*words, "--when", "2026-03-08T14:00"]) == 7
    assert "was set anew by bench1" in capsys.readouterr().err
    [machine] = Project.open(here.folder).snapshot.all(Machine)
    assert machine.set_anew_by == "bench1"


def unnamed(bench: Bench) -> None:
    """Make the record one of before builds named who makes them."""
    for place in (bench.folder / "as-built" / "builds").rglob("*.md"):
        text = place.read_text("utf-8")
        place.write_text(re.sub(r"builder = .*\n", "", text), "utf-8")
    git(bench.folder, "commit", "-qam", "as it was kept before")


def test_builds_of_before_are_one_shops_until_one_begins_that_names_its_own(
    apart: list[Bench], capsys: pytest.CaptureFixture[str]
) -> None:
    here, _ = apart
    for bench in apart:
        unnamed(bench)
    both_took_in(apart)
    [said] = figures(here, capsys)
    assert "on the folder: -0.45 mm at each bend, 12 bends on record" in said
    capsys.readouterr()
    shop(here, "14:00", "build", "build 2")
    out = " ".join(capsys.readouterr().out.split())
    assert "build 1 is on record as made by bench0 too, who put it there" in out
    assert "shed-1" not in out
    said = "\n".join(figures(here, capsys))
    assert "(bench0): -0.70 mm at each bend, 6 bends on record" in said
    assert "(builder not on record): -0.20 mm at each bend" in said
    # It is one act, and is taken back as one.
    assert main(["undo", "--in", str(here.folder)]) == 0
    builds = Project.open(here.folder).snapshot.all(Build)
    assert [one.builder for one in builds] == ["", ""]


def test_a_build_says_by_whom_it_is_made_as_told_or_as_git_has_it(
    shop: Shop,
) -> None:
    for words, builder in (
        (("build 1",), "Test Builder"),
        (("build 2", "--builder", "Makers'  hall"), "Makers' hall"),
        (("build 1", "--builder", "Ada"), "Ada"),  # one that is begun is told anew
    ):
        [made] = shop.asked("build", *words)["records"]
        assert made["builder"] == builder
    for line, builder in (
        ("start build 3, built by Ada", "Ada"),
        ("start build 4 for mounted slides", ""),  # a line alone knows nobody
        ("start build 5 made by Ada Bell", "Ada Bell"),
        ("start build 6 for slides made by hand", ""),
    ):
        begun = build_begun(line, Project.open(shop.folder).snapshot, datetime.now(UTC))
        assert begun is not None
        assert begun.builder == builder, line


def test_a_known_build_is_not_begun_again_but_gone_on_with(shop: Shop) -> None:
    shop.asked("build", "shed-1", "--purpose", "slides")
    refused = shop.logbook("build", "shed-1")
    assert refused.code == 2
    for way in ("build shed-1 --of RELEASE", "--builder", "--build shed-1 with any"):
        assert way in " ".join(refused.err.split())
    [made] = shop.asked("build", "shed-1", "--units", "2")["records"]
    assert (made["units"], made["purpose"]) == (2, "slides")
