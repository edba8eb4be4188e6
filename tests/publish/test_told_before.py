"""What goes out with a release is told before it is tagged, and asked where one can.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import io
import sys

import pytest

from logbook.records.kinds.assembling import Line
from tests.publish.bowed import bowed
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

WASHERS = "diffuser rev B names washers, but neither a joint of the diffuser nor"


class Keys(io.StringIO):
    """Keys typed at a terminal."""

    def isatty(self) -> bool:
        """Say that somebody sits there."""
        return True


def washers(stand: Stand) -> None:
    told(stand, "revise", "diffuser", "--changed", "washers under the heads")


def tagged(stand: Stand, label: str) -> bool:
    name = f"refs/tags/as-built/{label}"
    return stand.project.repository.commit_of(name) is not None


def test_what_a_revision_names_and_no_list_has_is_said(stand: Stand) -> None:
    washers(stand)
    assert WASHERS in stand.look("check")[1]
    assert WASHERS in stand.look("release", "1.2", "--check")[1]
    code, said = stand.run("release", "1.2")
    assert code == 0
    assert said.index(WASHERS) < said.index("tag as-built/1.2")
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "- **On no list yet**: washers; named in this revision" in guide
    assert "On no list yet" not in stand.run("guide", "1.0", "--print")[1]


def test_what_a_cure_names_and_no_list_has_is_said_of_the_fault(stand: Stand) -> None:
    cure = "two shims and a rubber foot under it"
    told(stand, "part", "shim", "--source", "bought")
    told(stand, "line", "shim", "8")
    rocks = ("failure", "base", "base rocks on the desk", "--cure", cure)
    told(stand, *rocks, "--met-by", "drawing")
    lacking = "“base rocks on the desk” names rubber foot, but neither a joint"
    assert lacking in stand.look("check")[1]
    page = stand.run("errata", "1.1", "--print")[1]
    assert "- **On no list yet**: rubber foot, to be bought as well" in page
    told(stand, "part", "rubber feet", "--source", "bought")
    told(stand, "line", "rubber feet", "4")
    assert lacking not in stand.look("check")[1]


def test_a_revision_says_at_once_what_it_names_and_no_list_has(stand: Stand) -> None:
    said = stand.run("revise", "diffuser", "--changed", "washers under the heads")[1]
    assert f"careful: {WASHERS}" in said
    told(stand, "part", "washer M3", "--source", "bought")
    told(stand, "line", "washer M3", "4")
    said = stand.run("revise", "diffuser", "--changed", "washers, once more")[1]
    assert "careful" not in said


@pytest.mark.parametrize(("typed", "made"), [("\n", False), ("y\n", True)])
def test_at_a_terminal_it_is_asked_before_anything_is_saved(
    stand: Stand, monkeypatch: pytest.MonkeyPatch, typed: str, made: bool
) -> None:
    bowed(stand)
    washers(stand)
    told(stand, "dispose", "diffuser-2", "scrap")
    monkeypatch.setattr(sys, "stdin", Keys(typed))
    code, _ = stand.run("release", "1.2")
    assert (code == 0) is made
    assert tagged(stand, "1.2") is made
    monkeypatch.undo()
    assert stand.run("release", "1.2", "--anyway")[0] == (2 if made else 0)


def test_a_number_nobody_said_is_asked_and_goes_out_with_the_release(
    stand: Stand, monkeypatch: pytest.MonkeyPatch
) -> None:
    told(stand, "part", "foot", "--material", "rubber")
    told(stand, "part", "shim", "--material", "card")
    told(stand, "part", "bend trial strip")
    told(stand, "part", "washer", "--source", "bought")
    told(
        stand, "joint", "foot to base", "M4x16", "--number", "2",
        "--layer", "foot=8 mm", "--layer", "washer=0.8 mm", "--layer", "base=2 mm",
    )  # fmt: skip
    told(stand, "count", "foot", "--used", "4")
    monkeypatch.setattr(sys, "stdin", Keys("y\nfour\n4\n\n"))
    code, said = stand.run("release", "1.2")
    assert code == 0, said
    assert said.count("does one unit take?") == 3, "foot twice, shim once"
    assert "nobody has said (build 1: 4 used)  [a number / " in said
    assert "found “four”; accepted: a whole number from 1" in said
    guide = stand.run("guide", "1.2", "--print")[1]
    assert "| foot, first issue, tried | 4 | rubber |" in guide
    assert "| shim, first issue, untried | not stated |" in guide


def test_a_release_that_is_answered_no_leaves_the_list_alone(
    stand: Stand, monkeypatch: pytest.MonkeyPatch
) -> None:
    told(stand, "part", "foot", "--material", "rubber")
    monkeypatch.setattr(sys, "stdin", Keys("n\n"))
    code, said = stand.run("release", "1.2")
    assert code != 0
    assert "does one unit take" not in said
    assert not stand.project.snapshot.named("foot in the whole", Line)
