"""What a line of work says a piece is made to, in a build by an older release."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.workshop import Build, Piece
from tests.cli.shop import Shop
from tests.cli.typed import answering


@pytest.fixture
def older(shop: Shop) -> Shop:
    """A build by release 1.0, where 1.1 has rev A of the gate; none is made yet."""
    for part in ("gate", "diffuser", "lid"):
        shop.asked("part", part)
    shop.asked("release", "1.0")
    for part in ("gate", "diffuser"):
        shop.asked("revise", part, "--changed", "thicker", "--remake", "yes")
    shop.asked("release", "1.1")
    shop.asked("build", "shed-1", "--of", "1.0")
    return shop


def made(shop: Shop) -> dict[str, str]:
    """Give each piece with the revision it is made to."""
    pieces = Project.open(shop.folder).snapshot.all(Piece)
    return {one.title: one.revision.name if one.revision else "" for one in pieces}


@pytest.mark.parametrize(
    "says",
    [
        "printed gate rev A in PETG",
        "printed the gate to rev A in PETG",
        "printed another gate to rev A in PETG",
        "printed the gate again by revision A, in PETG",
    ],
)
def test_work_told_with_a_revision_makes_the_piece_of_that(
    older: Shop, says: str
) -> None:
    assert older.logbook("say", "--yes", "printed the gate in PLA").code == 0
    shown = older.logbook("say", "--yes", says).out
    assert "new: gate-2 of rev A" in shown
    assert made(older) == {"gate-1": "gate first issue", "gate-2": "gate rev A"}


def test_work_on_a_piece_of_that_revision_makes_no_second_one(older: Shop) -> None:
    for says in ("printed gate rev A in PETG", "sanded gate rev A", "cut gate rev A"):
        assert older.logbook("say", "--yes", says).code == 0
    assert made(older) == {"gate-1": "gate rev A"}


def test_anew_by_a_revision_is_a_new_piece(older: Shop) -> None:
    assert older.logbook("say", "--yes", "made the diffuser").code == 0
    anew = "drilled the diffuser anew by rev A, holes 9 mm in"
    assert "new: diffuser-2 of rev A" in older.logbook("say", "--yes", anew).out


def test_work_by_a_revision_on_a_piece_of_another_leaves_that_what_it_is(
    older: Shop,
) -> None:
    assert older.logbook("say", "--yes", "made the diffuser").code == 0
    told = older.logbook("say", "--yes", "sanded the diffuser by rev A").out
    assert "in words only: diffuser-1 is of diffuser first issue" in told
    assert made(older) == {"diffuser-1": "diffuser first issue"}


def test_a_failure_goes_to_the_piece_of_the_revision_it_names(older: Shop) -> None:
    for says in ("printed gate rev A", "printed another gate"):
        assert older.logbook("say", "--yes", says).code == 0
    says = "gate rev A sagged beside the lamp at 60 °C after 2 h"
    assert older.logbook("say", "--yes", "--met-by", "drawing", says).code == 0
    page = older.logbook("errata", "--print").out
    assert "gate rev A" in page
    assert made(older) == {"gate-1": "gate rev A", "gate-2": "gate first issue"}


def test_a_revision_that_is_not_on_record_is_asked_about(
    older: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "")
    shown = older.logbook("say", "printed gate rev D in PETG").out
    assert "gate rev D is not on record; to which is it made?" in shown
    assert "1 rev A / 2 first issue / 3 only a note" in shown
    assert "new: gate-1 of rev A" in shown
    assert made(older) == {"gate-1": "gate rev A"}


def test_that_a_piece_is_made_to_a_revision_puts_the_piece_right(older: Shop) -> None:
    for says in ("printed the gate in PLA", "printed another gate"):
        assert older.logbook("say", "--yes", says).code == 0
    told = older.logbook("say", "--yes", "gate-2 is made to rev A").out
    assert "puts an entry right" in told
    assert "gate rev A" in told
    assert made(older) == {"gate-1": "gate first issue", "gate-2": "gate rev A"}


def test_the_verb_says_what_a_piece_is_made_to(older: Shop) -> None:
    assert older.logbook("piece", "gate", "--revision", "rev A").code == 0
    assert older.logbook("piece", "gate").code == 0
    assert older.logbook("piece", "gate-2", "--revision", "A").code == 0
    assert set(made(older).values()) == {"gate rev A"}
    refused = older.logbook("piece", "gate", "--revision", "Q")
    assert refused.code
    assert "accepted: first issue, rev A of gate" in refused.err


@pytest.mark.parametrize(
    "says",
    [
        "from here on by release 1.1",
        "going on by release 1.1",
        "I go on by 1.1",
        "shed-1 goes on by release 1.1",
        "build shed-1: from now on by release 1.1",
        "by release 1.1 from here on",
    ],
)
def test_a_build_goes_on_by_another_release(older: Shop, says: str) -> None:
    assert older.logbook("say", "--yes", "printed the gate in PLA").code == 0
    shown = older.logbook("say", "--yes", says).out
    assert "shed-1 goes on by release 1.1, no longer by release 1.0" in shown
    assert older.logbook("say", "--yes", "printed another gate in PETG").code == 0
    assert made(older) == {"gate-1": "gate first issue", "gate-2": "gate rev A"}


@pytest.mark.parametrize(
    "says",
    [
        "gate goes on by release 1.1",
        "going on by release 1.7",
        "M3 from release 1.1 on",
    ],
)
def test_what_says_something_else_leaves_the_build_by_its_release(
    older: Shop, says: str
) -> None:
    older.logbook("say", "--yes", says)
    [build] = Project.open(older.folder).snapshot.all(Build)
    assert build.release is not None
    assert build.release.name == "release 1.0"


def test_the_verb_goes_on_by_another_release_once(older: Shop) -> None:
    told = older.logbook("build", "shed-1", "--of", "1.1")
    assert "what is made stays what it is" in told.out
    assert older.logbook("build", "shed-1", "--of", "1.1").code
    assert older.logbook("build", "shed-1").code


@pytest.mark.parametrize(
    "words",
    [
        ("say", "--yes", "gate width 59.4 should be 60"),
        ("say", "--yes", "gate width 59.4, drawn 60 ±0.8"),
        ("measure", "gate", "width", "59.4", "--nominal", "60"),
        ("deviation", "gate", "narrow", "--dimension", "width", "--found", "59.4"),
    ],
)
@pytest.mark.parametrize("made_to", ["gate first issue", "gate rev A"])
def test_a_new_size_is_of_what_the_piece_is_made_to(
    older: Shop, words: tuple[str, ...], made_to: str
) -> None:
    line = "printed gate rev A" if made_to == "gate rev A" else "printed the gate"
    assert older.logbook("say", "--yes", line).code == 0
    assert older.logbook(*words).code == 0
    snapshot = Project.open(older.folder).snapshot
    [width] = snapshot.all(Characteristic)
    assert width.since is not None
    assert width.since.name == made_to
    # What is told of the part itself is of the part as it is now.
    older.asked("part", "gate", "--dimension", "height=20 mm")
    height = Project.open(older.folder).snapshot.all(Characteristic)[-1]
    assert height.since is not None
    assert height.since.name == "gate rev A"
