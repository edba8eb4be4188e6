"""How a job sheet is shown while it is typed in: its boxes, step by step."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from logbook.publish.sheet.boxes import WORKED, Box, Sort
from logbook.publish.sheet.sheet_back import TICKED
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.listing import Line

ASKED = {
    Sort.READING: "the value; n: not measured",
    Sort.OVER: "x: it does not hold any more; Enter leaves it blank",
    Sort.PASSED: "why you went on past it, if you did",
    Sort.CHECK: "x: looked at, n: it was not; Enter leaves it blank",
    Sort.DONE: "x: it is done; Enter leaves it blank",
    Sort.TIME: "how long it took: 25 min",
    Sort.NOTE: "what is worth a note",
    Sort.WORKED: "yesterday 16:00, or 2026-03-14 16:00; blank: the moment it is saved",
}
"""What a box of each sort takes."""

ON_RECORD = "on record"
"""What is said of a box that was typed in and saved before."""

UNTICK = "ticked; n takes the tick away, Enter leaves it"
"""What a box takes that is ticked already."""


def asked_in(typing: SheetTyping, box: Box) -> str:
    """Say what may be typed in a box as it stands."""
    if box.sort in {Sort.OVER, Sort.DONE} and typing.texts.get(box.number):
        return UNTICK
    return ASKED[box.sort]


def operation_of(snapshot: Snapshot, box: Box | None) -> str:
    """Say which step a box is of."""
    if box is None:
        return "every box was gone through"
    if box.sort is Sort.WORKED:
        return "the head of the sheet"
    before = "before you close: " if box.sort is Sort.CHECK else ""
    return f"{before}{step_title(snapshot, box)}"


def rows_of_sheet(
    typing: SheetTyping, snapshot: Snapshot, doubted: Mapping[int, str]
) -> Iterator[Line]:
    """Give a row for each box, under the step it is of; its values stand in a column.

    `doubted` has what was typed in a box and not taken, by its number.
    """
    worked = typing.texts.get(WORKED.number, "the moment it is saved")
    yield Line("-1", str(WORKED.number), f"{WORKED.label}: {worked}")
    step, wide = None, Counter[str]()
    for box in typing.boxes:
        if box.sort is Sort.READING:
            wide[box.step] = max(wide[box.step], len(box.label))
    for at, box in enumerate(typing.boxes):
        if box.step != step:
            step = box.step
            yield Line(f"step {at}", "", step_title(snapshot, box).upper())
        said = _said(typing, snapshot, box, doubted.get(box.number, ""))
        if box.sort is Sort.READING and said.startswith(f"{box.label}  "):
            said = said.replace(box.label, box.label.ljust(wide[box.step]), 1)
        yield Line(str(at), str(box.number), said, box.owner)


def _said_saved(box: Box, text: str) -> str:
    """Say what was typed in a box of this sheet before and is on record."""
    if box.sort in TICKED:
        return f"[{text}] {box.label}  {ON_RECORD}"
    between = "  " if box.sort is Sort.READING else ": "
    return f"{box.label}{between}{text}  {ON_RECORD}"


def step_title(snapshot: Snapshot, box: Box) -> str:
    """Name the step a box is of."""
    return _title(snapshot, box.step) or "readings"


def _title(snapshot: Snapshot, identity: str) -> str:
    named = snapshot.by_id(identity)
    return named.title if named else ""


def _said(typing: SheetTyping, snapshot: Snapshot, box: Box, doubted: str) -> str:
    """Say what a box asks for, and what was typed in it."""
    text = typing.texts.get(box.number, "")
    if not text and box.number in typing.saved:
        return _said_saved(box, typing.saved[box.number])
    if box.sort in TICKED:
        word = "before you close: " if box.sort is Sort.CHECK else ""
        of = f" ({_title(snapshot, box.about)})" if box.sort is Sort.OVER else ""
        return f"[{text or ' '}] {word}{box.label}{of}"
    if box.sort is not Sort.READING:
        of = _title(snapshot, box.about) if box.sort is Sort.PASSED else ""
        said = f"{box.label} ({of})" if of else box.label
        return f"{said}: {text}" if text else said
    if doubted and not text:
        return f"{box.label}  {doubted} not taken"
    if not text:
        hint = f"  {'; '.join(typing.wanted(box, snapshot))}" if box.drawn else ""
        return f"{box.label}{hint}"
    verdict = typing.judged(box, snapshot)
    whose = typing.blames.get(box.number)
    logged = f"  deviation: {whose.value}" if whose else ""
    beside = f"  {doubted} not taken" if doubted else ""
    return f"{box.label}  {text}  {verdict}{logged}".rstrip() + beside
