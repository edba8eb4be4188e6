"""An author says that a fault does not concern an earlier revision or a release.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import shlex

import pytest

from tests.publish.bowed import BOWED, HEAD, bowed, facts, fault
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

FIRST = "diffuser first issue"


def test_a_fault_said_not_to_concern_an_earlier_revision_is_not_open_there(
    stand: Stand,
) -> None:
    bowed(stand)
    [asked] = [
        line for line in stand.look("check")[1].splitlines() if "if it has not" in line
    ]
    assert [one["title"] for one in facts(stand, "1.0")["not_known"]] == [HEAD]
    command = shlex.split(asked.partition("if it has not: ")[2])
    told(stand, *command[1:])
    found = facts(stand, "1.0")
    assert found["not_known"] == []
    assert HEAD not in [one["title"] for one in found["faults"]]
    assert "--not-revision" not in stand.look("check")[1]
    rows = {one["revision"]: one["words"] for one in fault(stand, HEAD, "1.1")["table"]}
    assert rows[FIRST] == "not affected"


def test_the_newest_word_on_a_revision_counts(stand: Stand) -> None:
    bowed(stand)
    told(stand, "erratum", BOWED, "--not-revision", FIRST)
    told(stand, "erratum", HEAD, "--revision", FIRST)
    assert fault(stand, HEAD, "1.0")["affected"] == [
        FIRST,
        "diffuser rev A",
    ]
    told(stand, "erratum", HEAD, "--not-revision", FIRST)
    assert HEAD not in [one["title"] for one in facts(stand, "1.0")["faults"]]
    assert fault(stand, HEAD, "1.1")["releases"] == ["1.1"]


def test_a_release_is_said_not_to_have_a_fault(stand: Stand) -> None:
    title = "the lamp line names no maker"
    told(stand, "erratum", title, "--part", "lamp", "--release", "1.0")
    assert title in [one["title"] for one in facts(stand, "1.1")["faults"]]
    told(stand, "erratum", title, "--not-release", "1.1")
    assert title not in [one["title"] for one in facts(stand, "1.1")["faults"]]
    assert fault(stand, title, "1.0")["releases"] == ["1.0"]


def test_the_same_is_not_said_both_ways_at_once(stand: Stand) -> None:
    bowed(stand)
    both = ("--revision", FIRST, "--not-revision", FIRST)
    code, said = stand.run("erratum", BOWED, *both)
    assert code != 0
    assert "is said to have the fault and not to have it; accepted: one" in said
