"""Two clones gave one label: what went out keeps it, and tags are told as typed."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.errors import ProblemsFound
from logbook.project import Project
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from tests.cli.test_clones import Bench, clones, git, shop

WIDER = ("revise", "base", "--changed", "wider", "--why", "it binds")
HIGHER = ("revise", "base", "--changed", "higher", "--why", "it tips")


def run(bench: Bench, capsys: pytest.CaptureFixture[str], *words: str) -> list[str]:
    """Run a verb; give the lines it prints."""
    capsys.readouterr()
    assert main([words[0], "--in", str(bench.folder), *words[1:]]) in {
        0,
        ProblemsFound.exit_code,
    }
    return capsys.readouterr().out.splitlines()


def release(bench: Bench, clock: str, label: str) -> None:
    shop(bench, clock, "release", label, "--anyway", "--summary", f"at {clock}")


def releases(bench: Bench) -> dict[str, Release]:
    """Give the releases on record by what they say they are."""
    found = Project.open(bench.folder).snapshot.all(Release)
    return {one.summary: one for one in found}


def revisions(bench: Bench) -> dict[str, str]:
    """Give the label of each revision by what it changed."""
    found = Project.open(bench.folder).snapshot.all(Revision)
    return {one.changed: one.label for one in found if one.changed}


def apart(place: Path) -> tuple[Bench, Bench]:
    """Let two clones each make a release 1.0; the first one's is pushed."""
    here, there = clones(place, 2)
    release(here, "11:00", "1.0")
    release(there, "10:00", "1.0")
    return here, there


def merged(here: Bench, there: Bench) -> None:
    """Take in what is at `origin`, as one does who fetches before he pushes."""
    del here
    git(there.folder, "fetch", "-q", "--no-tags", "origin")
    git(there.folder, "merge", "-q", "--no-edit", "origin/main")


def typed(bench: Bench, lines: list[str]) -> None:
    """Type the commands that set tags, as they were told."""
    for line in lines:
        _, found, command = line.partition("git tag ")
        if found:
            git(bench.folder, "tag", *shlex.split(command))


def test_the_release_that_others_have_keeps_its_label_and_the_other_is_called_anew(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    run(there, capsys, "pages")
    merged(here, there)
    said = run(there, capsys, "settle")
    found = releases(there)
    # The one at 10:00 is older, and it is the other that went out.
    assert (found["at 11:00"].label, found["at 11:00"].tag) == ("1.0", "as-built/1.0")
    anew = found["at 10:00"]
    assert (anew.label, anew.tag, anew.title) == ("1.1", "as-built/1.1", "release 1.1")
    assert anew.formerly == ("release 1.0",)
    assert "it is in no branch of others that this clone knows" in said[0]
    # Each has its pages, and nothing is written twice.
    pages = there.folder / "as-built/published"
    assert "release 1.1" in (pages / "1.1/guide.md").read_text("utf-8")
    assert "release 1.0" in (pages / "1.0/guide.md").read_text("utf-8")
    assert not any("out of date" in line for line in run(there, capsys, "check"))
    assert any("release 1.1" in line for line in run(
        there, capsys, "errata", "1.1", "--print"
    ))  # fmt: skip
    assert run(there, capsys, "check")[-1].split(", ")[1] == "0 problems"


def test_where_no_clone_is_known_to_have_either_nothing_is_changed_until_it_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    here.pull(there)
    before = here.records()
    said = run(here, capsys, "settle")
    assert here.records() == before
    choices = [line.split()[3] for line in said if "settle --keeps-label" in line]
    assert {one.id for one in releases(here).values()} == set(choices)
    kept = releases(here)["at 10:00"].id
    run(here, capsys, "settle", "--keeps-label", kept)
    found = {text: one.label for text, one in releases(here).items()}
    assert found == {"at 10:00": "1.0", "at 11:00": "1.1"}


@pytest.mark.parametrize(("answer", "label"), [("1", "1.1"), ("2", "1.0"), ("", "1.0")])
def test_at_a_terminal_it_is_asked_which_release_keeps_its_label(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answer: str, label: str
) -> None:
    here, there = apart(tmp_path)
    here.pull(there)
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", lambda _: answer)
    assert main(["settle", "--in", str(here.folder)]) == 0
    assert releases(here)["at 11:00"].label == label


def test_what_is_told_of_tags_puts_them_right_typed_as_it_stands(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    merged(here, there)
    tags = git(there.folder, "show-ref", "--tags").stdout
    said = run(there, capsys, "settle")
    # No tag is moved or set by itself.
    assert git(there.folder, "show-ref", "--tags").stdout == tags
    assert any(
        "the tag as-built/1.0 in this clone is of release 1.1" in x for x in said
    )
    assert any("git ls-remote --tags origin" in line for line in said)
    told = [line for line in run(there, capsys, "check") if "as-built/1." in line]
    assert len(told) >= 3
    typed(there, told)
    assert not [x for x in run(there, capsys, "check") if "as-built/1." in x]
    for label, clock in (("1.0", "11:00"), ("1.1", "10:00")):
        path = Project.open(there.folder).snapshot.path(releases(there)[f"at {clock}"])
        assert git(there.folder, "cat-file", "-e", f"as-built/{label}:{path}")
    # The clone whose release kept its label has nothing to put right but the new tag.
    here.pull(there)
    assert [x for x in run(here, capsys, "check") if " is of " in x] == []


def test_the_label_goes_to_the_other_once_it_shows_that_it_went_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    merged(here, there)
    run(there, capsys, "settle")
    theirs = releases(there)["at 10:00"]
    run(there, capsys, "settle", "--keeps-label", theirs.id)
    found = {text: one.tag for text, one in releases(there).items()}
    assert found == {"at 10:00": "as-built/1.0", "at 11:00": "as-built/1.1"}
    assert not [x for x in run(there, capsys, "check") if " is of " in x]


def test_a_release_of_which_only_the_title_was_changed_is_called_anew_wholly(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    here.pull(there)
    snapshot = Project.open(here.folder).snapshot
    file = here.folder / snapshot.path(releases(here)["at 11:00"])
    text = file.read_text("utf-8").replace("# release 1.0", "# release 1.1")
    text = text.replace('label = "1.0"', 'formerly = ["release 1.0"]\nlabel = "1.0"')
    file.write_text(text, "utf-8")
    git(here.folder, "commit", "-q", "-am", "half")
    assert main(["check", "--in", str(here.folder)]) == ProblemsFound.exit_code
    run(here, capsys, "settle")
    half = releases(here)["at 11:00"]
    assert (half.label, half.tag, half.title) == ("1.1", "as-built/1.1", "release 1.1")
    assert releases(here)["at 10:00"].label == "1.0"


def test_a_label_whose_tag_is_taken_is_not_given(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = apart(tmp_path)
    merged(here, there)
    git(there.folder, "tag", "as-built/1.1")
    run(there, capsys, "settle")
    assert releases(there)["at 10:00"].label == "1.2"


def test_a_known_fault_goes_with_the_release_it_is_of(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    failure = (
        "failure",
        "base",
        "base cracked",
        "--met-by",
        "drawing",
        "--do",
        "scrap",
    )
    shop(there, "09:00", *WIDER)
    shop(there, "09:10", *failure)
    release(here, "11:00", "1.0")
    release(there, "10:00", "1.0")
    shop(there, "10:30", "erratum", "base cracked", "--release", "1.0")
    merged(here, there)
    [before] = Project.open(there.folder).snapshot.all(Erratum)
    assert before.releases == ("1.0",)
    run(there, capsys, "settle")
    [fault] = Project.open(there.folder).snapshot.all(Erratum)
    assert fault.releases == ("1.1",)


def test_a_revision_that_went_out_keeps_its_label_though_it_is_the_later(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    shop(here, "09:00", *WIDER)
    shop(there, "10:00", *HIGHER)
    release(there, "10:30", "1.0")
    here.pull(there)
    said = run(here, capsys, "settle")
    assert revisions(here) == {"wider": "B", "higher": "A"}
    assert "base rev A is now base rev B" in said[0]
    assert "it is in no release" in said[0]


def test_of_two_revisions_that_both_went_out_none_is_called_anew_unasked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    shop(here, "09:00", *WIDER)
    release(here, "09:30", "1.0")
    shop(there, "10:00", *HIGHER)
    release(there, "10:30", "1.1")
    here.pull(there)
    said = run(here, capsys, "settle")
    assert revisions(here) == {"wider": "A", "higher": "A"}
    told = [line for line in said if "--keeps-label" in line]
    assert [line.rpartition(", in ")[2] for line in told] == [
        "release 1.0: wider",
        "release 1.1: higher",
    ]
    run(here, capsys, "settle", "--keeps-label", told[1].split()[3])
    assert revisions(here) == {"wider": "B", "higher": "A"}
    assert run(here, capsys, "check")[-1].split(", ")[1] == "0 problems"


@pytest.mark.parametrize("both", [False, True])
def test_a_part_that_went_out_keeps_its_name_or_it_is_said_that_it_went_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], *, both: bool
) -> None:
    here, there = clones(tmp_path, 2)
    shop(here, "09:00", "part", "lid", "--material", "card")
    shop(there, "10:00", "part", "lid", "--material", "felt")
    release(there, "10:30", "1.1")
    if both:
        release(here, "11:00", "1.0")
    here.pull(there)
    said = run(here, capsys, "settle")
    found = {
        one.material: one.title for one in Project.open(here.folder).snapshot.all(Part)
    }
    if both:
        assert (found["card"], found["felt"]) == ("lid", "lid 2")
        assert "  it went out as lid in 1.1" in said
    else:
        assert (found["card"], found["felt"]) == ("lid 2", "lid")


def test_only_a_release_or_a_revision_keeps_a_label(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    [here] = clones(tmp_path, 1)
    assert main(["settle", "--in", str(here.folder), "--keeps-label", "base"]) == 2
    assert "neither a release nor a revision" in capsys.readouterr().err
