"""What the words and records of a joint tell: its screw, its nut, its layers."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.quantity import Absent, Quantity, parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Stock
from logbook.records.sizes.definition import characteristics_of, dimension
from logbook.records.together.names import folded
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.shop.fastening.screws import read_screw, washer

THREAD = re.compile(r"\bM\d+(?:[.,]\d+)?\s*[x×]\s*\d+(?:[.,]\d+)?\b", re.IGNORECASE)
SPLIT = re.compile(r"\s*[,;]\s*|\s+and\s+")
_OTHER_NUT = re.compile(r"(?i)\b(?:rivet|wing|square|cage|t|insert|weld)[\s-]*nuts?\b")
_NUTS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), name)
    for pattern, name in (
        (r"\b(thin|low)\b.*\b(self[\s-]?locking|lock[\s-]?nut)", "thin self-locking"),
        (r"\b(self[\s-]?locking|lock[\s-]?nut)", "self-locking"),
        (r"\b(thin|jam)\s+nut|^(thin|jam)$", "thin"),
        (r"\bnuts?\b|^plain$", "plain"),
    )
)
_NAMED = re.compile(r"(?i)\b(iso|din)[\s-]*(\d{3,5})\b")
TAPPED = re.compile(r"(?i)^(?:thread(?:ed)?|tapped)\b\D*(?P<deep>\d.*)$")
BUYS = "its length is checked in the worst case, and the guide lists the joint"
"""What a joint on record gives."""


def plain_screw(fastener: str) -> str:
    """Give a screw as joints have it: M4x20."""
    return re.sub(r"\s*[x×X]\s*", "x", fastener.strip()).replace("m", "M")


def cuts(piece: str) -> Iterator[tuple[str, str]]:
    """Give each way to cut “collar 1/4 in” into a name and a size."""
    words = piece.split()
    for at in range(len(words)):
        yield " ".join(words[:at]), " ".join(words[at:])


def thickness(snapshot: Snapshot, ref: Ref, fastener: str) -> Quantity | None:
    """Give how thick a part is: as drawn, as measured, else by its stock."""
    part = snapshot.find(ref, Part)
    if part is None:
        return None
    if part.thickness is not None:
        return part.thickness
    what = thickness_size(snapshot, part)
    if what is not None:
        drawn = dimension(snapshot, current_revision(snapshot, part), what)
        if drawn.nominal is not None:
            return drawn.nominal
        if read := _read(snapshot, what):
            return read
    stock = snapshot.find(part.stock, Stock)
    bought = (stock.measured or stock.bought_as) if stock else None
    if bought is not None and bought.dimension == "length":
        return bought
    if folded(part.title) == "washer":
        thick = washer(read_screw(fastener).size, "iso7089").thick
        return parse_quantity(f"{thick:g} mm")
    return None


def thickness_size(snapshot: Snapshot, part: Part) -> Characteristic | None:
    """Give the dimension of a part that is its thickness."""
    every = characteristics_of(snapshot, part)
    return next((one for one in every if folded(one.title) == "thickness"), None)


def _read(snapshot: Snapshot, what: Characteristic) -> Quantity | None:
    """Give the newest thickness read."""
    for run in reversed(snapshot.all(Run)):
        for reading in reversed(run.readings):
            if reading.what.id == what.id and isinstance(reading.value, Quantity):
                return reading.value
    return None


def said_unknown(snapshot: Snapshot, ref: Ref) -> bool:
    """Tell whether somebody said that the thickness of a part is not measured."""
    part = snapshot.find(ref, Part)
    what = thickness_size(snapshot, part) if part else None
    return what is not None and any(
        reading.what.id == what.id and isinstance(reading.value, Absent)
        for run in snapshot.all(Run)
        for reading in run.readings
    )


def nut_in(text: str) -> str:
    """Give the nut some words mean, empty where none is sure."""
    if _OTHER_NUT.search(text):
        return ""
    if named := _NAMED.search(text):
        return f"{named[1].upper()} {named[2]}"
    return next((name for words, name in _NUTS if words.search(text)), "")
