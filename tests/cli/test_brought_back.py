"""What was taken back is brought back as it stood, and can be taken back again."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from logbook.errors import NotFound, Refused
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Note
from logbook.store.acts.last import read_acts
from tests.cli.shop import Shop


def now() -> datetime:
    return datetime.now(UTC).astimezone()


def files(shop: Shop) -> dict[str, bytes]:
    folder = shop.folder / "as-built"
    found = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def titles(at: Project) -> set[str]:
    return {note.title for note in at.snapshot.all(Note)}


def test_what_was_made_changed_and_taken_away_comes_back_to_the_byte(
    shop: Shop,
) -> None:
    shop.asked("note", "bed sanded with 180", "--later")
    shop.asked("note", "bed oiled", "--later")
    at = Project.open(shop.folder)
    sanded, oiled = at.snapshot.all(Note)[-2:]
    draft = at.draft(now())
    draft.amend(replace(sanded, title="bed sanded with 240"))
    draft.drop(oiled)
    at.save(draft, "amended", now())
    stood = files(shop)
    at.undo(now())
    assert files(shop) != stood
    at.redo(now())
    assert files(shop) == stood
    at.undo(now())
    assert titles(at) >= {"bed sanded with 180", "bed oiled"}


def test_the_last_ones_come_back_the_newest_first(shop: Shop) -> None:
    for coat in ("first", "second", "third"):
        shop.asked("note", f"{coat} coat", "--later")
    at = Project.open(shop.folder)
    at.undo(now())
    at.undo(now())
    assert titles(at) == {"first coat"}
    at.redo(now())
    assert titles(at) == {"first coat", "second coat"}
    at.redo(now())
    assert titles(at) == {"first coat", "second coat", "third coat"}
    with pytest.raises(NotFound, match="nothing taken back in this clone is left"):
        at.redo(now())


def test_git_takes_it_back_and_again_without_rewriting_anything(shop: Shop) -> None:
    shop.asked("note", "bed oiled")
    at = Project.open(shop.folder)
    at.undo(now())
    at.commit_waiting()
    at.redo(now())
    at.commit_waiting()
    assert shop.subjects()[:3] == [
        "note: bed oiled", "undo: note: bed oiled", "note: bed oiled",
    ]  # fmt: skip
    assert shop.git("status", "--porcelain") == ""


def test_a_photo_comes_back_though_it_is_no_text(shop: Shop) -> None:
    data = b"\xff\xd8\xff no text at all \x00\x80"
    at = Project.open(shop.folder)
    at.save(at.draft(now()), "photo", now(), {"as-built/photos/lid.jpg": data})
    place = shop.folder / "as-built/photos/lid.jpg"
    at.undo(now())
    assert not place.exists()
    at.redo(now())
    assert place.read_bytes() == data


def test_a_photo_is_kept_beside_the_journal_only_while_that_names_it(
    shop: Shop,
) -> None:
    at = Project.open(shop.folder)
    at.save(at.draft(now()), "photo", now(), {"as-built/photos/lid.jpg": b"\xff\xd8"})
    at.undo(now())
    beside = at.own("replaced")
    assert len([*beside.iterdir()]) == 1
    at.own("acts.jsonl").unlink()
    shop.asked("note", "bed oiled")
    at = Project.open(shop.folder)
    at.undo(now())
    assert [*beside.iterdir()] == []


def test_what_is_at_odds_with_what_was_logged_since_stays_taken_back(
    shop: Shop,
) -> None:
    shop.asked("part", "collar", "--later")
    at = Project.open(shop.folder)
    at.undo(now())
    shop.asked("part", "collar", "--later")
    at = Project.open(shop.folder)
    [collar] = at.snapshot.named("collar", Part)
    with pytest.raises(Refused, match="at odds with what was logged since") as refusal:
        at.redo(now())
    assert "collar" in str(refusal.value)
    assert at.snapshot.named("collar", Part) == (collar,)
    assert not Project.open(shop.folder).snapshot.problems


def test_a_text_that_is_kept_no_more_is_refused_and_nothing_touched(
    shop: Shop,
) -> None:
    shop.asked("note", "bed oiled", "--later")
    at = Project.open(shop.folder)
    at.undo(now())
    journal = at.own("acts.jsonl")
    [undoing] = [act for act in read_acts(journal) if act.undoes]
    text = journal.read_text("utf-8")
    words = undoing.files[0].replaced.splitlines()[0]
    journal.write_text(text.replace(words, "# something else"), "utf-8")
    stood = files(shop)
    with pytest.raises(Refused, match="is not kept here any more"):
        at.redo(now())
    assert files(shop) == stood


def test_undo_names_how_it_is_brought_back_and_that_does_it(shop: Shop) -> None:
    shop.asked("note", "bed oiled")
    said = shop.logbook("undo")
    assert "taken back: note: bed oiled; logbook undo --bring-back" in said.out
    stood = files(shop)
    said = shop.logbook("undo", "--bring-back")
    assert said.out.startswith("brought back: note: bed oiled\ngit: 1 committed")
    assert titles(Project.open(shop.folder)) == {"bed oiled"}
    assert shop.asked("undo")["undone"] == "note: bed oiled"
    assert files(shop) == stood
    assert shop.asked("undo", "--bring-back")["brought_back"] == "note: bed oiled"


def test_where_nothing_was_taken_back_that_is_said(shop: Shop) -> None:
    said = shop.logbook("undo", "--bring-back")
    assert said.code == 5
    assert "nothing taken back in this clone is left to bring back" in said.err
