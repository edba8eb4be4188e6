"""What to do is said once for each part: one instruction, one answer to make it again.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.advice.faults.trying import cure_words
from logbook.publish.errata.errata import readme_line
from logbook.publish.errata.to_do import ToDo, to_do
from logbook.publish.faults.told import KnownFault
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.states.tried import verdict_of
from tests.publish.bowed import BOWED, CRACK, HEAD, bowed, fault, thicker
from tests.publish.stand import Stand
from tests.publish.stand import told as said

pytestmark = pytest.mark.xdist_group("publish")


def what_to_do(stand: Stand, release: str) -> list[str]:
    page = stand.run("errata", release, "--print")[1]
    part = page.partition("## What to do")[2].partition("\n## ")[0]
    whole = part.replace("\n  - ", " ").replace("**", "")
    return [line for line in whole.split("\n") if line.startswith("- ")]


def settled(stand: Stand) -> None:
    """Let the author say that the first issue bows as well."""
    said(stand, "erratum", BOWED, "--revision", "diffuser first issue")


def test_two_faults_of_a_part_that_one_revision_cures_are_one_instruction(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    settled(stand)
    assert len([one for one in what_to_do(stand, "1.0") if "iffuser" in one]) == 1
    [line] = what_to_do(stand, "1.0")
    assert re.match(r"- Diffuser \(faults \[1\]\(#.*\) and \[2\]\(#", line)
    assert line.count("Make it again?") == line.count("make it to diffuser rev B") == 1


def test_two_faults_with_their_own_cures_are_told_behind_each_other(
    stand: Stand,
) -> None:
    bowed(stand)
    settled(stand)
    [line] = what_to_do(stand, "1.0")
    assert "against fault [1](#1-" in line
    assert ": oversize holes 9 mm in, pan heads, washers. Against fault [2](#2-" in line
    assert line.count(HEAD) == 0, "the other fault is told of by its number"
    assert line.count("Make it again? Yes. Take diffuser rev A (release 1.1; ") == 1


def test_making_it_again_is_said_to_who_holds_this_release(stand: Stand) -> None:
    bowed(stand)
    named = fault(stand, HEAD, "1.1")["entries"][0].rpartition(" ")[2]
    only = ("--because", named, "--remake", "only if it runs hot")
    said(stand, "revise", "diffuser", "--changed", "5 mm plate", *only)
    said(stand, "dispose", "diffuser-2", "scrap", "--because", "it is bowed")
    said(stand, "release", "1.2", "--anyway")
    [second] = what_to_do(stand, "1.1")
    assert (
        "Make it again? Only if it runs hot. If you do, take diffuser rev B" in second
    )
    settled(stand)
    [first] = what_to_do(stand, "1.0")
    assert first.count("Make it again? Yes.") == first.count("Make it again?") == 1
    assert fault(stand, HEAD, "1.0")["remake"] == "yes"
    assert fault(stand, HEAD, "1.1")["remake"] == "only if it runs hot"


def test_what_a_new_revision_fits_with_is_not_taken_over_in_silence(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    words = "nobody has said; diffuser rev A fits with base first issue"
    assert fault(stand, CRACK, "1.0")["fits_with"] == words
    history = stand.run("guide", "1.2", "--print")[1].partition("## What changed")[2]
    assert f"| {words} |" in history


def test_a_verdict_names_the_revision_that_cures_as_things_stand(stand: Stand) -> None:
    bowed(stand)
    thicker(stand)
    verdicts = stand.look("verdicts")[1].splitlines()
    [line] = [one for one in verdicts if one.startswith(CRACK)]
    assert "untried: no piece of diffuser rev B is on record" in line
    assert (
        f"not by diffuser rev A (release 1.1), which has a fault of its own: {HEAD}"
        in (line)
    )


def test_the_line_for_the_readme_counts_what_nobody_knows(stand: Stand) -> None:
    bowed(stand)
    snapshot = stand.project.snapshot
    line = readme_line(snapshot, snapshot.lookup("release 1.0", Release), "errata.md")
    assert line == (
        "**Release 1.0 has 1 known fault**, and 1 of which nobody has said whether it "
        "has it: [what to do](errata.md)."
    )


# -- whatever the faults are -----------------------------------------------------


WORDS = st.sampled_from(["", "drill it", "drill it out", "make it to rod rev B now"])
FAULT = st.tuples(
    st.sampled_from(["", "rod", "plate"]),
    WORDS,
    st.sampled_from(["", "yes", "no", "only if it binds"]),
    st.sampled_from(["", "rod rev B (release 1.2; tried)"]),
)


@given(st.lists(FAULT, max_size=5))
def test_every_fault_is_answered_once_and_each_part_has_one_line(
    rows: list[tuple[str, str, str, str]],
) -> None:
    faults = [_fault(*row, number) for number, row in enumerate(rows, 1)]
    found = to_do(faults)
    numbers = [n for one in found for doing in one.doing for n in doing.numbers]
    assert sorted(numbers) == list(range(1, len(rows) + 1))
    named = [one.part for one in found if one.part]
    assert len(named) == len(set(named))
    for one in found:
        assert one.remake == _strictest(one, faults)


def _strictest(one: ToDo, faults: list[KnownFault]) -> str:
    mine = {n for doing in one.doing for n in doing.numbers}
    words = {fault.remake for n, fault in enumerate(faults, 1) if n in mine}
    order = ("yes", "only if it binds", "no", "")
    return next(word for word in order if word in words)


def test_what_goes_with_an_instruction_that_goes_with_another_is_not_lost() -> None:
    new = "rod rev B (release 1.2; tried)"
    made = _fault("rod", "make it to rod rev B now, please do", "yes", new, 1)
    longer = _fault("rod", "drill it out", "yes", new, 2)
    shorter = _fault("rod", "drill it", "", "", 3)
    [one] = to_do((made, longer, shorter))
    assert [doing.numbers for doing in one.doing] == [(1, 2), (3,)]


def _fault(part: str, do: str, remake: str, take: str, number: int) -> KnownFault:
    return KnownFault(
        id=str(number), title=f"fault {number}", part=part, bought=False,
        severity="fit", means="", stop="", affected=(), withdrawn=(), releases=(),
        how_to_tell="", sizes="",
        symptom="", consequence="", way_round="", do_this=do,
        idle=not do, works=(), label="",
        side_effects="", remake=remake, take=take, beside="", files=(), guide="",
        fix="", fixed_in="", fits_with="", name="",
        but="", again="", instead="", status="", drafted=False, evidence=(),
        entries=(), photos=(), statements=(), table=(), newest_entry="", worded="",
        unlisted=(), differs=(),
    )  # fmt: skip


# -- by which file ---------------------------------------------------------------


def test_the_file_of_the_fix_is_named_and_told_from_the_old_one(stand: Stand) -> None:
    [line] = what_to_do(stand, "1.0")
    snapshot = stand.project.snapshot
    now = snapshot.lookup("diffuser rev A", Revision)
    old = snapshot.lookup("diffuser first issue", Revision)
    assert now.files[0].sha256 != old.files[0].sha256
    says = "drawings/diffuser.dxf of release 1.1"
    other = ", not that of diffuser first issue"
    assert f"Its file: {says}{other}." in line
    sign = f"SHA-256 begins {now.files[0].sha256[:12]}"
    assert (
        f"- **Made from**: {says} ({sign}){other}; "
        in (stand.run("errata", "1.0", "--print")[1])
    )


def test_a_piece_off_in_the_very_size_that_was_changed_tries_nothing(
    stand: Stand,
) -> None:
    change = ("--dimension", "hole to edge=9")
    said(stand, "revise", "diffuser", "--changed", "holes 9 mm in", *change)
    said(stand, "measure", "diffuser", "hole to edge", "8.0", "--met-by", "piece")
    snapshot = stand.project.snapshot
    revision = snapshot.lookup("diffuser rev B", Revision)
    assert verdict_of(snapshot, revision) == "untried"
    off = "diffuser-2 came out off in the very size that was changed"
    assert cure_words(snapshot, revision) == f"untried: {off}"
    said(stand, "measure", "diffuser", "hole to edge", "9.1", "--piece", "3")
    snapshot = stand.project.snapshot
    revision = snapshot.lookup("diffuser rev B", Revision)
    assert verdict_of(snapshot, revision) == "tried"


def test_something_else_seen_on_the_cure_is_told_with_it_and_as_something_else(
    stand: Stand,
) -> None:
    begun = stand.run("build", "build 2")[0]
    assert begun == 0
    chip = ("failure", "diffuser", "diffuser chipped at its edge")
    assert stand.run(*chip, "--met-by", "unknown", "--do", "scrap")[0] == 0
    [line] = what_to_do(stand, "1.0")
    doing, _, again = line.partition("Make it again?")
    assert "chipped" not in doing
    assert re.search(
        r"Take diffuser rev A \(.*\)\..* But something else was seen on it: diffuser "
        r"chipped at its edge \(nobody has said whether others meet it; no cure yet",
        again,
    )
    page = stand.run("errata", "1.0", "--print")[1]
    head = next(line for line in page.splitlines() if "NEWER RELEASE" in line)
    assert (
        "with no known fault so far; of 1 thing seen on the bench nobody has said "
        "whether others meet it." in head
    )
