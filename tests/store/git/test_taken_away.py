"""What clean, stash, reset or another branch takes away is said and kept."""

from __future__ import annotations

import pytest

from logbook.store.git.message import Change
from logbook.store.git.route import commit
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    FOLDER,
    NOTE,
    OTHER,
    Bench,
)


def test_a_checkout_of_another_branch_leaves_the_entry_on_its_branch(
    bench: Bench,
) -> None:
    bench.git("branch", "other")
    bench.save()
    bench.git("switch", "-q", "other")
    assert not (bench.top / NOTE).exists()
    assert waiting(bench.repository) == ()
    assert lost(bench.repository) == ()
    bench.git("switch", "-q", "main")
    assert (bench.top / NOTE).exists()


def saved_while_merging(bench: Bench) -> None:
    """Save an entry that has to wait."""
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    assert bench.save().waiting
    merging.unlink()


def test_a_waiting_entry_goes_along_to_another_branch_and_is_committed(
    bench: Bench,
) -> None:
    saved_while_merging(bench)
    bench.git("switch", "-q", "-c", "other")
    assert waiting(bench.repository) == (NOTE,)
    with bench.undisturbed(1):
        assert bench.save().committed


@pytest.mark.parametrize(
    "words", [("clean", "-q", "-fd"), ("stash", "-q", "-u")], ids=["clean", "stash"]
)
def test_what_clean_and_stash_take_away_is_said_and_kept(
    bench: Bench, words: tuple[str, ...]
) -> None:
    saved_while_merging(bench)
    bench.git(*words)
    assert not (bench.top / NOTE).exists()
    bench.git("gc", "-q", "--prune=now")
    (gone,) = lost(bench.repository)
    assert gone.path == NOTE
    assert f"{NOTE} was saved and waited for its commit, but something took it" in (
        gone.sentence
    )
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"
    bench.save(OTHER)
    assert [each.path for each in lost(bench.repository)] == [NOTE]
    bench.save()
    assert lost(bench.repository) == ()


def test_a_correction_that_waited_and_was_reset_away_is_said_and_kept(
    bench: Bench,
) -> None:
    bench.save()
    merging = bench.repository.git_dir / "MERGE_HEAD"
    merging.write_text(bench.head() + "\n")
    bench.save(text="Filed to 178.1 mm.\n")
    merging.unlink()
    assert lost(bench.repository) == ()
    bench.git("reset", "-q", "--hard")
    (gone,) = lost(bench.repository)
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.1 mm.\n"


def test_an_entry_taken_back_while_it_waited_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    (bench.top / NOTE).unlink()
    with bench.undisturbed(0):
        commit(bench.repository, [Change((), "Take it back", removed=(NOTE,))])
    assert lost(bench.repository) == ()
    assert not bench.git("for-each-ref", "refs/as-built")


@pytest.mark.parametrize("merging", [True, False])
def test_what_was_taken_away_is_not_let_go_by_committing_it_again(
    bench: Bench, merging: bool
) -> None:
    saved_while_merging(bench)
    bench.git("clean", "-q", "-fd")
    if merging:
        (bench.repository.git_dir / "MERGE_HEAD").write_text(bench.head() + "\n")
    commit(bench.repository, [Change((NOTE,), "From a list that is out of date")])
    (gone,) = lost(bench.repository)
    assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"


def test_an_entry_taken_back_during_a_merge_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    (bench.repository.git_dir / "MERGE_HEAD").write_text(bench.head() + "\n")
    (bench.top / NOTE).unlink()
    commit(bench.repository, [Change((), "Take it back", removed=(NOTE,))])
    assert lost(bench.repository) == ()


def test_what_the_user_committed_after_all_is_not_missed(bench: Bench) -> None:
    saved_while_merging(bench)
    bench.git("add", FOLDER)
    bench.git("commit", "-q", "-m", "All of it")
    bench.write(NOTE, "And corrected by hand.\n")
    bench.git("commit", "-q", "-a", "-m", "Corrected")
    assert lost(bench.repository) == ()
