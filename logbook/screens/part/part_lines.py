"""All that is known of a part, as rows: each leads to the record it speaks of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath

from logbook.advice.changes.compensated import compensation_words
from logbook.advice.changes.file_units import unit_told
from logbook.advice.ground.naming import formula_of, meant
from logbook.advice.ground.same_content import same_content
from logbook.errors import BadInput
from logbook.records.kinds import assembling
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import DesignFile, Part, Revision
from logbook.records.kinds.happenings import Deviation, Entry, Failure
from logbook.records.kinds.record import Record
from logbook.records.states.dispositions import undisposed
from logbook.records.states.pieces import piece_state, pieces_of
from logbook.records.states.tried import verdict_of
from logbook.records.together.references import part_of
from logbook.records.together.revisions import (
    current_revision,
    revisions_of,
    shown_label,
)
from logbook.records.together.snapshot import Snapshot
from logbook.screens.part.part_asked import Asked, key_of
from logbook.screens.part.part_sizes import sizes_of_part
from logbook.screens.ruled.listing import Line
from logbook.store.designs.overall import unit_name


def lines_of(asked: Asked) -> Iterator[Line]:
    """Give everything known of a part, section by section."""
    for section in (
        _itself,
        _revisions,
        sizes_of_part,
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


def _itself(asked: Asked) -> Iterator[Line]:
    part = asked.part
    facts = [
        "an assembly" if part.assembly else part.source.value,
        ", ".join(part.process),
        part.material,
        f"{part.thickness} thick" if part.thickness else "",
        "wears out" if part.wears else "",
    ]
    yield Line(key_of(part), "part", " · ".join(filter(None, (part.title, *facts))))


def _revisions(asked: Asked) -> Iterator[Line]:
    for at, one in enumerate(reversed(revisions_of(asked.snapshot, asked.part))):
        label = "revisions" if not at else ""
        verdict = verdict_of(asked.snapshot, one)
        what = one.changed or "; ".join(_changes(one)) or "as first drawn"
        words = f"{shown_label(one)}, {verdict}: {what}"
        yield Line(key_of(one), label, words)
        if one.follows or one.remake or one.mates_with:
            remake = f"  remake: {one.remake or 'not said'}"
            mates = f"  mates: {', '.join(one.mates_with) or 'not said'}"
            yield Line(key_of(one, "remake"), "", remake)
            yield Line(key_of(one, "mates"), "", mates)
        if one.changed and one.changes:
            yield Line(key_of(one, "sizes"), "", f"  {'; '.join(_changes(one))}")
        if one.why:
            yield Line(key_of(one, "why"), "", f"  why: {one.why}")


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
        yield Line(key_of(piece), "pieces" if not at else "", words)


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
        yield Line(key_of(entry), label, words)
        label = ""
        if isinstance(entry, Failure) and entry.cure:
            yield Line(key_of(entry, "cure"), "", f"  cure: {entry.cure}")


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
            yield Line(key_of(entry, photo.path), label, words)
            label = ""


def _files(asked: Asked) -> Iterator[Line]:
    revision = current_revision(asked.snapshot, asked.part)
    for at, file in enumerate(revision.files if revision else ()):
        label = "files" if not at else ""
        told = unit_told(asked.snapshot, file)
        in_unit = f", in {unit_name(told)}" if told else ""
        words = f"{file_state(file, asked.files)}: {file.path}{in_unit}"
        assert revision is not None
        yield Line(key_of(revision, file.path), label, words)
    if revision and (allows := compensation_words(asked.snapshot, revision)):
        yield Line(key_of(revision, "in file"), "in file", allows)


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
        yield Line(key_of(record), label, f"{word}: {record.title}")
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
                each = f", each {record.amount}" if record.amount else ""
                yield f"list, {record.quantity} of it{each}", record


def _in_formula(snapshot: Snapshot, fit: Fit, part: Part) -> bool:
    try:
        names = formula_of(fit.formula).names
        return any(meant(snapshot, name).part is part for name in names)
    except BadInput:
        return False
