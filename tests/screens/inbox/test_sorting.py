"""The inbox at the screen: one key sorts a photo or a note the phone has sent."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from logbook.cli import main
from logbook.cli.demo import load_script
from logbook.records.kinds.happenings import Deviation, Failure, Note
from logbook.records.kinds.words import Blame
from logbook.store.photos.metadata import private_parts
from logbook.store.typed.drafts import drafts
from tests.screens.bench_keys import bench, project
from tests.screens.conftest import logged
from tests.screens.inbox.phone import LONG_AGO, inbox, photos, put, waiting
from tests.screens.on_disk import orphaned


async def test_a_text_becomes_a_note_at_its_own_time(shop: Path, phone: Path) -> None:
    async with inbox(shop) as at:
        assert "pan heads instead" in at.seen
        await at.do("n")
        assert "pan heads instead" in at.seen
    [note] = project(shop).snapshot.all(Note)
    assert (note.title, note.prose) == ("pan heads instead", "and washers")
    assert note.when == LONG_AGO
    assert waiting(shop) == ["IMG_1.jpg"]
    assert (phone / "idea.txt").exists()


async def test_a_photo_becomes_a_failure_and_goes_into_git_only_cleaned(
    shop: Path, phone: Path
) -> None:
    raw = (phone / "IMG_1.jpg").read_bytes()
    assert private_parts(raw)
    async with inbox(shop) as at:
        await at.press("down", "enter")
        await at.type("the diffuser cracked")
        await at.do("enter", "f", "enter")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.title == "the diffuser cracked"
    [photo] = failure.photos
    assert (shop / photo.path).is_file()
    for made in photos(shop):
        assert private_parts(made.read_bytes()) == ()
        assert made.read_bytes() != raw
    assert project(shop).commit_waiting() is not None
    assert (phone / "IMG_1.jpg").read_bytes() == raw


@pytest.mark.usefixtures("phone")
async def test_words_being_typed_for_an_item_are_kept_until_they_are_on_record(
    shop: Path,
) -> None:
    async with inbox(shop) as at:
        await at.press("down", "enter")
        await at.type("the diffuser cracked")
        await at.until(
            lambda: [one.text for one in drafts(shop)] == ["the diffuser cracked"]
        )
        await at.do("enter", "f", "enter")
    assert drafts(shop) == ()


@pytest.mark.usefixtures("phone")
async def test_one_key_links_a_photo_to_the_entry_nearest_in_time(shop: Path) -> None:
    async with inbox(shop) as at:
        await at.do("down", "l")
    entries = [e for e in project(shop).snapshot.entries if e.photos]
    assert len(entries) == 1
    assert waiting(shop) == ["idea.txt"]


@pytest.mark.usefixtures("phone")
async def test_a_text_is_linked_to_another_entry_that_is_chosen(shop: Path) -> None:
    async with inbox(shop) as at:
        await at.do("e")
        await at.say("should be")
    found = [e for e in project(shop).snapshot.entries if "pan heads" in e.prose]
    assert [type(one) for one in found] in ([Deviation], [type(found[0])])
    assert "and washers" in found[0].prose


@pytest.mark.usefixtures("phone")
async def test_a_photo_is_put_to_a_part(shop: Path) -> None:
    async with inbox(shop) as at:
        await at.do("down", "p")
        await at.say("base")
    [note] = project(shop).snapshot.all(Note)
    assert note.part is not None
    assert note.part.name == "base"
    assert note.title.startswith("photo of ")


@pytest.mark.usefixtures("phone")
async def test_the_list_of_keys_has_the_letters_too(shop: Path) -> None:
    async with inbox(shop, (80, 40)) as at:
        await at.press("f1")
        for said in ("link to it", "note of a part", "off the list"):
            assert said in at.seen


async def test_skipping_goes_on_and_throwing_away_leaves_the_file(
    shop: Path, phone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    async with inbox(shop) as at:
        await at.do("s", "x")
        assert "the file stays in" in " ".join(at.seen.split())
        assert waiting(shop) == ["idea.txt"]
    assert (phone / "IMG_1.jpg").exists()
    assert main(["inbox", "--in", str(shop), "--again", "IMG_1.jpg"]) == 0
    assert "IMG_1.jpg" in capsys.readouterr().out
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


@pytest.mark.usefixtures("phone")
async def test_the_newest_photo_goes_to_what_was_typed_here_and_waits_no_more(
    shop: Path,
) -> None:
    async with bench(shop, (100, 30)) as at:
        await at.say("note: the washers are brass")
        logged(shop, "note", "from another clone, and newer")
        await at.until(lambda: "from another clone" in at.seen)
        await at.do("f6")
        assert "photo IMG_1.jpg at" in at.seen
        await at.say("note: sanded the lid")
        await at.do("f6")
        assert "IMG_1.jpg is at “the washers are brass” already" in at.words
    [entry] = [e for e in project(shop).snapshot.entries if e.photos]
    assert "brass" in entry.title
    assert waiting(shop) == ["idea.txt"]


async def test_the_same_key_again_links_the_photo_before_where_the_newest_is_linked(
    shop: Path, phone: Path
) -> None:
    data = load_script().photo("gate sag")
    put(phone / "IMG_2.jpg", data, LONG_AGO + timedelta(days=2))
    async with bench(shop, (100, 30)) as at:
        await at.say("note: the washers are brass")
        await at.do("f6")
        assert "photo IMG_2.jpg at" in at.words
        await at.do("f6")
        assert "F6 again links the one before it that is nowhere yet" in at.words
        await at.do("f6")
        assert "photo IMG_1.jpg at" in at.words
        await at.do("f6")
        assert "accepted: a newer photo" in at.words
        await at.do("f6")
    [entry] = [e for e in project(shop).snapshot.entries if e.photos]
    assert len(entry.photos) == 2


async def test_words_that_tell_a_failure_are_read_as_on_the_bench(
    shop: Path, phone: Path
) -> None:
    logged(shop, "part", "diffuser")
    (phone / "idea.txt").unlink()
    async with inbox(shop, (120, 30)) as at:
        await at.press("enter")
        await at.type(
            "diffuser cracked at the second screw because the washer was missing, "
            "cured with a nylon washer"
        )
        await at.do("enter", "f")
        assert "would another builder meet this?" in at.words
        assert waiting(shop) == ["IMG_1.jpg"]
        await at.do("2")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.cause is not None
    assert failure.cause.said == "the washer was missing"
    assert "nylon washer" in failure.cure
    assert (failure.part or failure.piece) is not None
    assert failure.met_by_others is Blame.PIECE
    assert failure.when == datetime(2026, 3, 14, 10, 15, 20, tzinfo=UTC)
    assert len(failure.photos) == 1
    assert waiting(shop) == []


async def test_a_question_that_is_dropped_sorts_nothing(
    shop: Path, phone: Path
) -> None:
    (phone / "idea.txt").unlink()
    async with inbox(shop, (120, 30)) as at:
        await at.press("enter")
        await at.type("the base cracked at the fold")
        await at.do("enter", "f")
        await at.do("escape")
        assert waiting(shop) == ["IMG_1.jpg"]
        assert "“the base cracked at the fold”" in at.words
        await at.do("f", "enter")
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.title == "the base cracked at the fold"
    assert failure.met_by_others is Blame.UNKNOWN


@pytest.mark.usefixtures("phone")
async def test_words_typed_at_the_question_go_with_what_is_sorted_next(
    shop: Path,
) -> None:
    async with inbox(shop, (120, 30)) as at:
        await at.press("down", "enter")
        await at.type("the base cracked at the fold")
        await at.do("enter", "f")
        await at.type("oiled the bed with linseed oil")
        await at.do("enter")
        assert "does not answer this" in at.words
        await at.do("2")
        assert waiting(shop) == ["idea.txt"]
        assert "“oiled the bed with linseed oil”" in at.words
        await at.until(
            lambda: (
                [one.text for one in drafts(shop)] == ["oiled the bed with linseed oil"]
            )
        )
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.title == "the base cracked at the fold"
    assert failure.met_by_others is Blame.PIECE


@pytest.mark.usefixtures("phone")
@pytest.mark.parametrize("taken", [(), ("enter",)], ids=["half typed", "taken"])
async def test_words_typed_before_the_window_went_away_are_shown_and_go_along(
    shop: Path, taken: tuple[str, ...]
) -> None:
    async with inbox(shop, (120, 30)) as at:
        await at.press("enter")
        await at.type("glue line starved")
        await at.press(*taken)
        await at.until(
            lambda: [one.text for one in drafts(shop)] == ["glue line starved"]
        )
    orphaned(shop)
    async with inbox(shop, (120, 30)) as at:
        assert "these words were typed here before" in at.words
        assert "“glue line starved”" in at.words
        await at.do("n")
    [note] = project(shop).snapshot.all(Note)
    assert note.title == "glue line starved"
    assert drafts(shop) == ()


@pytest.mark.usefixtures("phone")
async def test_words_of_an_item_that_is_taken_back_wait_with_it(shop: Path) -> None:
    async with inbox(shop, (120, 30)) as at:
        await at.press("enter")
        await at.type("glue line starved")
        await at.do("enter", "n", "f8")
        assert "“glue line starved”" in at.words
        await at.until(
            lambda: [one.text for one in drafts(shop)] == ["glue line starved"]
        )
        await at.do("n")
    [note] = project(shop).snapshot.all(Note)
    assert note.title == "glue line starved"
