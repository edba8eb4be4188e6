"""What is asked of history later, and the messages git reads back."""

from __future__ import annotations

import subprocess
import unicodedata
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import Refused
from logbook.store.git import history
from logbook.store.git.message import Change, message, moment, one_line
from logbook.store.git.repository import Repository
from logbook.store.git.route import commit
from logbook.store.git.standing import blob_id
from logbook.store.git.tags import tag
from logbook.store.git.waiting import waiting
from tests.store.git_world import FOLDER, NOTE, OTHER, Bench, made_bench, work_begun

TURNING = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
BASE = "drawings/base.dxf"


def test_head_is_the_one_git_knows(bench: Bench, tmp_path: Path) -> None:
    for step in ("pack-refs --all", "switch -q -c a/b", "checkout -q --detach"):
        bench.git(*step.split())
        assert bench.repository.head() == bench.head()
        branch = bench.git("symbolic-ref", "-q", "HEAD", fails=True).strip()
        assert (bench.repository.branch() or "") == branch
    bench.git("worktree", "add", "-q", str(tmp_path / "second"), "main")
    second = Bench(tmp_path / "second")
    assert second.repository.head() == second.head()
    bench.git("switch", "-q", "--orphan", "fresh")
    assert bench.repository.head() is None
    assert bench.repository.branch() == "refs/heads/fresh"


def test_our_files_in_the_git_directory_lie_where_git_would_put_them(
    bench: Bench, tmp_path: Path
) -> None:
    bench.git("worktree", "add", "-q", "-b", "two", str(tmp_path / "second"))
    for each in (bench, Bench(tmp_path / "second")):
        told = each.git("rev-parse", "--git-path", "as-built.sqlite").strip()
        assert each.repository.git_path("as-built.sqlite") == each.top / told


def test_a_path_is_given_as_git_writes_it(bench: Bench) -> None:
    found = Repository.find(bench.top / "as-built" / "not" / "there")
    assert found is not None
    assert found.relative(bench.top / NOTE) == NOTE


def test_what_is_not_here_is_unknown(bench: Bench) -> None:
    nowhere = "1" * 40
    found = bench.repository
    assert history.content_at(found, nowhere, NOTE) is None
    assert history.content_at(found, bench.head(), NOTE) is None
    assert history.content_of(found, nowhere) is None
    bench.git("switch", "-q", "--orphan", "fresh")
    assert history.log_of(found, NOTE) is None


def test_a_blob_a_partial_clone_lacks_is_unknown_and_not_fetched(
    bench: Bench, tmp_path: Path
) -> None:
    bench.git("config", "uploadpack.allowFilter", "true")
    words = ("--filter=blob:none", "--no-checkout", f"file://{bench.top}")
    bench.git("clone", "-q", *words, str(tmp_path / "part"))
    part = Bench(tmp_path / "part")
    assert history.content_at(part.repository, part.head(), BASE) is None
    both = history.contents_at(part.repository, part.head(), (BASE, NOTE))
    assert both == {BASE: None, NOTE: None}
    assert bench.git("cat-file", "blob", f"HEAD:{BASE}")
    missing = part.git("rev-list", "--objects", "--missing=print", "HEAD")
    assert missing.count("\n?") == 4


def test_content_at_a_commit_is_byte_for_byte(bench: Bench) -> None:
    bench.write(NOTE, "one\r\n\0two\n\n")
    done = commit(bench.repository, [Change((NOTE,), "Raw")]).committed[0]
    assert history.content_at(bench.repository, done.id, NOTE) == b"one\r\n\0two\n\n"


def test_what_several_files_held_is_what_each_held(bench: Bench) -> None:
    held = {
        NOTE: "one\r\n\0two\n\n",
        OTHER: "",
        f"{FOLDER}/with a blank 12": "12 blob 3\nabc\n",
        f"{FOLDER}/with\na line end": "x",
        f"{FOLDER}/\u00e4 missing": "y",
    }
    for path, text in held.items():
        bench.write(path, text)
    bench.git("add", "--", *held)
    bench.git("commit", "-q", "-m", "many")
    paths = [*held, f"{FOLDER}/none 7", FOLDER, f"{FOLDER}/no\nne"]
    for some in (paths, paths[::-1], paths[:1], paths[-3:-1], []):
        found = history.contents_at(bench.repository, bench.head(), some)
        assert found == {
            path: held[path].encode() if path in held else None for path in some
        }
    assert history.contents_at(bench.repository, "v0", paths) == dict.fromkeys(paths)


def test_the_log_of_a_path_is_one_line_each_newest_first(bench: Bench) -> None:
    bench.save()
    bench.save(OTHER)
    bench.save(text="Filed to 178.2 mm.\n")
    lines = history.log_of(bench.repository, NOTE)
    assert lines is not None
    assert [line.subject for line in lines] == ["Note 7k2m9qzd"] * 2
    assert lines[0].id == bench.head()
    assert lines[0].when == datetime(2026, 3, 14, 9, 15, 22, tzinfo=UTC)
    assert lines[0].author == "Mara Example"
    assert history.log_of(bench.repository, NOTE, newest=1) == lines[:1]
    assert history.log_of(bench.repository, f"{FOLDER}/nothing.md") == ()


def test_a_stranger_can_put_no_escape_code_into_the_log(bench: Bench) -> None:
    bench.write(NOTE, "x")
    bench.git("add", NOTE)
    bench.git("commit", "-q", "-m", "red \x1b[31m\u202etxet")
    lines = history.log_of(bench.repository, NOTE)
    assert lines is not None
    assert lines[0].subject == "red [31mtxet"


def test_what_a_commit_held_is_known_when_the_branch_has_left_it(bench: Bench) -> None:
    done = bench.save().committed[0]
    bench.git("reset", "-q", "--hard", "HEAD~1")
    assert not (bench.top / NOTE).exists()
    kept = history.content_at(bench.repository, done.id, NOTE)
    assert kept == b"Filed to 178.3 mm.\n"


def test_blob_ids_are_those_of_git(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = made_bench(tmp_path / "stand", monkeypatch, "--object-format=sha256")
    for content in ("", "x", "one\r\n\0two"):
        told = made.git("hash-object", "--stdin", given=content).strip()
        assert blob_id(content.encode(), 64) == told


def test_a_release_is_an_annotated_tag(bench: Bench) -> None:
    work_begun(bench)
    with bench.undisturbed(0):
        made = tag(bench.repository, "v1.0", bench.head(), "Release 1.0\n\n# a\n")
    assert bench.git("cat-file", "-t", made).strip() == "tag"
    assert bench.git("rev-parse", "v1.0^{commit}").strip() == bench.head()
    assert bench.git("tag", "-l", "--format=%(contents)", "v1.0").startswith(
        "Release 1.0\n\n# a\n"
    )


@pytest.mark.parametrize("name", ["v1.0", "bad..name", "--list", ""])
def test_a_tag_that_cannot_be_made_is_refused(bench: Bench, name: str) -> None:
    tag(bench.repository, "v1.0", bench.head(), "Release 1.0\n")
    with pytest.raises(Refused, match="was not made; git said: "):
        tag(bench.repository, name, bench.head(), "Release\n")
    assert bench.git("tag", "-l").split() == ["v1.0"]


# --- what waits ---


def test_what_waits_is_every_file_that_head_does_not_have_so(bench: Bench) -> None:
    assert waiting(bench.repository) == ()
    bench.save(OTHER)
    bench.note(OTHER, "edited\n")
    bench.note()
    bench.note(f"{FOLDER}/notes/a b ½.md")
    bench.write(f"{FOLDER}/.gitattributes", "* text eol=lf\n")
    bench.write(f"{FOLDER}/notes/.7k2m9qzd.md.swp", "an editor's\n")
    bench.write("drawings/lid.dxf", "not ours\n")
    (bench.top / f"{FOLDER}/project.md").unlink()
    assert waiting(bench.repository) == tuple(
        sorted((OTHER, NOTE, f"{FOLDER}/notes/a b ½.md", f"{FOLDER}/.gitattributes"))
    )
    bench.git("add", NOTE)
    assert NOTE in waiting(bench.repository)


def test_what_waits_before_the_first_commit(bench: Bench) -> None:
    bench.git("switch", "-q", "--orphan", "fresh")
    bench.note()
    assert waiting(bench.repository) == (NOTE,)


def test_a_touched_file_does_not_wait(bench: Bench) -> None:
    bench.save()
    bench.note()
    assert waiting(bench.repository) == ()


# --- messages ---


def trailers(text: bytes) -> str:
    words = ["git", "interpret-trailers", "--parse"]
    return subprocess.run(
        words, input=text, capture_output=True, check=True
    ).stdout.decode()


def test_git_reads_the_trailers(bench: Bench) -> None:
    change = replace(
        bench.note(),
        body="Third screw, hand tight.\n\n---\nThe crack ran to the edge.\nSee: below",
        trailers=(
            ("As-built", "7k2m9qzd"),
            ("Piece", "diffuser-1\nInjected: yes\x1b[31m"),
            ("met by others", "the drawing"),
            ("Empty", " \n "),
        ),
    )
    commit(bench.repository, [change])
    expected = (
        "As-built: 7k2m9qzd\nPiece: diffuser-1 Injected: yes [31m\n"
        "met-by-others: the drawing\n"
    )
    raw = bench.git("cat-file", "commit", "HEAD").partition("\n\n")[2]
    assert trailers(raw.encode()) == expected
    shown = bench.git("log", "-1", "--format=%(trailers:only,unfold)")
    assert shown.strip() == expected.strip()
    bench.sound()


@given(subject=st.text(), body=st.text(), value=st.text(min_size=1))
def test_nothing_typed_breaks_out_of_its_line(
    subject: str, body: str, value: str
) -> None:
    change = Change((NOTE,), subject, body, (("Piece", value),))
    text = message(change).decode()
    first, rest = text.split("\n", 1)
    assert first.strip()
    assert len(first) <= 200
    assert not rest or rest.startswith("\n")
    assert text.endswith("\n")
    last = text[:-1].split("\n\n")[-1]
    if one_line(value):
        assert last == f"Piece: {one_line(value)}"
    for sign in set(text) - {"\n"}:
        assert unicodedata.category(sign) not in {"Cc", "Zl", "Zp"}
        assert unicodedata.bidirectional(sign) not in TURNING
    assert not any(line.startswith("---") for line in rest.splitlines())


def test_a_long_subject_is_cut_and_says_so() -> None:
    text = message(Change((NOTE,), "crossbar " * 40)).decode()
    assert len(text) == 201
    assert text.endswith("crossbar c…\n")


def test_moments_are_written_with_their_offset() -> None:
    zone = timezone(timedelta(hours=-3, minutes=-30))
    assert moment(datetime(2026, 3, 14, 10, 15, 22, 900, zone)) == "1773495922 -0330"
    assert moment(datetime(1925, 1, 1, tzinfo=UTC)) == "0 +0000"
    nowhere = datetime(2026, 3, 14, 10, 15, 22)  # noqa: DTZ001
    assert moment(nowhere) == moment(nowhere.astimezone())
