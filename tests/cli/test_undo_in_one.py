"""Acts taken back faster than git was told stand in one commit that names them all."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

from logbook.project import Project
from logbook.records.kinds.happenings import Note
from logbook.records.making.amends import amend_draft
from tests.cli.shop import Shop

SANDED, TWICE, THRICE = "bed sanded", "bed sanded twice", "bed sanded thrice"


def now() -> datetime:
    return datetime.now(UTC).astimezone()


def amended(shop: Shop, title: str) -> None:
    project = Project.open(shop.folder)
    [note] = project.snapshot.all(Note)
    draft = project.draft(now())
    amend_draft(draft, note, replace(note, title=title))
    project.save(draft, f"amend: {title}", now())


def taken_back(shop: Shop, times: int) -> None:
    project = Project.open(shop.folder)
    for _ in range(times):
        project.undo(now())


def test_a_commit_names_every_act_it_takes_back(shop: Shop) -> None:
    shop.asked("note", SANDED)
    for title in (TWICE, THRICE):
        amended(shop, title)
        shop.asked("commit")
    taken_back(shop, 2)
    assert shop.asked("commit")["committed"] == 1
    assert shop.subjects()[0] == f"undo: amend: {THRICE}; amend: {TWICE}"
    assert shop.git("status", "--porcelain") == ""


def test_what_is_gone_at_the_end_names_what_was_taken_back_of_it_before(
    shop: Shop,
) -> None:
    shop.asked("note", SANDED)
    amended(shop, TWICE)
    shop.asked("commit")
    taken_back(shop, 2)
    shop.asked("commit")
    assert shop.subjects()[0] == f"undo: amend: {TWICE}; note: {SANDED}"


def test_what_git_has_seen_taken_back_is_not_named_again(shop: Shop) -> None:
    shop.asked("note", SANDED)
    amended(shop, TWICE)
    amended(shop, THRICE)
    for _ in range(2):
        shop.asked("commit")
        taken_back(shop, 1)
    shop.asked("commit")
    assert shop.subjects()[:2] == [f"undo: amend: {TWICE}", f"undo: amend: {THRICE}"]


def test_what_git_never_had_is_not_named(shop: Shop) -> None:
    shop.asked("note", SANDED)
    amended(shop, TWICE)
    taken_back(shop, 2)
    shop.asked("commit")
    assert shop.subjects()[0] == f"undo: note: {SANDED}"
