"""The inbox: photos and notes a phone has put into a folder, waiting to be sorted.

The folder is the user's own, set in his settings. Nothing in it is ever moved,
changed or deleted here, and nothing of it goes into git as it is: a photo that is
sorted is cleaned first. What was sorted is remembered outside the repository.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

from logbook.errors import BadInput, Refused
from logbook.records.kinds.place import FOLDER
from logbook.records.together.snapshot import Snapshot
from logbook.store.disk.flushed import reason
from logbook.store.git.command import ask
from logbook.store.git.repository import Repository
from logbook.store.photos.cleaned import taken_at
from logbook.store.photos.sorted_items import sorted_by_sisters, sorted_items
from logbook.store.typed.user_settings import read_settings, settings_file

PHOTOS = {".jpg", ".jpeg", ".png"}
TEXTS = {".txt", ".md"}
_OTHER_PICTURES = {".heic", ".heif", ".webp", ".gif", ".tif", ".tiff", ".dng"}
_HALF_DONE = (".part", ".tmp", ".crdownload", ".partial")
_HEAD = 128_000
SORTED_IN = "sorted in "
"""Before the folder of the design an item was sorted in."""
_LONGEST_TEXT = 200_000


@dataclass(frozen=True, slots=True)
class Item:
    """A photo or a text that waits; `when` is the photo's own time, or the file's.

    `doubt` says in words why another time was taken, empty where none was.
    `became` is the id of the record it became, `thrown away`, in which other design it
    was sorted, or empty.
    """

    identity: str
    place: Path
    is_photo: bool
    when: datetime
    words: str = ""
    doubt: str = ""
    became: str = ""

    @property
    def name(self) -> str:
        """Give the name of the file."""
        return self.place.name


@dataclass(frozen=True, slots=True)
class Inbox:
    """What waits, oldest first; `remarks` are whole sentences."""

    folder: Path
    items: tuple[Item, ...]
    remarks: tuple[str, ...] = ()


def inbox_folder() -> Path:
    """Give the folder things arrive in.

    Raises:
        BadInput: none is set, or it is no folder.
    """
    said = read_settings().photos
    if not said:
        raise BadInput(
            "no folder is set that photos and notes arrive in; accepted: "
            f'photos = "~/Pictures" in {settings_file()}'
        )
    folder = Path(said).expanduser()
    if not folder.is_dir():
        raise BadInput(
            f"{folder} is no folder; accepted: another one for photos in "
            f"{settings_file()}"
        )
    return folder


def read_inbox(root: Path, snapshot: Snapshot, *, everything: bool = False) -> Inbox:
    """List what waits to be sorted; with `everything` what was sorted too.

    What became a record waits again when that record was taken back; what is sorted in
    another design of the repository does not wait here.

    Raises:
        BadInput: no folder is set, or it lies where records lie.
        Refused: it cannot be read.
    """
    folder = inbox_folder()
    if folder.resolve().is_relative_to((root / FOLDER).resolve()):
        raise BadInput(
            f"{folder} lies among the records; accepted: a folder outside {FOLDER}/"
        )
    try:
        files = sorted(place for place in folder.iterdir() if _whole(place))
    except OSError as error:
        raise Refused(f"{folder} cannot be read: {reason(error)}") from error
    repository = Repository.find(root)
    sisters = sorted_by_sisters(repository, root) if repository else {}
    became = {one: f"{SORTED_IN}{_called(name)}" for one, name in sisters.items()}
    became |= sorted_items(root, snapshot)
    items = [
        replace(item, became=became.get(item.identity, "")) for item in _items(files)
    ]
    kept = [item for item in items if everything or not item.became]
    kept.sort(key=lambda item: (item.when, item.name))
    return Inbox(folder, tuple(kept), tuple(_remarks(folder, root, files)))


def _called(folder: str) -> str:
    return "the design at the top of the repository" if folder == "." else folder


def _whole(place: Path) -> bool:
    """Tell a file that has arrived from one still on its way, or hidden."""
    name = place.name.lower()
    if name.startswith((".", "~")) or name.endswith(_HALF_DONE):
        return False
    try:
        return place.is_file() and place.stat().st_size > 0
    except OSError:
        return False


def item_of(place: Path) -> Item | None:
    """Give a file of the folder as an item; None where it is none, or gone."""
    return next(_items([place]), None)


def _items(files: Iterable[Path]) -> Iterator[Item]:
    now = datetime.now(UTC).astimezone()
    for place in files:
        sort = place.suffix.lower()
        if sort not in PHOTOS | TEXTS:
            continue
        try:
            stat = place.stat()
            head = _head(place)
        except OSError:
            continue
        is_photo = sort in PHOTOS
        arrived = datetime.fromtimestamp(stat.st_mtime, UTC).astimezone()
        when, doubt = _time(taken_at(place) if is_photo else None, arrived, now)
        own = b"" if is_photo else place.name.encode("utf-8", "surrogateescape")
        mark = sha256(b"%d\0%s\0%s" % (stat.st_size, own, head)).hexdigest()[:32]
        yield Item(mark, place, is_photo, when, "" if is_photo else _first(head), doubt)


def _head(place: Path) -> bytes:
    with place.open("rb") as file:
        return file.read(_HEAD)


def _first(head: bytes) -> str:
    lines = head.decode("utf-8-sig", "replace").splitlines()
    return next((line.strip()[:200] for line in lines if line.strip()), "")


def _time(
    taken: datetime | None, arrived: datetime, now: datetime
) -> tuple[datetime, str]:
    """Give the instant of an item; none of the future is believed."""
    if taken is not None and taken <= now:
        return taken, ""
    doubt = ""
    if taken is not None:
        doubt = f"its camera says {taken:%Y-%m-%d %H:%M}, which is still to come"
    if arrived <= now:
        return arrived, doubt
    return now, doubt or "its file is dated in the future"


def _remarks(folder: Path, root: Path, files: Iterable[Path]) -> Iterator[str]:
    others = [p.name for p in files if p.suffix.lower() in _OTHER_PICTURES]
    if others:
        named = ", ".join(others[:3]) + (" …" if len(others) > 3 else "")
        count = f"{len(others)} picture" + ("s" if len(others) > 1 else "")
        yield f"{count} cannot be taken in ({named}); accepted: JPEG or PNG"
    repository = Repository.find(root)
    if repository is None or not folder.resolve().is_relative_to(repository.top):
        return
    inside = repository.relative(folder)
    if not ask(repository.top, "check-ignore", "-q", "--", inside).good:
        yield (
            f"{folder} lies in the repository and git does not ignore it, so a "
            f"“git add” of yours would take photos as they are; accepted: /{inside}/ "
            "in .gitignore"
        )


def read_text(item: Item) -> str:
    """Give the whole text of an item.

    Raises:
        BadInput: it cannot be read, or is longer than a note.
    """
    try:
        size = item.place.stat().st_size
        if size > _LONGEST_TEXT:
            raise BadInput(
                f"{item.name} has {size // 1000} kB; accepted: a text of at most "
                f"{_LONGEST_TEXT // 1000} kB"
            )
        return item.place.read_bytes().decode("utf-8-sig", "replace").strip()
    except OSError as error:
        raise BadInput(
            f"{item.name} cannot be read: {reason(error)}; accepted: a file that is "
            "still there"
        ) from None
