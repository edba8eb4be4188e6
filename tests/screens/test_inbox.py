"""The inbox at the screen: one key sorts a photo or a note the phone has sent."""

from __future__ import annotations

import io
import os
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image

from logbook.cli import main
from logbook.cli.demo import load_script
from logbook.records.kinds.happenings import Deviation, Entry, Failure, Note
from logbook.records.kinds.words import Blame
from logbook.screens.inbox.inbox import InboxSheet
from logbook.store.photos.inbox import Item, read_inbox
from logbook.store.photos.metadata import private_parts
from logbook.store.photos.sorted_items import remember
from logbook.store.photos.sorting import nearest
from logbook.store.typed.drafts import drafts
from logbook.store.typed.user_settings import settings_file
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged

LONG_AGO = datetime(2024, 3, 7, 10, 5, tzinfo=UTC)


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    """Give the folder of a phone: an old text, a photo with a camera's own time."""
    folder = tmp_path / "phone"
    folder.mkdir()
    place = settings_file()
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(f'photos = "{folder}"\n')
    put(folder / "idea.txt", b"\xef\xbb\xbfpan heads instead\nand washers\n", LONG_AGO)
    data = load_script().photo("diffuser crack")
    put(folder / "IMG_1.jpg", data, LONG_AGO + timedelta(days=1))
    return folder


def put(place: Path, data: bytes, when: datetime) -> None:
    place.write_bytes(data)
    os.utime(place, (when.timestamp(), when.timestamp()))


async def opened(at: Bench) -> None:
    await at.press("ctrl+l")
    await at.settle()
    assert isinstance(at.app.screen, InboxSheet)


def waiting(shop: Path) -> list[str]:
    return [item.name for item in read_inbox(shop, project(shop).snapshot).items]


def photos(shop: Path) -> list[Path]:
    return sorted((shop / "as-built/photos").glob("*"))


async def test_a_text_becomes_a_note_at_its_own_time(shop: Path, phone: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        assert "pan heads instead" in at.seen
        await at.press("n")
        await at.settle()
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
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("down", "enter")
        await at.type("the diffuser cracked")
        await at.press("enter", "f", "enter")
        await at.settle()
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.title == "the diffuser cracked"
    [photo] = failure.photos
    assert (shop / photo.path).is_file()
    for made in photos(shop):
        assert private_parts(made.read_bytes()) == ()
        assert made.read_bytes() != raw
    assert project(shop).commit_waiting() is not None
    assert (phone / "IMG_1.jpg").read_bytes() == raw


async def test_words_being_typed_for_an_item_are_kept_until_they_are_on_record(
    shop: Path, phone: Path
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("down", "enter")
        await at.type("the diffuser cracked")
        await at.until(
            lambda: [one.text for one in drafts(shop)] == ["the diffuser cracked"]
        )
        await at.press("enter", "f", "enter")
        await at.settle()
    assert drafts(shop) == ()


async def test_one_key_links_a_photo_to_the_entry_nearest_in_time(
    shop: Path, phone: Path
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("down", "l")
        await at.settle()
    entries = [e for e in project(shop).snapshot.entries if e.photos]
    assert len(entries) == 1
    assert waiting(shop) == ["idea.txt"]


async def test_a_text_is_linked_to_another_entry_that_is_chosen(
    shop: Path, phone: Path
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("e")
        await at.settle()
        await at.type("should be")
        await at.press("enter")
        await at.settle()
    found = [e for e in project(shop).snapshot.entries if "pan heads" in e.prose]
    assert [type(one) for one in found] in ([Deviation], [type(found[0])])
    assert "and washers" in found[0].prose


async def test_a_photo_is_put_to_a_part(shop: Path, phone: Path) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("down", "p")
        await at.settle()
        await at.type("base")
        await at.press("enter")
        await at.settle()
    [note] = project(shop).snapshot.all(Note)
    assert note.part is not None
    assert note.part.name == "base"
    assert note.title.startswith("photo of ")


async def test_the_list_of_keys_has_the_letters_too(shop: Path, phone: Path) -> None:
    del phone
    async with bench(shop, (80, 40)) as at:
        await opened(at)
        await at.press("f1")
        for said in ("link to it", "note of a part", "off the list"):
            assert said in at.seen


async def test_skipping_goes_on_and_throwing_away_leaves_the_file(
    shop: Path, phone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("s", "x")
        await at.settle()
        assert "the file stays in" in " ".join(at.seen.split())
        assert waiting(shop) == ["idea.txt"]
    assert (phone / "IMG_1.jpg").exists()
    assert main(["inbox", "--in", str(shop), "--again", "IMG_1.jpg"]) == 0
    assert "IMG_1.jpg" in capsys.readouterr().out
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


async def test_what_was_taken_back_waits_again(shop: Path, phone: Path) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("n")
        await at.settle()
        await at.press("f8")
        await at.settle()
        assert "idea.txt" in at.seen
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


async def test_what_was_thrown_away_last_comes_back_first(
    shop: Path, phone: Path
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("l")
        await at.settle()
        assert "pan heads" in "".join(e.prose for e in entries(shop))
        await at.press("x")
        await at.settle()
        assert "F8 brings it back" in at.words
        assert waiting(shop) == []
        await at.press("f8")
        await at.settle()
        assert "IMG_1.jpg waits again" in at.words
        assert waiting(shop) == ["IMG_1.jpg"]
        assert "pan heads" in "".join(e.prose for e in entries(shop))
        await at.press("f8")
        await at.settle()
        assert "pan heads" not in "".join(e.prose for e in entries(shop))
        assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]
        assert "idea.txt" in at.seen


def entries(shop: Path) -> Sequence[Entry]:
    return project(shop).snapshot.entries


@pytest.mark.parametrize("where", ["at the bench", "in the shell"])
async def test_an_item_whose_link_is_taken_back_anywhere_waits_again(
    shop: Path, phone: Path, where: str
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await at.press("f6")
        await at.settle()
        assert waiting(shop) == ["idea.txt"]
        await opened(at)
        await at.press("l")
        await at.settle()
        assert waiting(shop) == []
        await at.press("escape")
        if where == "at the bench":
            await at.press("f8")
            await at.settle()
    if where == "in the shell":
        logged(shop, "undo")
    assert waiting(shop) == ["idea.txt"]
    logged(shop, "undo")
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


async def test_a_file_that_is_no_picture_is_refused_and_stays(
    shop: Path, phone: Path
) -> None:
    put(phone / "broken.jpg", b"no picture", LONG_AGO - timedelta(days=1))
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        await at.press("n")
        await at.settle()
        assert "is not a picture that can be read" in " ".join(at.seen.split())
        assert "broken.jpg" in at.seen
    assert not project(shop).snapshot.all(Note)


async def test_without_a_folder_the_screen_says_how_to_set_one(shop: Path) -> None:
    async with bench(shop, (100, 30)) as at:
        await opened(at)
        assert "no folder is set" in at.seen
        await at.press("n", "x", "l", "enter", "escape")
        await at.settle()
        assert at.line.has_focus


# -- the folder ------------------------------------------------------------------


def only(shop: Path, name: str) -> Item:
    found = read_inbox(shop, project(shop).snapshot)
    return next(item for item in found.items if item.name == name)


def test_a_time_still_to_come_is_not_believed(shop: Path, phone: Path) -> None:
    later = datetime.now(UTC) + timedelta(days=300)
    put(phone / "later.txt", b"x", later)
    out = io.BytesIO()
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = f"{later:%Y:%m:%d %H:%M:%S}"
    Image.new("RGB", (8, 8)).save(out, "JPEG", exif=exif)
    put(phone / "later.jpg", out.getvalue(), LONG_AGO)
    assert only(shop, "later.txt").when <= datetime.now(UTC)
    assert "dated in the future" in only(shop, "later.txt").doubt
    assert only(shop, "later.jpg").when == LONG_AGO
    assert "still to come" in only(shop, "later.jpg").doubt


def test_what_is_hidden_empty_or_on_its_way_is_not_listed(
    shop: Path, phone: Path
) -> None:
    for name in (".hidden.jpg", "half.jpg.part", "~lock.txt"):
        put(phone / name, b"x", LONG_AGO)
    put(phone / "empty.txt", b"", LONG_AGO)
    (phone / "folder.jpg").mkdir()
    assert waiting(shop) == ["idea.txt", "IMG_1.jpg"]


def test_pictures_that_cannot_be_taken_in_are_named(shop: Path, phone: Path) -> None:
    put(phone / "IMG_2.HEIC", b"x", LONG_AGO)
    [remark] = read_inbox(shop, project(shop).snapshot).remarks
    assert "1 picture cannot be taken in (IMG_2.HEIC)" in remark


def test_a_renamed_photo_that_was_sorted_does_not_come_back(
    shop: Path, phone: Path
) -> None:
    entry: Entry = project(shop).snapshot.entries[0]
    remember(shop, only(shop, "IMG_1.jpg").identity, entry.id)
    (phone / "IMG_1.jpg").rename(phone / "IMG_1 copy.jpg")
    assert waiting(shop) == ["idea.txt"]


def test_a_folder_in_the_repository_is_warned_of_until_git_ignores_it(
    shop: Path,
) -> None:
    folder = shop / "phone"
    folder.mkdir()
    settings_file().parent.mkdir(parents=True, exist_ok=True)
    settings_file().write_text(f'photos = "{folder}"\n')
    [remark] = read_inbox(shop, project(shop).snapshot).remarks
    assert "/phone/ in .gitignore" in remark
    (shop / ".gitignore").write_text("/phone/\n")
    assert read_inbox(shop, project(shop).snapshot).remarks == ()


def test_a_folder_among_the_records_and_none_at_all_are_refused(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    settings_file().parent.mkdir(parents=True, exist_ok=True)
    for place, says in (
        (shop / "as-built/notes", "is no folder"),
        (shop / "as-built/parts", "lies among the records"),
    ):
        settings_file().write_text(f'photos = "{place}"\n')
        assert main(["inbox", "--in", str(shop)]) == 2
        assert says in capsys.readouterr().err


def test_the_list_is_for_programs_too(
    shop: Path, phone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["inbox", "--in", str(shop), "--json"]) == 0
    told = capsys.readouterr().out
    assert '"file": "idea.txt"' in told
    assert str(phone) in told


async def test_the_newest_photo_goes_to_what_was_typed_here_and_waits_no_more(
    shop: Path, phone: Path
) -> None:
    del phone
    async with bench(shop, (100, 30)) as at:
        await at.say("note: the washers are brass")
        logged(shop, "note", "from another clone, and newer")
        await at.until(lambda: "from another clone" in at.seen)
        await at.press("f6")
        await at.settle()
        assert "photo IMG_1.jpg at" in at.seen
        await at.say("note: sanded the lid")
        await at.press("f6")
        await at.settle()
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
        await at.press("f6")
        await at.settle()
        assert "photo IMG_2.jpg at" in at.words
        await at.press("f6")
        await at.settle()
        assert "F6 again links the one before it that is nowhere yet" in at.words
        await at.press("f6")
        await at.settle()
        assert "photo IMG_1.jpg at" in at.words
        await at.press("f6")
        await at.settle()
        assert "accepted: a newer photo" in at.words
        await at.press("f6")
        await at.settle()
    [entry] = [e for e in project(shop).snapshot.entries if e.photos]
    assert len(entry.photos) == 2


async def test_words_that_tell_a_failure_are_read_as_on_the_bench(
    shop: Path, phone: Path
) -> None:
    logged(shop, "part", "diffuser")
    (phone / "idea.txt").unlink()
    async with bench(shop, (120, 30)) as at:
        await opened(at)
        await at.press("enter")
        await at.type(
            "diffuser cracked at the second screw because the washer was missing, "
            "cured with a nylon washer"
        )
        await at.press("enter", "f")
        await at.settle()
        assert "would another builder meet this?" in at.words
        assert waiting(shop) == ["IMG_1.jpg"]
        await at.press("2")
        await at.settle()
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
    async with bench(shop, (120, 30)) as at:
        await opened(at)
        await at.press("enter")
        await at.type("the base cracked at the fold")
        await at.press("enter", "f")
        await at.settle()
        await at.press("escape")
        await at.settle()
        assert waiting(shop) == ["IMG_1.jpg"]
        assert "“the base cracked at the fold”" in at.words
        await at.press("f", "enter")
        await at.settle()
    [failure] = project(shop).snapshot.all(Failure)
    assert failure.title == "the base cracked at the fold"
    assert failure.met_by_others is Blame.UNKNOWN


def test_a_photo_belongs_rather_to_what_was_typed_behind_it() -> None:
    at = datetime(2024, 3, 7, 10, 0, tzinfo=UTC)
    before = Note(id="a", title="before", when=at - timedelta(minutes=1))
    behind = Note(id="b", title="behind", when=at + timedelta(minutes=2))
    late = Note(id="c", title="late", when=at + timedelta(minutes=9))
    item = Item("1", Path("IMG.jpg"), is_photo=True, when=at)
    assert nearest([before, behind], item) is behind
    assert nearest([before, late], item) is before
    assert nearest([], item) is None
