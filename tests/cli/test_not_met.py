"""A known fault that does not occur with somebody: said, and told as evidence."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.happenings import Failure, Status
from tests.cli.shop import Shop


@pytest.fixture
def cracked(shop: Shop) -> Shop:
    """Release 1.0 with two known faults, and a build by it that has its own."""
    for part in ("diffuser", "lid"):
        shop.asked("part", part)
    shop.asked("release", "1.0", "--anyway")
    shop.asked("build", "build 1", "--of", "1.0")
    told = ("--met-by", "drawing", "--do", "scrap")
    shop.asked("failure", "diffuser", "diffuser cracked at a corner screw", *told)
    shop.asked("failure", "lid", "lid warped in the sun", *told)
    shop.asked("build", "shed-1", "--of", "1.0")
    shop.asked("piece", "diffuser")
    return shop


def name(shop: Shop) -> str:
    """Give the name of the diffuser's fault as its page has it."""
    page = shop.logbook("errata", "1.0", "--print").out
    told = page.partition("Diffuser cracked at a corner screw\n")[2]
    return told.partition("- **Name**: fault ")[2].partition(",")[0]


def evidence(shop: Shop) -> str:
    page = shop.logbook("errata", "1.0", "--print").out
    told = page.partition("Diffuser cracked at a corner screw\n")[2]
    return told.partition("- **Evidence**: ")[2].partition("\n")[0]


@pytest.mark.parametrize(
    "says",
    [
        "fault {} does not occur with me",
        "fault {} did not happen here, four screws in",
        "the diffuser did not crack with countersunk screws",
        "diffuser didn't crack",
    ],
)
def test_that_it_does_not_occur_is_told_as_evidence(cracked: Shop, says: str) -> None:
    assert "seen in 1 of 2 builds" in evidence(cracked)
    assert "did not occur" not in evidence(cracked)
    said = cracked.logbook("say", "--yes", says.format(name(cracked))).out
    assert "does not occur in shed-1: diffuser cracked at a corner screw" in said
    assert "did not occur in shed-1 (" in evidence(cracked)
    assert "seen in 1 of 2 builds" in evidence(cracked)


def test_the_verb_says_the_same(cracked: Shop) -> None:
    fault = "diffuser cracked at a corner screw"
    assert cracked.logbook("erratum", fault, "--not-met").code == 0
    assert "did not occur in shed-1 (" in evidence(cracked)


def test_a_fault_keeps_its_name_whatever_comes_or_is_saved(cracked: Shop) -> None:
    before = name(cracked)
    told = ("--met-by", "drawing", "--do", "scrap")
    cracked.asked("failure", "lid", "lid pinched a finger", *told)
    cracked.asked("erratum", "lid pinched a finger", "--severity", "safety")
    assert name(cracked) == before
    first = Project.open(cracked.folder).snapshot.all(Failure)[0]
    cracked.asked("erratum", first.id, "--do-this", "use washers")
    assert name(cracked) == before
    assert cracked.logbook("erratum", before, "--severity", "damage").code == 0


@pytest.mark.parametrize(
    "says",
    [
        "the diffuser did not fit",
        "the diffuser did not crack yet",
        "the lid did not crack",
        "did the diffuser not crack?",
        "fault 99zz does not occur with me",
    ],
)
def test_what_says_something_else_denies_no_fault(cracked: Shop, says: str) -> None:
    cracked.logbook("say", "--yes", says)
    assert not Project.open(cracked.folder).snapshot.all(Status)
