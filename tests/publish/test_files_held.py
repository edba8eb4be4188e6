"""Who holds files hears what is known of them: their fault, what is newer, or nothing.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import pytest

from logbook.records.kinds.design import Revision
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def held(stand: Stand, name: str) -> tuple[int, str]:
    return stand.look("errata", "--files", str(stand.bench.top / name))


def test_a_file_two_revisions_have_tells_which_of_them_has_the_fault(
    stand: Stand,
) -> None:
    rattles = ("failure", "crossbar", "crossbar rattles", "--met-by", "drawing")
    told(stand, *rattles, "--cure", "a felt pad")
    told(stand, "revise", "crossbar", "--changed", "a felt pad", "--because",
         "crossbar rattles", "--remake", "no")  # fmt: skip
    code, said = held(stand, "drawings/crossbar.dxf")
    assert code == 0
    assert "crossbar first issue has it, crossbar rev A not; the file does not" in said
    assert "nobody has said whether this one has it too" not in said


def test_an_older_file_without_a_fault_names_the_newer_revision(stand: Stand) -> None:
    before = (stand.bench.top / "drawings/base.dxf").read_text("utf-8")
    stand.draw("base", "2.5")
    stand.commit_files("Draw the base thicker")
    told(stand, "revise", "base", "--changed", "2.5 mm plate", "--remake", "no")
    stand.bench.write("old.dxf", before)
    code, said = held(stand, "old.dxf")
    assert code == 0
    assert (
        "old.dxf is base first issue; newer: base rev A (2.5 mm plate), no rel" in said
    )
    assert "make yours again? no" in said
    assert "newer" not in held(stand, "drawings/base.dxf")[1]


def test_of_a_file_nobody_knows_nothing_is_said_and_the_shell_hears_it(
    stand: Stand,
) -> None:
    stand.bench.write("other.dxf", "something else\n")
    code, said = held(stand, "other.dxf")
    assert code == 5
    assert "so nothing is known of it, good or bad" in said
    assert "no known fault concerns it" not in said


def test_a_file_nothing_is_known_against_is_answered_too(stand: Stand) -> None:
    code, said = held(stand, "drawings/base.dxf")
    assert code == 0
    assert "base.dxf is base first issue: the newest in this record" in said


def test_a_folder_is_its_design_files_renamed_or_with_other_line_ends(
    stand: Stand,
) -> None:
    mine = stand.bench.top.parent / "mine"
    (mine / "cut").mkdir(parents=True)
    old = stand.bench.git("show", "as-built/1.0:drawings/diffuser.dxf")
    (mine / "cut/OPAL.DXF").write_bytes(old.replace("\n", "\r\n").encode())
    base = (stand.bench.top / "drawings/base.dxf").read_bytes()
    (mine / "my base.dxf").write_bytes(base)
    (mine / "other.dxf").write_text("0\nEOF\n")
    (mine / "notes.txt").write_text("bought on Monday\n")
    code, said = stand.look("errata", "--files", str(mine))
    assert code == 0
    assert f"{mine}/cut/OPAL.DXF is diffuser first issue, which has it" in said
    assert f"{mine}/my base.dxf is base first issue: the newest in this record" in said
    assert f"{mine}/other.dxf: no revision and no release on record holds" in said
    assert "notes.txt" not in said


def of_release(stand: Stand, *labels: str) -> str:
    """Give what is said to who holds the drawings these releases had."""
    mine = stand.bench.top.parent / "mine"
    mine.mkdir()
    for label in labels:
        for name in ("base", "crossbar", "diffuser"):
            file = stand.bench.git("show", f"as-built/{label}:drawings/{name}.dxf")
            (mine / f"{name} {label}.dxf").write_bytes(file.encode())
    code, said = stand.look("errata", "--files", str(mine))
    assert code == 0, said
    return said


@pytest.fixture
def flickering(stand: Stand) -> Stand:
    """Give a stand of whose bought lamp, which no file draws, a fault is known."""
    flickers = ("failure", "lamp", "lamp flickers", "--met-by", "drawing")
    told(stand, *flickers, "--cure", "a longer lead")
    return stand


def test_who_holds_all_files_of_a_release_hears_the_faults_of_what_has_no_file(
    flickering: Stand,
) -> None:
    said = of_release(flickering, "1.0")
    assert said.startswith("these are the design files of release 1.0\n")
    assert "the lamp of release 1.0 is lamp first issue, which has it" in said
    assert "diffuser 1.0.dxf is diffuser first issue, which has it" in said


def test_one_file_of_several_is_no_release(flickering: Stand) -> None:
    said = held(flickering, "drawings/diffuser.dxf")[1]
    assert "design files of" not in said
    assert "lamp flickers" not in said


def test_where_two_releases_have_the_same_files_both_are_named(
    flickering: Stand,
) -> None:
    told(flickering, "release", "1.2", "--anyway")
    said = of_release(flickering, "1.1")
    assert "the design files of releases 1.1 and 1.2: the files do not tell" in said
    assert "lamp flickers" not in said


def test_a_folder_without_a_design_file_is_told_what_is_accepted(stand: Stand) -> None:
    empty = stand.bench.top.parent / "empty"
    empty.mkdir()
    code, said = stand.look("errata", "--files", str(empty))
    assert code == 2
    assert "found no design file in it; accepted: a folder with .stl" in said


def test_the_page_of_known_faults_names_the_file_of_an_affected_part_by_content(
    stand: Stand,
) -> None:
    told(stand, "erratum", "diffuser cracked at a corner screw", "--how-to-tell",
         "hole centres 4 mm from the edge")  # fmt: skip
    page = stand.look("errata", "1.0", "--print")[1]
    old = stand.project.snapshot.lookup("diffuser first issue", Revision).files[0]
    new = stand.project.snapshot.lookup("diffuser rev A", Revision).files[0]
    sign = f"drawings/diffuser.dxf, SHA-256 begins {old.sha256[:12]}"
    assert f"- **The file of an affected one**: {sign}.\n" in page
    assert f"(SHA-256 begins {new.sha256[:12]}), not that of diffuser first" in page
    assert page.count(old.sha256[:12]) == 1


def test_a_file_that_does_not_tell_is_said_to_be_none_to_tell_by(stand: Stand) -> None:
    told(stand, "failure", "crossbar", "crossbar rattles", "--met-by", "drawing")
    told(stand, "revise", "crossbar", "--changed", "a felt pad", "--because",
         "crossbar rattles", "--remake", "no")  # fmt: skip
    told(stand, "erratum", "crossbar rattles", "--how-to-tell", "shake it")
    page = stand.look("errata", "1.0", "--print")[1]
    assert (
        "- **The file of an affected one**: drawings/crossbar.dxf does not tell, "
        "crossbar rev A has the same file." in page
    )
