"""What was amended afterwards is told alike on every page; all of it is invented."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from logbook.records.kinds.happenings import Deviation
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

SPLIT = "diffuser split at the slot because it is narrow; drill a 4 mm hole at its end"


def by_hand(stand: Stand, kind: str, before: str, after: str) -> None:
    """Change the one record of a kind that says so, as an editor does."""
    folder: Path = stand.bench.top / "as-built" / kind
    [file] = [f for f in folder.rglob("*.md") if before in f.read_text("utf-8")]
    file.write_text(file.read_text("utf-8").replace(before, after), "utf-8")


def pages(stand: Stand) -> dict[str, str]:
    words = [("notes",), *((page, "1.1") for page in ("guide", "errata"))]
    return {one[0]: stand.run(*one, "--print")[1] for one in words}


def known(stand: Stand, release: str = "1.1") -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(stand.run("errata", release, "--json")[1])[
        "faults"
    ]
    return found


def split(stand: Stand) -> None:
    more = ("--cause", "it is narrow", "--cure", "drill a 4 mm hole at its end")
    told(stand, "failure", "diffuser", SPLIT, "--met-by", "drawing", *more)


# -- sizes -----------------------------------------------------------------------


def test_a_corrected_reading_is_told_wherever_its_line_is(stand: Stand) -> None:
    told(stand, "say", "base opening 176.24 should be 180", "--yes")
    by_hand(stand, "runs", '"176.24 mm"', '"176.26 mm"')
    found = pages(stand)
    assert "#### Base opening 176.26 should be 180\n" in found["notes"]
    assert "- Measured: base opening 176.26 should be 180.\n" in found["notes"]
    assert not any("176.24" in page for page in found.values())
    # Corrected in the deviation as well it is told just so.
    by_hand(stand, "deviations", 'found = "176.24 mm"', 'found = "176.26 mm"')
    assert pages(stand) == found


def test_a_known_fault_tells_the_size_its_reading_has_now(stand: Stand) -> None:
    told(stand, "say", "base opening 176.24 should be 180", "--yes")
    entry = stand.project.snapshot.all(Deviation)[-1]
    assert "176.24" in entry.title
    told(stand, "met", entry.id, "drawing")
    by_hand(stand, "runs", '"176.24 mm"', '"176.26 mm"')
    [fault] = [one for one in known(stand) if one["part"] == "base"]
    assert fault["sizes"] == "the drawing has opening 180 mm, found was 176.26 mm"
    assert "measure the opening: 176.26 mm where" in fault["how_to_tell"]
    assert "176.24" not in pages(stand)["errata"]


# -- causes and cures ------------------------------------------------------------


def test_an_amended_cure_stands_on_every_page_and_the_old_one_nowhere(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    split(stand)
    why = ("--why", SPLIT, "--because", SPLIT)
    told(stand, "revise", "diffuser", "--changed", "a relief hole", *why)
    by_hand(
        stand, "failures", 'cure = "drill a 4 mm hole at its end"',
        'cure = "drill a 5 mm hole at its end; deburr it"',
    )  # fmt: skip
    found = pages(stand)
    assert "### 1. Diffuser split at the slot\n" in found["errata"]
    assert "(because diffuser split at the slot)" in found["guide"]
    assert "a relief hole, because diffuser split at the slot" in found["notes"]
    for page in found.values():
        assert "4 mm hole at" not in page
        assert "drill a 5 mm hole at its end; deburr it" in page


def test_a_saved_fault_that_was_named_by_its_line_is_headed_alike(
    stand: Stand,
) -> None:
    split(stand)
    told(stand, "erratum", SPLIT, "--title", SPLIT)
    assert "diffuser split at the slot" in [one["title"] for one in known(stand)]


def row(stand: Stand, release: str, name: str) -> str:
    page = stand.run("guide", release, "--print")[1]
    [found] = [one for one in page.splitlines() if one.startswith(f"| {name} ")]
    return found


def test_limits_amended_after_a_release_leave_its_page_as_it_was(stand: Stand) -> None:
    """A reading stays a reading, and is held to the limits that were released."""
    before = {release: row(stand, release, "opening") for release in ("1.0", "1.1")}
    assert any("not measured" not in one for one in before.values())
    code, said = stand.run("part", "base", "--dimension", "opening=180.0 ±0.9")
    assert code == 0
    told_again = " ".join(said.split())
    assert "release 1.0 and release 1.1 say base opening: " in told_again
    assert "their pages go on saying it" in told_again
    assert {one: row(stand, one, "opening") for one in before} == before


def test_a_line_that_draws_a_released_size_anew_says_so_and_what_it_was(
    stand: Stand,
) -> None:
    code, said = stand.run("say", "--yes", "base opening drawn 180.0 ±0.9")
    assert code == 0
    told = " ".join(said.split())
    assert "base opening: was 180.0 mm (178.8 mm to 181.2 mm)" in told
    assert "careful: release 1.0 and release 1.1 say base opening: " in told


def test_a_size_amended_before_any_release_is_said_of_none(drawn: Stand) -> None:
    _, said = drawn.run("part", "base", "--dimension", "opening=180.0 ±0.9")
    assert "go on saying it" not in said
