"""Designs in one repository share git's row of tags and its history, no more."""

from __future__ import annotations

import shutil

import pytest

from logbook.errors import BadInput, NoProject, ProblemsFound
from logbook.project import Project
from logbook.records.kinds.design import Part, Revision
from tests.cli.designs import Designs
from tests.cli.shop import Shop


@pytest.fixture
def designs(empty: Shop) -> Designs:
    made = Designs(empty)
    for name, part in (("stand", "base"), ("lamp box", "lid")):
        made.done(name, "say", "--yes", f"made the {part}")
    return made


def release_file(designs: Designs, design: str) -> str:
    """Give the path of the one release of a design, from its folder."""
    folder = designs.folder(design)
    (found,) = (folder / "as-built/releases").rglob("*.md")
    return found.relative_to(folder).as_posix()


def tagged_bare(designs: Designs, design: str) -> None:
    """Let a release have the tag it had before tags named the folder."""
    path = release_file(designs, design)
    own = designs.git("tag").splitlines()[-1]
    file = designs.folder(design) / path
    file.write_text(file.read_text("utf-8").replace(own, "as-built/1.0"), "utf-8")
    designs.git("commit", "-q", "-am", "As it was tagged before")
    designs.git("tag", "-d", own)
    designs.git("tag", "-a", "-m", "Release 1.0", "as-built/1.0")


def test_each_design_has_its_own_1_0_and_none_is_called_broken(
    designs: Designs,
) -> None:
    assert "tag as-built/stand/1.0" in designs.done("stand", "release", "1.0")
    designs.done("lamp box", "check")
    assert "tag as-built/lamp-box/1.0" in designs.done("lamp box", "release", "1.0")
    for name in ("stand", "lamp box"):
        designs.done(name, "check")
        assert "in git: tag as-built/" in designs.done(name, "guide", "1.0", "--print")
    taken = designs.run("stand", "release", "1.0")
    assert taken.code == BadInput.exit_code
    assert "as-built/stand/1.0 is there already; accepted: a new label" in taken.err


def test_a_tag_from_before_is_known_by_its_record_and_its_commit(
    designs: Designs,
) -> None:
    designs.done("stand", "release", "1.0")
    tagged_bare(designs, "stand")
    for name in ("stand", "lamp box"):
        designs.done(name, "check")
    assert "tag as-built/lamp-box/1.0" in designs.done("lamp box", "release", "1.0")
    designs.git("rm", "-q", f"stand/{release_file(designs, 'stand')}")
    designs.git("commit", "-q", "-m", "Lose a record")
    lost = designs.run("stand", "check")
    assert lost.code == ProblemsFound.exit_code
    assert "tag as-built/1.0: no release 1.0 is on record" in lost.out
    designs.done("lamp box", "check")


def test_a_lost_record_is_missed_by_its_own_design_alone(designs: Designs) -> None:
    designs.done("stand", "release", "1.0")
    designs.git("rm", "-q", f"stand/{release_file(designs, 'stand')}")
    designs.git("commit", "-q", "-m", "Lose a record")
    assert "git tag -d as-built/stand/1.0" in designs.run("stand", "check").out
    designs.done("lamp box", "check")


def test_no_command_moves_the_tag_that_another_design_has(designs: Designs) -> None:
    designs.done("stand", "release", "1.0")
    tagged_bare(designs, "stand")
    designs.done("lamp box", "release", "1.0")
    path = designs.folder("lamp box") / release_file(designs, "lamp box")
    text = path.read_text("utf-8")
    path.write_text(text.replace("as-built/lamp-box/", "as-built/"), "utf-8")
    designs.git("commit", "-q", "-am", "Two of one tag")
    designs.git("tag", "-d", "as-built/lamp-box/1.0")
    said = designs.run("lamp box", "check").out
    assert "the tag as-built/1.0 is of the design in stand, which keeps it" in said
    assert "git tag" not in said
    assert "git tag" not in designs.run("lamp box", "settle").out
    path.write_text(text, "utf-8")  # as it is told there
    designs.done("lamp box", "release", "1.0")
    designs.done("lamp box", "check")


def test_a_newer_release_of_another_design_makes_no_record_old(
    designs: Designs,
) -> None:
    designs.done("lamp box", "release", "1.0")
    here = designs.git("rev-parse", "HEAD")
    designs.done("stand", "release", "1.0")
    designs.git("checkout", "-q", here)
    assert "not the newest" not in designs.run("lamp box", "check").out
    assert "in this repository and not in it: release 1.0, main" in (
        designs.run("stand", "check").out
    )


def test_a_label_that_git_cannot_have_beside_a_tag_is_refused_before_it_is_saved(
    designs: Designs,
) -> None:
    designs.done("stand", "release", "1.0")
    shutil.copytree(designs.folder("stand") / "as-built", designs.top / "as-built")
    said = designs.run(".", "release", "stand")
    assert said.code == BadInput.exit_code
    assert "git cannot have the tag as-built/stand beside as-built/stand/1.0" in (
        said.err
    )


# -- at the root of the repository ---------------------------------------------


def test_verbs_at_the_root_name_the_designs_below(designs: Designs) -> None:
    for verb in (("check",), ("say", "made the lid"), ("search", "lid")):
        said = designs.run(".", *verb)
        assert said.code == NoProject.exit_code
        assert "designs with a logbook below it: lamp box, stand" in said.err
        assert "accepted: one of them (cd 'lamp box')" in said.err
        assert "logbook start" not in said.err


def test_a_logbook_begun_at_the_root_takes_no_file_of_the_designs_below(
    designs: Designs,
) -> None:
    for place in ("stand/crossbar.dxf", "lamp box/cover.dxf", "jigs/drill-guide.dxf"):
        (designs.top / place).parent.mkdir(exist_ok=True)
        (designs.top / place).write_text(f"of {place}\n", "utf-8")
    said = designs.done(".", "start", "--yes", "--unit", "mm")
    assert "designs below with a logbook of their own: lamp box, stand" in said
    assert "1 of 1 part taken" in said
    parts = {one.title for one in Project.open(designs.top).snapshot.all(Part)}
    assert parts == {"drill-guide"}
    designs.done(".", "say", "--yes", "crossbar length 178.3")
    [crossbar] = Project.open(designs.top).snapshot.named("crossbar", Part)
    snapshot = Project.open(designs.top).snapshot
    [first] = snapshot.mentions(crossbar, Revision)
    assert first.files == ()
    heard = designs.done(".", "release", "1.0", "--anyway")
    assert "cover.dxf" not in heard


def test_a_commit_names_its_design_where_it_lies_in_a_folder(designs: Designs) -> None:
    designs.done("lamp box", "note", "the lid is stiff")
    designs.done("stand", "note", "the base is stiff")
    assert designs.git("log", "-2", "--format=%s").splitlines() == [
        "stand: note: the base is stiff",
        "lamp box: note: the lid is stiff",
    ]
    designs.done("stand", "undo")
    assert designs.git("log", "-1", "--format=%s").startswith("stand: undo")
