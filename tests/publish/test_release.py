"""What a release freezes, what stops it, who tried it, and its tag."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace

import pytest

from logbook.errors import BadInput, ProblemsFound, Refused
from logbook.publish.release.frozen import check_label
from logbook.publish.release.trials import trials, tried_words, was_made
from logbook.records.kinds import assembling, happenings, made_public, workshop
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import State
from logbook.records.together.revisions import current_revision
from tests.publish.stand import Stand, corrected, first_build

pytestmark = pytest.mark.xdist_group("publish")


def release_of(stand: Stand, label: str) -> Release:
    return next(r for r in stand.project.snapshot.all(Release) if r.label == label)


def by_record(release: Release) -> dict[str, made_public.Statement]:
    return {one.id: one for one in release.statements}


def test_a_release_holds_the_current_revisions_and_hashes_read_from_disk(
    published: Stand,
) -> None:
    first, second = (release_of(published, label) for label in ("1.0", "1.1"))
    assert "diffuser first issue" in [ref.name for ref in first.revisions]
    assert "diffuser rev A" in [ref.name for ref in second.revisions]
    for file in second.files:
        data = (published.bench.top / file.path).read_bytes()
        assert file.sha256 == hashlib.sha256(data).hexdigest()


def test_each_statement_has_an_id_of_its_own_and_the_hash_of_its_text(
    published: Stand,
) -> None:
    release = release_of(published, "1.0")
    forms = {one.form for one in release.statements}
    assert forms == {
        "list line", "step", "caution", "dimension", "gap", "joint", "file",
    }  # fmt: skip
    assert len({one.id for one in release.statements}) == len(release.statements)
    for one in release.statements:
        assert one.sha256 == hashlib.sha256(one.says.encode()).hexdigest()


def test_a_statement_keeps_its_id_and_only_a_changed_text_changes_the_hash(
    stand: Stand,
) -> None:
    draft = stand.begin()
    step = draft.snapshot.lookup("Fit the crossbar", assembling.Step)
    draft.amend(replace(step, accept="it slides in and stays"))
    stand.keep(draft, "step: say what is accepted")
    assert stand.run("release", "1.2")[0] == 0
    old, new = by_record(release_of(stand, "1.1")), by_record(release_of(stand, "1.2"))
    assert set(old) == set(new)
    changed = [new[key].says for key in new if new[key].sha256 != old[key].sha256]
    assert len(changed) == 1
    assert "it slides in and stays" in changed[0]


def test_the_tag_is_annotated_and_its_commit_holds_record_and_files(
    published: Stand,
) -> None:
    git = published.bench.git
    assert git("cat-file", "-t", "as-built/1.1").strip() == "tag"
    path = published.project.snapshot.path(release_of(published, "1.1"))
    assert "release 1.1" in git("show", f"as-built/1.1:{path}")
    drawn = git("show", "as-built/1.1:drawings/diffuser.dxf")
    assert drawn == published.read("drawings/diffuser.dxf")
    assert "9 mm" not in git("show", "as-built/1.0:drawings/diffuser.dxf")


def test_a_label_that_is_taken_is_refused_and_nothing_is_saved(stand: Stand) -> None:
    before = len(stand.project.snapshot)
    code, said = stand.run("release", "1.0")
    assert code == BadInput.exit_code
    assert "as-built/1.0 is there already; accepted: a new label" in said
    assert len(stand.project.snapshot) == before


@pytest.mark.parametrize(
    "label", ["", ".1", "1..0", "a b", "1.lock", "../x", "-1", "v1/2", "1.", "x" * 61]
)
def test_a_label_that_cannot_name_a_tag_and_a_folder_is_refused(label: str) -> None:
    with pytest.raises(BadInput, match="accepted: letters, digits"):
        check_label(label)


@pytest.mark.parametrize("label", ["1.0", "v2", "2026-04", "1.0+a", "7"])
def test_usual_labels_are_taken_by_git_too(label: str, drawn: Stand) -> None:
    assert check_label(label) == label
    drawn.bench.git("check-ref-format", f"refs/tags/as-built/{label}")


# -- what stops it ---------------------------------------------------------------


def test_a_file_changed_since_its_revision_stops_the_release_unless_anyway(
    drawn: Stand,
) -> None:
    drawn.draw("base", "2.5")
    drawn.commit_files("Thicken the base")
    code, said = drawn.run("release", "1.0")
    assert code == 7
    assert "drawings/base.dxf: changed since base first issue was recorded" in said
    assert not drawn.project.snapshot.all(Release)
    assert drawn.run("release", "1.0", "--anyway")[0] == 0
    frozen = {file.path: file.sha256 for file in release_of(drawn, "1.0").files}
    now = hashlib.sha256(drawn.read("drawings/base.dxf").encode()).hexdigest()
    assert frozen["drawings/base.dxf"] == now


def test_other_line_ends_are_no_change_but_must_be_committed(drawn: Stand) -> None:
    place = drawn.bench.top / "drawings/base.dxf"
    place.write_bytes(place.read_bytes().replace(b"\n", b"\r\n"))
    said = drawn.run("release", "1.0", "--check")[1]
    assert "changed since" not in said
    assert "drawings/base.dxf: not committed as it is now" in said


def test_a_missing_file_and_an_undecided_rejection_stop_the_release(
    drawn: Stand,
) -> None:
    (drawn.bench.top / "drawings/base.dxf").unlink()
    drawn.run(
        "deviation", "crossbar", "bar too short", "--wanted", "179.7", "--found", "178"
    )
    code, said = drawn.run("release", "1.0", "--check", "--json")
    unsettled = json.loads(said)["unsettled"]
    assert code == 7
    assert any(
        "not there, but base first issue was drawn in it" in s for s in unsettled
    )
    assert any("nobody has decided what to do with it" in s for s in unsettled)


def test_a_chosen_revision_goes_in_instead_of_the_current_one(stand: Stand) -> None:
    words = ("--revision", "diffuser first issue", "--anyway")
    assert stand.run("release", "1.0.1", *words)[0] == 0
    names = [ref.name for ref in release_of(stand, "1.0.1").revisions]
    assert "diffuser first issue" in names
    assert "diffuser rev A" not in names


def test_where_git_must_wait_the_release_is_kept_and_tagged_by_asking_again(
    drawn: Stand,
) -> None:
    drawn.bench.git("checkout", "-q", "--detach")
    code, said = drawn.run("release", "1.0")
    assert code == 7
    assert "saved in as-built/releases/" in said
    assert "not tagged" in said
    drawn.bench.git("checkout", "-q", "main")
    assert drawn.run("release", "1.0")[0] == 0
    assert len(drawn.project.snapshot.all(Release)) == 1
    assert drawn.bench.git("cat-file", "-t", "as-built/1.0").strip() == "tag"


# -- who tried it ----------------------------------------------------------------


def test_nobody_some_or_a_whole_build_tried_it(drawn: Stand) -> None:
    assert drawn.run("release", "1.0")[0] == 0
    release = release_of(drawn, "1.0")
    assert release.tried_by == ()
    said = tried_words(drawn.project.snapshot, release)
    assert said == "Untried: nobody has built this release."
    corrected(first_build(drawn))
    said = tried_words(drawn.project.snapshot, release)
    assert said == (
        "Tried: build 1 made every part of it; of these diffuser first issue was "
        "scrapped."
    )
    assert drawn.run("release", "1.1")[0] == 0
    later = release_of(drawn, "1.1")
    assert later.tried_by == ()
    said = tried_words(drawn.project.snapshot, later)
    assert said == (
        "Untried as a whole: build 1 made 2 of its 3 parts, all but diffuser rev A."
    )


def test_a_release_of_what_a_build_made_names_that_build(drawn: Stand) -> None:
    first_build(drawn)
    assert drawn.run("release", "1.0")[0] == 0
    assert [ref.name for ref in release_of(drawn, "1.0").tried_by] == ["build 1"]


def test_a_piece_only_ordered_is_not_made(drawn: Stand) -> None:
    first_build(drawn)
    draft = drawn.begin()
    piece = draft.snapshot.lookup("base-1", workshop.Piece)
    draft.add(
        happenings.Status(
            id="0rdered0",
            title="base ordered",
            of=piece.ref,
            state=State.ORDERED,
            when=draft.when,
        )
    )
    drawn.keep(draft, "base ordered")
    assert drawn.run("release", "1.0")[0] == 0
    assert release_of(drawn, "1.0").tried_by == ()


def test_a_build_of_nothing_but_a_spoiled_piece_tried_nothing(stand: Stand) -> None:
    def builds() -> list[str]:
        snapshot = stand.project.snapshot
        found = trials(snapshot, release_of(stand, "1.1"))
        return [one.build.title for one in found]

    stand.run("build", "build 2")
    assert stand.run("piece", "base")[0] == 0
    assert builds() == ["build 1", "build 2"]
    piece = stand.project.snapshot.all(workshop.Piece)[-1].title
    why = "it was folded the wrong way round"
    assert stand.run("dispose", piece, "scrap", "--because", why)[0] == 0
    assert builds() == ["build 1"]


def test_a_piece_spoiled_at_the_bench_was_made_and_scrapped(stand: Stand) -> None:
    for words in (("build", "build 2"), ("piece", "diffuser"), ("piece", "base")):
        assert stand.run(*words)[0] == 0
    snapshot = stand.project.snapshot
    piece = snapshot.all(workshop.Piece)[-1].title
    release = release_of(stand, "1.1")
    every = trials(snapshot, release)[-1].made
    why = "it was folded the wrong way round"
    assert stand.run("dispose", piece, "scrap", "--because", why)[0] == 0
    [trial] = [
        one
        for one in trials(stand.project.snapshot, release)
        if one.build.title == "build 2"
    ]
    assert [one.title for one in trial.made] == [one.title for one in every]
    assert [one.title for one in trial.scrapped] == ["base first issue"]
    assert [one.title for one in trial.spoiled] == ["base first issue"]
    assert not trial.whole


def test_a_test_piece_was_made_though_no_release_is_tried_by_it(stand: Stand) -> None:
    part = ("part", "bend trial strip", "--process", "folding", "--dimension", "leg=30")
    assert stand.run(*part)[0] == 0
    snapshot = stand.project.snapshot
    strip = current_revision(snapshot, snapshot.named("bend trial strip", Part)[0])
    assert strip is not None
    assert not was_made(snapshot, strip)
    assert stand.run("measure", "bend trial strip", "leg", "29.32")[0] == 0
    assert stand.run("release", "1.2")[0] == 0
    snapshot = stand.project.snapshot
    assert was_made(snapshot, snapshot.lookup(strip.id, Revision))
    made = [r for one in trials(snapshot, release_of(stand, "1.2")) for r in one.made]
    assert made
    assert strip.id not in {one.id for one in made}


def test_undo_refuses_to_take_a_tagged_release_back(stand: Stand) -> None:
    before = stand.bench.git("rev-parse", "HEAD")
    code, heard = stand.run("undo")
    assert code == Refused.exit_code
    assert "made release 1.1" in heard
    assert "as-built/1.1" in heard
    assert "logbook erratum" in heard
    assert stand.bench.git("rev-parse", "HEAD") == before
    assert release_of(stand, "1.1")
    # Nobody has it yet: the tag goes by hand, and then the record may.
    stand.bench.git("tag", "-d", "as-built/1.1")
    assert "release 1.1: its tag as-built/1.1 is not in this" in stand.look("check")[1]
    assert stand.run("undo")[0] == 0
    assert [r.label for r in stand.project.snapshot.all(Release)] == ["1.0"]


@pytest.mark.parametrize(
    ("fact", "other"),
    [('tag = "as-built/1.1"', 'tag = "typed"'), ('label = "1.1"', 'label = "1.10"')],
)
def test_check_has_an_amendment_of_what_went_out_taken_back_not_its_tag_or_pages(
    stand: Stand, fact: str, other: str
) -> None:
    assert stand.run("guide", "1.1")[0] == 0
    file = stand.project.root / stand.project.snapshot.path(release_of(stand, "1.1"))
    file.write_text(file.read_text("utf-8").replace(fact, other), "utf-8")
    code, heard = stand.look("check")
    assert f"accepted: {fact} again in as-built/releases/" in heard
    assert "whose record was changed since; what went out stays as it is" in heard
    assert code == ProblemsFound.exit_code
    assert "git tag -d" not in heard
    assert "git rm" not in heard
    assert "is not in this clone" not in heard


def test_check_names_a_tag_and_a_folder_no_release_stands_for(stand: Stand) -> None:
    assert stand.run("guide", "1.1")[0] == 0
    code, heard = stand.look("check")
    assert (code, "no release" in heard) == (0, False)
    path = stand.project.snapshot.path(release_of(stand, "1.1"))
    stand.bench.git("rm", "-q", path)
    stand.bench.git("commit", "-q", "-m", "Lose a record")
    code, heard = stand.look("check")
    assert code == ProblemsFound.exit_code
    assert "tag as-built/1.1: no release 1.1 is on record" in heard
    assert "as-built/published/1.1: no release 1.1 is on record" in heard
    listed = json.loads(stand.look("check", "--json")[1])["releases"]
    assert len(listed) == 2


def test_a_release_says_what_it_carries_without_a_cure_and_what_is_unchanged(
    stand: Stand,
) -> None:
    again = ("failure", "diffuser", "diffuser cracked again", "--met-by", "drawing")
    assert stand.run(*again, "--do", "scrap")[0] == 0
    code, heard = stand.run("release", "1.2")
    assert code == 0
    # It came back in what was to cure it, so it is without a cure again.
    one = "diffuser cracked at a corner screw"
    assert f"1.2 carries 1 known fault without a cure: {one}\n" in heard
    assert "revisions unchanged since 1.1: 4\n" in heard
    assert "revisions changed" not in heard
    revised = stand.run("revise", "crossbar", "--why", "it was too long")
    assert revised[0] == 0, revised
    code, heard = stand.run("release", "1.3")
    assert code == 0
    changed = heard.index("revisions changed since 1.2: crossbar rev A\n")
    assert changed < heard.index("revisions unchanged since 1.2: 3\n")


def test_a_guide_older_than_its_known_faults_is_named_until_written_anew(
    stand: Stand,
) -> None:
    assert stand.run("guide", "1.1")[0] == 0
    assert json.loads(stand.look("check", "--json")[1])["stale"] == []
    again = ("failure", "diffuser", "diffuser cracked again", "--met-by", "drawing")
    assert stand.run(*again, "--do", "scrap")[0] == 0
    anew = "; written anew with: logbook pages\n"
    said = f"out of date: guide of 1.1, known faults of 1.1{anew}"
    assert said in stand.look("check")[1]
    assert said in stand.run("notes")[1]
    said = f"out of date: guide of 1.1{anew}"
    assert said in stand.run("errata", "1.1")[1]
    assert said in stand.look("check")[1]
    assert stand.run("guide", "1.1")[0] == 0
    assert said not in stand.look("check")[1]


def test_a_release_says_which_older_pages_it_puts_out_of_date(stand: Stand) -> None:
    assert stand.run("guide", "1.0")[0] == 0
    assert stand.run("errata", "1.1")[0] == 0
    said = stand.run("release", "1.2")[1]
    only, old = "known faults of 1.1", "guide of 1.0, known faults of 1.0"
    assert f"out of date: {only}, {old}; written anew with: logbook pages\n" in said
    heard = stand.run("guide", "1.2")[1]
    assert only in heard
    for words in (("guide", "1.0"), ("errata", "1.1")):
        assert stand.run(*words)[0] == 0
    assert json.loads(stand.look("check", "--json")[1])["stale"] == []
