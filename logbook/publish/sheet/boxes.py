"""The boxes of a job sheet: what is written by hand in each, numbered as printed.

A box knows which fact it asks for, so that a number typed in later finds its
place even when the records have grown meanwhile.
"""

from __future__ import annotations

import json
import re
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass, fields
from enum import StrEnum

from logbook.errors import BadInput
from logbook.publish.pages import visible
from logbook.records.written.text import digest

MARK_LENGTH = 6
SHEET = "job sheet "
"""How the subject of a sheet that was typed in begins; its mark follows."""


class Sort(StrEnum):
    """What a box asks for."""

    READING = "reading"
    OVER = "over"
    PASSED = "went on because"
    CHECK = "check"
    DONE = "done"
    TIME = "minutes"
    NOTE = "note"
    WORKED = "worked on"


@dataclass(frozen=True, slots=True)
class Box:
    """One box: `number` as printed, `label` what stands beside it.

    `about` is the id of the record it asks about (a dimension, a wait, a step),
    `step` the id of its operation. `piece` is a piece's title, or `new 1`, `new 2`
    for one not on record yet. `unit` is meant where a reading names none.
    """

    number: int
    sort: Sort
    label: str
    about: str = ""
    step: str = ""
    part: str = ""
    piece: str = ""
    place: str = ""
    word: str = ""
    drawn: str = ""
    accept: str = ""
    unit: str = ""

    @property
    def owner(self) -> str:
        """Name the piece a reading is of; one not on record is a new one."""
        return visible(f"{self.part}, {self.piece}" if self.is_new else self.piece)

    @property
    def limits(self) -> str:
        """Say what is accepted, or that the drawing gives no limits."""
        return f"accept {self.accept}" if self.accept[:2] != "no" else self.accept

    @property
    def is_new(self) -> bool:
        """Tell whether the piece was not on record when the sheet was printed."""
        return self.piece.startswith("new ")


WORKED = Box(0, Sort.WORKED, "worked on (day, hour)")
"""What stands in the head of every sheet, before the numbered boxes."""


def of_sort(boxes: Iterable[Box], sort: Sort) -> Iterator[Box]:
    """Give the boxes of one sort, in printed order."""
    return (box for box in boxes if box.sort is sort)


def mark_of(boxes: Sequence[Box], build: str) -> str:
    """Give the mark a sheet is known by: of its boxes and its build."""
    return digest(_written(boxes, build).encode())[:MARK_LENGTH]


def write_boxes(boxes: Sequence[Box], build: str) -> bytes:
    """Give the boxes of a sheet as a file."""
    return _written(boxes, build).encode()


def in_page(boxes: Sequence[Box], build: str) -> str:
    """Give the boxes of a sheet as its page carries them to another clone."""
    return b64encode(write_boxes(boxes, build)).decode("ascii")


_IN_PAGE = re.compile(r'data-boxes="([A-Za-z0-9+/=]+)"')


def boxes_of_page(text: str) -> bytes | None:
    """Give the boxes a page carries, as `write_boxes` does; None where it has none."""
    found = _IN_PAGE.search(text)
    try:
        return b64decode(found[1], validate=True) if found else None
    except ValueError:
        return None


def _written(boxes: Sequence[Box], build: str) -> str:
    content = {"build": build, "boxes": [asdict(box) for box in boxes]}
    return json.dumps(content, ensure_ascii=False, indent=1)


def read_boxes(data: bytes) -> tuple[tuple[Box, ...], str]:
    """Read the boxes of a sheet and the id of its build.

    Raises:
        BadInput: the file is not one that `write_boxes` made.
    """
    names = {field.name for field in fields(Box)}
    try:
        content = json.loads(data)
        rows: Iterable[dict[str, str]] = content["boxes"]
        boxes = tuple(
            Box(**{**row, "sort": Sort(row["sort"])})  # type: ignore[arg-type]
            for row in rows
            if set(row) <= names
        )
        return boxes, str(content["build"])
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise BadInput(
            f"the kept boxes of this sheet cannot be read ({error}); "
            "accepted: the sheet printed again"
        ) from None
