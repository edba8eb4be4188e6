"""Printed job sheets: their boxes, kept on this machine for typing them in."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from logbook.errors import BadInput, NotFound, Refused
from logbook.publish.sheet.boxes import (
    Box,
    boxes_of_page,
    mark_of,
    read_boxes,
    write_boxes,
)
from logbook.publish.sheet.operations import JobSheet, Wanted
from logbook.publish.sheet.sheet import job_sheet
from logbook.records.kinds.place import FOLDER, PRINTED
from logbook.records.together.snapshot import Snapshot
from logbook.store.disk.flushed import make_folders, reason
from logbook.store.disk.own_files import keep_own_file, own_file
from logbook.store.disk.own_places import state_folder

_FOLDER, _END = "sheets", ".json"
_PAGE = "job-sheet-"


def keep_sheet(root: Path, sheet: JobSheet) -> None:
    """Keep the boxes of a sheet that is printed.

    Raises:
        Refused: the state folder cannot be written.
    """
    name = _name(sheet.mark)
    held, data = own_file(root, name), write_boxes(sheet.boxes, sheet.build_id)
    if held != data:
        keep_own_file(root, name, data, held)


def page_place(root: Path, mark: str) -> Path:
    """Give where the page of a sheet for the printer is written; its folder is made.

    git passes that folder over: a printed sheet is no record.

    Raises:
        Refused: the folder cannot be made.
    """
    place = _page(root, mark)
    folder = place.parent
    try:
        if not (folder / ".gitignore").exists():
            make_folders(folder)
            (folder / ".gitignore").write_text("*\n", "utf-8")
    except OSError as error:
        raise Refused(f"{folder} cannot be made: {reason(error)}") from error
    return place


def _page(root: Path, mark: str) -> Path:
    return root / FOLDER / PRINTED / f"{_PAGE}{mark}.html"


def _carried(root: Path, mark: str) -> tuple[tuple[Box, ...], str] | None:
    """Give what the page of a sheet carries that another clone printed; else None."""
    try:
        data = boxes_of_page(_page(root, mark).read_text("utf-8"))
        boxes, build = read_boxes(data) if data is not None else ((), "")
    except (OSError, UnicodeDecodeError, BadInput):
        return None
    return (boxes, build) if boxes and mark_of(boxes, build) == mark else None


def kept_marks(root: Path) -> tuple[str, ...]:
    """Give the marks of the sheets printed here, or whose page is, the newest first."""
    found = [*(state_folder(root) / _FOLDER).glob(f"*{_END}")]
    found += (root / FOLDER / PRINTED).glob(f"{_PAGE}*.html")
    found.sort(key=lambda place: place.stat().st_mtime, reverse=True)
    return tuple(dict.fromkeys(place.stem.removeprefix(_PAGE) for place in found))


def sheet_boxes(
    root: Path, snapshot: Snapshot, mark: str, wanted: Wanted | None = None
) -> tuple[tuple[Box, ...], str]:
    """Give the boxes of a printed sheet and the id of its build.

    `wanted` is what would be printed now, where that is the sheet that is meant.

    Raises:
        NotFound: it was not printed here, and would be another one by now.
    """
    if not mark.isalnum():
        raise NotFound(f"“{mark}” is no sheet; accepted: the six signs in its title")
    data = own_file(root, _name(mark))
    if data is not None:
        return read_boxes(data)
    if carried := _carried(root, mark):
        page_place(root, mark)  # git is to pass its folder over here too
        return carried
    now = job_sheet(snapshot, wanted or Wanted(), datetime.now(UTC).astimezone())
    if now.mark == mark:
        return now.boxes, now.build_id
    raise NotFound(
        f"sheet {mark} was not printed in this clone, and the records have changed "
        "since it was; accepted: to type it in where it was printed, or here once its "
        f"page is in {FOLDER}/{PRINTED}/{_PAGE}{mark}.html, or one printed anew"
    )


def _name(mark: str) -> str:
    return f"{_FOLDER}/{mark}{_END}"
