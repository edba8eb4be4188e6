"""A program stopped before the branch moved is finished by the next."""

from __future__ import annotations

from logbook.store.git import stream
from logbook.store.git.staging import stage
from logbook.store.git.standing import stand
from logbook.store.git.waiting import lost, waiting
from tests.store.git_world import (
    NOTE,
    OTHER,
    Bench,
)


def stopped_before_the_branch_moved(bench: Bench) -> None:
    """Leave a repository as a program does that is killed between index and branch."""
    bench.note()
    found = bench.repository
    places = tuple(stand(found, found.head(), [NOTE]).values())
    who = "Mara Example <mara@example.org> 1773480000 +0100"
    draft = stream.Draft(b"Note\n", who, who, places)
    assert stream.write(found, stream.coming(found), found.head(), [draft]).good
    assert stage(found, places).good


def test_a_stopped_program_is_finished_by_the_next_run(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    assert waiting(bench.repository) == (NOTE,)
    with bench.undisturbed(1):
        assert bench.save().committed


def test_a_stop_before_the_first_commit_leaves_no_commit_too_many(
    bench: Bench,
) -> None:
    bench.git("switch", "-q", "--orphan", "fresh")
    stopped_before_the_branch_moved(bench)
    assert bench.save().committed
    assert bench.git("rev-list", "--count", "HEAD").strip() == "1"


def test_a_correction_after_the_stop_is_committed_too(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    with bench.undisturbed(1):
        assert bench.save(text="Filed to 178.2 mm.\n").committed
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.2 mm.\n"


def test_the_users_commit_after_the_stop_takes_the_entry_along(bench: Bench) -> None:
    stopped_before_the_branch_moved(bench)
    bench.git("commit", "-q", "-m", "Mine")
    assert bench.git("show", f"HEAD:{NOTE}") == "Filed to 178.3 mm.\n"


def test_a_reset_after_the_stop_deletes_the_file_and_it_is_said_and_kept(
    bench: Bench,
) -> None:
    stopped_before_the_branch_moved(bench)
    bench.git("reset", "-q", "--hard")
    assert not (bench.top / NOTE).exists()
    for _ in range(2):
        (gone,) = lost(bench.repository)
        assert bench.git("cat-file", "blob", gone.blob) == "Filed to 178.3 mm.\n"
        bench.save(OTHER)
        bench.git("gc", "-q", "--prune=now")
