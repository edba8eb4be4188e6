"""Which files of the folder wait, and where the folder may lie."""

from __future__ import annotations

import io
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image

from logbook.cli import main
from logbook.records.kinds.happenings import Entry, Note
from logbook.store.photos.inbox import Item, read_inbox
from logbook.store.photos.sorted_items import remember
from logbook.store.photos.sorting import nearest
from logbook.store.typed.user_settings import settings_file
from tests.screens.bench_keys import project
from tests.screens.inbox.phone import LONG_AGO, inbox, only, put, waiting


async def test_a_file_that_is_no_picture_is_refused_and_stays(
    shop: Path, phone: Path
) -> None:
    put(phone / "broken.jpg", b"no picture", LONG_AGO - timedelta(days=1))
    async with inbox(shop) as at:
        await at.do("n")
        assert "is not a picture that can be read" in " ".join(at.seen.split())
        assert "broken.jpg" in at.seen
    assert not project(shop).snapshot.all(Note)


async def test_without_a_folder_the_screen_says_how_to_set_one(shop: Path) -> None:
    async with inbox(shop) as at:
        assert "no folder is set" in at.seen
        await at.do("n", "x", "l", "enter", "escape")
        assert at.line.has_focus


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


def test_a_photo_belongs_rather_to_what_was_typed_behind_it() -> None:
    at = datetime(2024, 3, 7, 10, 0, tzinfo=UTC)
    before = Note(id="a", title="before", when=at - timedelta(minutes=1))
    behind = Note(id="b", title="behind", when=at + timedelta(minutes=2))
    late = Note(id="c", title="late", when=at + timedelta(minutes=9))
    item = Item("1", Path("IMG.jpg"), is_photo=True, when=at)
    assert nearest([before, behind], item) is behind
    assert nearest([before, late], item) is before
    assert nearest([], item) is None
