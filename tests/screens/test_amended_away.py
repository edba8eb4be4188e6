"""A fault put right to another piece leaves no piece behind that it alone had made."""

from __future__ import annotations

from pathlib import Path

from logbook.records.kinds.happenings import Failure
from logbook.records.kinds.workshop import Piece
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_rows import rows_of_record
from tests.screens.amending_keys import typed_over
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


async def amend(at: Bench, shop: Path, fact: str, typed: str) -> None:
    """Open the failure, and type over one of its facts."""
    [failure] = project(shop).snapshot.all(Failure)
    at.app.push_screen(RecordSheet(at.app.desk, failure.id))
    await at.settle()
    keys = [line.key for line in rows_of_record(at.app.desk.snapshot, failure)]
    await at.press(*["down"] * keys.index(f"fact {fact}"), "enter")
    await typed_over(at, typed)


def pieces(shop: Path) -> list[str]:
    return [one.title for one in project(shop).snapshot.all(Piece)]


def dented(shop: Path, *more: str) -> None:
    """Log, in a second build that has no base yet, a dent in one."""
    logged(shop, "build", "build 2")
    logged(shop, "failure", "base", "dented at the left end", "--met-by", "piece")
    for words in more:
        logged(shop, "say", "--yes", words)
    assert "base-2" in pieces(shop)


async def test_the_piece_nothing_else_speaks_of_goes_and_comes_back(shop: Path) -> None:
    dented(shop)
    async with bench(shop, (100, 30)) as at:
        await amend(at, shop, "piece", "base-1")
        assert "gone with it: base-2, of which nothing else is on record" in at.words
        assert pieces(shop) == ["base-1"]
        await at.do("escape")
        await at.do("f8")
    assert pieces(shop) == ["base-1", "base-2"]


async def test_a_piece_that_something_else_speaks_of_stays(shop: Path) -> None:
    dented(shop, "base-2 opening 179.8")
    async with bench(shop, (100, 30)) as at:
        await amend(at, shop, "piece", "base-1")
        assert "gone with it" not in at.words
    assert pieces(shop) == ["base-1", "base-2"]


async def test_its_part_goes_along_with_its_piece(shop: Path) -> None:
    logged(shop, "part", "lid")
    logged(shop, "measure", "lid", "length", "120.2")
    dented(shop)
    async with bench(shop, (100, 30)) as at:
        await amend(at, shop, "piece", "lid-1")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.piece is not None
    assert failure.part is None or failure.part.name == "lid"


async def test_a_failure_that_was_none_becomes_a_note_with_the_reason(
    shop: Path,
) -> None:
    dented(shop)
    [failure] = project(shop).snapshot.all(Failure)
    async with bench(shop, (100, 30)) as at:
        at.app.push_screen(RecordSheet(at.app.desk, failure.id))
        await at.settle()
        assert "Enter, if it was none" in at.words
        await at.type("retract: ")
        await at.say("a chip was under it")
        await at.do("enter")
        assert not project(shop).snapshot.all(Failure)
        assert "it is a note now" in at.words
    assert pieces(shop) == ["base-1"]
    note = project(shop).snapshot.by_id(failure.id)
    assert note is not None
    assert note.prose.startswith("Retracted, because a chip was under it;")


async def test_a_failure_of_no_part_is_given_its_part_or_piece_later(
    shop: Path,
) -> None:
    logged(shop, "failure", "base", "dented", "--met-by", "piece")
    [file] = (shop / "as-built/failures").rglob("*.md")
    kept = [
        line
        for line in file.read_text("utf-8").splitlines(keepends=True)
        if not line.startswith(("part = ", "piece = "))
    ]
    file.write_text("".join(kept), "utf-8")
    async with bench(shop, (100, 30)) as at:
        await amend(at, shop, "piece", "base-1")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.piece is not None
    assert failure.part is not None
    assert (failure.part.name, failure.piece.name) == ("base", "base-1")


async def test_a_known_fault_that_goes_on_with_the_old_cure_is_named(
    shop: Path,
) -> None:
    logged(shop, "failure", "base", "dented", "--cure", "felt", "--met-by", "drawing")
    logged(shop, "release", "1.0", "--anyway")
    logged(shop, "erratum", "dented", "--do-this", "put felt under it")
    async with bench(shop, (120, 30)) as at:
        await amend(at, shop, "cure", "cork")
        assert "still says to do: “put felt under it”" in at.words
