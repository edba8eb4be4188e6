"""When the words of a known fault last changed: said by git, also of a hand edit.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import subprocess
from datetime import datetime
from pathlib import Path

import pytest

from logbook.project import Project
from logbook.publish.faults.worded import days_of
from logbook.records.kinds.made_public import Erratum
from tests.publish.bowed import CRACK, fault
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def reworded(stand: Stand) -> Path:
    """Save the fault, then edit its file by hand."""
    told(stand, "erratum", CRACK, "--do-this", "drill it")
    snapshot = stand.project.snapshot
    [saved] = snapshot.all(Erratum)
    place = stand.bench.top / snapshot.path(saved)
    text = place.read_text("utf-8")
    place.write_text(text.replace("drill it", "drill it 9 mm in"), "utf-8")
    return place


def test_a_hand_edit_is_dated_by_git(stand: Stand) -> None:
    place = reworded(stand)
    assert fault(stand, CRACK, "1.0")["worded"] == (
        f"{datetime.fromtimestamp(place.stat().st_mtime).astimezone():%Y-%m-%d}"
    )
    when = "--date=2026-06-01T10:00:00+02:00"
    stand.bench.git("commit", "-q", when, "-m", "reword", "--", str(place))
    found = fault(stand, CRACK, "1.0")
    assert found["do_this"] == "drill it 9 mm in"
    assert found["worded"] == "2026-06-01"
    assert found["newest_entry"] < "2026-06-01"
    page = stand.run("errata", "1.0", "--print")[1]
    assert "; its words last changed on 2026-06-01." in page


def test_a_page_is_not_out_of_date_for_the_day_alone(stand: Stand) -> None:
    told(stand, "errata", "1.0")
    place = stand.bench.top / "as-built/published/1.0/errata.md"
    assert "its words last changed on" in place.read_text("utf-8")
    assert "out of date" not in stand.look("check")[1]


def test_a_clone_with_the_newest_commits_alone_claims_no_day(
    stand: Stand, tmp_path: Path
) -> None:
    told(stand, "erratum", CRACK, "--do-this", "drill it")
    source, clone = f"file://{stand.bench.top}", tmp_path / "clone"
    words = ["git", "clone", "-q", "--depth=1", source, str(clone)]
    subprocess.run(words, check=True)
    project = Project.open(clone)
    saved = project.snapshot.all(Erratum)
    assert len(saved) == 1
    days = days_of(project.snapshot, project.root, project.repository)
    assert days(saved) == {}
    here = stand.project
    assert days_of(here.snapshot, here.root, here.repository)(saved)
