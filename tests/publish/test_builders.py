"""Pages of a record that two builders keep say whose is which; all is invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli import main
from tests.cli.test_clones import Bench, clones, shop

PAGES = "as-built/published"


@pytest.fixture
def both(tmp_path: Path) -> Bench:
    """Two builders who each made a lid to one drawing; the second has taken it in."""
    here, there = clones(tmp_path, 2)
    shop(here, "08:00", "part", "lid", "--dimension", "rim=12 ±0.2 mm")
    there.pull(here)
    for bench, hour, build, size in (
        (here, "09", "build 1", "12.5 mm"), (there, "10", "build shed", "12.1 mm"),
    ):  # fmt: skip
        shop(bench, f"{hour}:00", "build", build)
        shop(bench, f"{hour}:30", "measure", "lid", "rim", size)
    shop(here, "09:40", "dispose", "lid-1", "use as is")
    shop(here, "09:50", "release", "1.0", "--anyway")
    there.pull(here)
    assert main(["settle", "--in", str(there.folder)]) == 0
    assert main(["pages", "--in", str(there.folder)]) == 0
    return there


def test_each_build_is_told_with_its_builder_and_the_record_is_of_both(
    both: Bench,
) -> None:
    notes = (both.folder / PAGES / "builder-notes.md").read_text("utf-8")
    assert "(build 1 by bench0, build shed by bench1)" in notes
    assert "This is the record of 2 builders, not advice" in notes
    guide = (both.folder / PAGES / "1.0/guide.md").read_text("utf-8")
    assert "- **Built**: build 1 by bench0, build shed by bench1." in guide
    assert "one builder's record" not in guide
    errata = (both.folder / PAGES / "1.0/errata.md").read_text("utf-8")
    assert "one builder's record" not in errata


def test_what_one_builder_measured_stands_beside_what_the_other_did(
    both: Bench,
) -> None:
    guide = (both.folder / PAGES / "1.0/guide.md").read_text("utf-8")
    [row] = [line for line in guide.splitlines() if line.startswith("| rim ")]
    assert row.endswith(
        "| 12.1 mm, within the limits (build shed); "
        "12.5 mm, outside the limits (build 1) |"
    )


def test_the_builder_on_record_is_told_before_who_put_it_there(both: Bench) -> None:
    # Of what names nobody git knows who put it there.
    shop(both, "11:00", "build", "build shed", "--builder", "Makers' hall")
    for place in (both.folder / "as-built/builds").rglob("*-build-1.md"):
        text = place.read_text("utf-8").replace('builder = "bench0"\n', "")
        place.write_text(text, "utf-8")
    assert main(["notes", "--in", str(both.folder)]) == 0
    notes = (both.folder / PAGES / "builder-notes.md").read_text("utf-8")
    assert "(build 1 by bench0, build shed by Makers' hall)" in notes


def test_of_one_builder_nobody_is_named(tmp_path: Path) -> None:
    [here] = clones(tmp_path, 1)
    for build in ("build 1", "build 2"):
        shop(here, "09:00", "build", build)
    assert main(["notes", "--in", str(here.folder)]) == 0
    notes = (here.folder / PAGES / "builder-notes.md").read_text("utf-8")
    assert "This is one builder's record" in notes
    assert " by bench0" not in notes
