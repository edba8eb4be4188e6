"""All that is known of a part, as rows: each leads to the record it speaks of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from logbook.advice.faults.holding import same_content
from logbook.advice.ground.naming import formula_of, meant
from logbook.errors import BadInput
from logbook.quantity import Absent, Quantity
from logbook.records import assembling
from logbook.records.assembling import Fit
from logbook.records.definition import Dimension, definition
from logbook.records.design import DesignFile, Part, Revision
from logbook.records.dispositions import undisposed
from logbook.records.happenings import Deviation, Entry, Failure
from logbook.records.limits_held import as_held, held_text
from logbook.records.pieces import Taken, piece_state, pieces_of, readings_of
from logbook.records.record import Record
from logbook.records.references import part_of
from logbook.records.revisions import current_revision, revisions_of, shown_label
from logbook.records.snapshot import Snapshot
from logbook.records.tried import verdict_of
from logbook.records.verdict_word import judged
from logbook.records.workshop import Piece
from logbook.screens.desk.facts import drawn_for, uncertainty
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.rows import MARGIN
from logbook.screens.ruled.strip import strip

VALUE = 9
"""Columns a value takes before its strip."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A part of a snapshot; `files` are those on disk, None while they are read."""

    snapshot: Snapshot
    part: Part
    width: int
    files: Mapping[str, DesignFile] | None


def lines_of(asked: Asked) -> Iterator[Line]:
    """Give everything known of a part, section by section."""
    for section in (
        _itself,
        _revisions,
        _sizes,
        _pieces,
        _wrong,
        _photos,
        _files,
        _use,
    ):
        yield from section(asked)


def is_section(line: Line) -> bool:
    """Tell whether a row begins a section."""
    return bool(line.label) and not line.label.startswith(" ")


def _key(record: Record, more: str = "") -> str:
    return f"record {record.id} {more}".strip()


def _itself(asked: Asked) -> Iterator[Line]:
    part = asked.part
    facts = [
        "an assembly" if part.assembly else part.source.value,
        ", ".join(part.process),
        part.material,
        f"{part.thickness} thick" if part.thickness else "",
        "wears out" if part.wears else "",
    ]
    yield Line(_key(part), "part", " · ".join(filter(None, (part.title, *facts))))


def _revisions(asked: Asked) -> Iterator[Line]:
    for at, one in enumerate(reversed(revisions_of(asked.snapshot, asked.part))):
        label = "revisions" if not at else ""
        verdict = verdict_of(asked.snapshot, one)
        what = one.changed or "; ".join(_changes(one)) or "as first drawn"
        words = f"{shown_label(one)}, {verdict}: {what}"
        yield Line(_key(one), label, words)
        if one.follows or one.remake or one.mates_with:
            remake = f"  remake: {one.remake or 'not said'}"
            mates = f"  mates: {', '.join(one.mates_with) or 'not said'}"
            yield Line(_key(one, "remake"), "", remake)
            yield Line(_key(one, "mates"), "", mates)
        if one.changed and one.changes:
            yield Line(_key(one, "sizes"), "", f"  {'; '.join(_changes(one))}")
        if one.why:
            yield Line(_key(one, "why"), "", f"  why: {one.why}")


def _changes(revision: Revision) -> Iterator[str]:
    for change in revision.changes:
        name = change.characteristic.name
        if change.withdrawn:
            yield f"{name} withdrawn"
        else:
            was = f"{change.was} → " if change.was else ""
            now = "made to suit" if change.to_suit else "other limits"
            yield f"{name} {was}{change.becomes or now}"


# -- dimension by piece ----------------------------------------------------------


def _sizes(asked: Asked) -> Iterator[Line]:
    revision = current_revision(asked.snapshot, asked.part)
    drawn = definition(asked.snapshot, revision) if revision else ()
    for at, one in enumerate(drawn):
        label = "sizes" if not at else ""
        critical = ", critical" if one.characteristic.critical else ""
        words = f"{one.name}: {held_text(as_held(asked.snapshot, one))}{critical}"
        yield Line(_key(one.characteristic), label, words)
        yield from _measured(asked, one)


def _measured(asked: Asked, one: Dimension) -> Iterator[Line]:
    """Give the last reading at each place of each piece, one under the other."""
    for piece in pieces_of(asked.snapshot, asked.part):
        last: dict[str, Taken] = {}
        for taken in readings_of(asked.snapshot, piece, one.characteristic):
            last[taken.reading.place] = taken
        wide = max(map(len, last), default=0)
        for place, taken in last.items():
            words = _reading(asked, piece, taken, place.ljust(wide))
            key = _key(taken.run, f"{piece.id} {one.characteristic.id} {place}")
            yield Line(key, _shortened(piece.title), words)
        if not last:
            yield from _found(asked, piece, one)


def _shortened(title: str) -> str:
    """Give a piece's name for the margin; its end, with the number, stays."""
    return title if len(title) < MARGIN - 1 else "…" + title[3 - MARGIN :]


def _found(asked: Asked, piece: Piece, one: Dimension) -> Iterator[Line]:
    """Give what a deviation says of a size that was never read by itself."""
    for entry in asked.snapshot.mentions(piece):
        if (
            isinstance(entry, Deviation)
            and entry.found is not None
            and asked.snapshot.find(entry.characteristic) is one.characteristic
        ):
            drawn = drawn_for(asked.snapshot, piece, entry.characteristic)
            words = (
                f"{entry.found} as found  {_verdict(asked, piece, drawn, entry.found)}"
            )
            yield Line(
                _key(entry, one.characteristic.id), _shortened(piece.title), words
            )


def _verdict(
    asked: Asked,
    piece: Piece,
    drawn: Dimension | None,
    value: Quantity,
    doubt: Quantity | None = None,
) -> str:
    """Say where a value stands, and by which revision where not the current one."""
    said = judged(drawn, value, doubt)
    own = asked.snapshot.find(piece.revision, Revision)
    now = current_revision(asked.snapshot, asked.part)
    if own is None or now is None or own.id == now.id:
        return said
    return f"{said} ({shown_label(own)})"


def _reading(asked: Asked, piece: Piece, taken: Taken, place: str) -> str:
    value, reading = taken.reading.value, taken.reading
    if isinstance(value, Absent):
        return f"{place} {value.value}".strip()
    drawn = drawn_for(asked.snapshot, piece, reading.what)
    doubt = uncertainty(asked.snapshot, taken.run, reading)
    said = _verdict(asked, piece, drawn, value, doubt)
    head = " ".join(filter(None, (place, str(value).rjust(VALUE))))
    if drawn is None or not drawn.has_limits:
        return f"{head}  {said}"
    room = asked.width - len(head) - len(said) - 20
    return f"{head}  {_strip(drawn, value, room)}  {said}"


def _strip(drawn: Dimension, value: Quantity, room: int) -> str:
    """Draw the strip without the limits, which stand in the row of the dimension."""
    ends = len(str(drawn.lower or "")) + len(str(drawn.upper or ""))
    by = len(f" by {drawn.limits_by}") if drawn.limits_by else 0
    whole = strip(drawn, value, max(room, 0) + ends + by)
    start = whole.find("├")
    return whole[max(start - 1, 0) : whole.rfind("┤") + 2] if start > 0 else ""


def _pieces(asked: Asked) -> Iterator[Line]:
    for at, piece in enumerate(pieces_of(asked.snapshot, asked.part)):
        revision = asked.snapshot.find(piece.revision, Revision)
        facts = [
            piece.title,
            str(piece_state(asked.snapshot, piece)),
            f"of {shown_label(revision)}" if revision else "of no revision",
            piece.build.name if piece.build else "",
            f"at {piece.place}" if piece.place else "",
        ]
        words = " · ".join(filter(None, facts))
        yield Line(_key(piece), "pieces" if not at else "", words)


# -- what happened to it ---------------------------------------------------------


def _entries(asked: Asked) -> list[Entry]:
    found = [
        e for e in asked.snapshot.entries if part_of(asked.snapshot, e) is asked.part
    ]
    return found[::-1]


def _wrong(asked: Asked) -> Iterator[Line]:
    open_ones = {fault.id for fault in undisposed(asked.snapshot)}
    label = "went wrong"
    for entry in _entries(asked):
        if not isinstance(entry, Deviation | Failure):
            continue
        done = entry.disposition.value if entry.disposition else ""
        if not done:
            done = "undecided" if entry.id in open_ones else "decided"
        words = f"{done} · {entry.met_by_others.value} · {entry.title}"
        yield Line(_key(entry), label, words)
        label = ""
        if isinstance(entry, Failure) and entry.cure:
            yield Line(_key(entry, "cure"), "", f"  cure: {entry.cure}")


def _photos(asked: Asked) -> Iterator[Line]:
    label, seen = "photos", set[str]()
    now = current_revision(asked.snapshot, asked.part)
    for entry in _entries(asked):
        for photo in entry.photos:
            if photo.path in seen:
                continue
            seen.add(photo.path)
            shows = asked.snapshot.find(photo.shows, Revision)
            stale = ""
            if shows is not None and now is not None and shows.id != now.id:
                stale = f" (shows {shown_label(shows)}, now {shown_label(now)})"
            words = f"{photo.caption or PurePosixPath(photo.path).name}{stale}"
            yield Line(_key(entry, photo.path), label, words)
            label = ""


def _files(asked: Asked) -> Iterator[Line]:
    revision = current_revision(asked.snapshot, asked.part)
    for at, file in enumerate(revision.files if revision else ()):
        label = "files" if not at else ""
        words = f"{file_state(file, asked.files)}: {file.path}"
        assert revision is not None
        yield Line(_key(revision, file.path), label, words)


def file_state(file: DesignFile, on_disk: Mapping[str, DesignFile] | None) -> str:
    """Say how a recorded file stands to what is on disk."""
    if on_disk is None:
        return "being read"
    now = on_disk.get(file.path)
    if now is None:
        return "missing"
    return "unchanged" if same_content(now, file) else "CHANGED SINCE"


def _use(asked: Asked) -> Iterator[Line]:
    label = "used in"
    for word, record in _users(asked):
        yield Line(_key(record), label, f"{word}: {record.title}")
        label = ""


def _users(asked: Asked) -> Iterator[tuple[str, Record]]:
    snapshot, part = asked.snapshot, asked.part
    for fit in snapshot.all(Fit):
        if _in_formula(snapshot, fit, part):
            yield "gap", fit
    for record in snapshot.mentions(part):
        match record:
            case assembling.Joint():
                yield "joint", record
            case assembling.Step():
                word = "made in" if snapshot.find(record.makes) is part else "step"
                yield f"{word} {record.number}", record
            case assembling.Line():
                yield f"list, {record.quantity} of it", record


def _in_formula(snapshot: Snapshot, fit: Fit, part: Part) -> bool:
    try:
        names = formula_of(fit.formula).names
        return any(meant(snapshot, name).part is part for name in names)
    except BadInput:
        return False
