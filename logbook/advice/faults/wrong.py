"""Which published statements a deviation or failure proves wrong."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.faults.faulty_part import faulty_part
from logbook.records.kinds import assembling
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.record import Record
from logbook.records.states.statements import Form, statement_id
from logbook.records.together.references import is_of
from logbook.records.together.snapshot import Snapshot


def wrong_statements(
    snapshot: Snapshot,
    entry: Deviation | Failure,
    revision: Revision | None,
    cured: Revision | None,
) -> Iterator[str]:
    """Give the ids of the statements an entry proves wrong.

    What the entry names, the files of the revision, the line of the part, screws
    it names, sizes that its cure changes, and where no step is named those that
    make or take the part: the mark stands wherever the wrong thing is read.
    """
    yield from _named_statements(snapshot, entry)
    if revision is not None:
        for file in revision.files:
            yield statement_id(Form.FILE, revision.ref, file.path)
    part = faulty_part(snapshot, entry)
    yield from _line_statements(snapshot, part)
    if part is not None:
        if not getattr(entry, "step", None):
            yield from _step_statements(snapshot, part)
        yield from _fastener_statements(snapshot, entry, part)
    for change in cured.changes if cured else ():
        item = snapshot.find(change.characteristic)
        if item is not None:
            yield statement_id(Form.DIMENSION, item.ref)


_FASTENER = re.compile(r"\bm\d+(?:\.\d+)?x\d+\b")


def _fastener_statements(
    snapshot: Snapshot, entry: Deviation | Failure, part: Part
) -> Iterator[str]:
    """Give the ids of the joints through a part, and of the list lines, it names."""
    named = _fasteners(_told_wrong(entry))
    for joint in snapshot.all(assembling.Joint) if named else ():
        through = any(snapshot.find(layer.part) is part for layer in joint.layers)
        if through and named & _fasteners(joint.fastener):
            yield statement_id(Form.JOINT, joint.ref)
    for line in snapshot.all(assembling.Line) if named else ():
        if named & _fasteners(f"{line.title} {line.bought_as}"):
            yield statement_id(Form.LINE, line.ref)


_IN_ITS_PLACE = re.compile(r"(?i)\b(?:instead of|rather than|in place of|not)\b")


def _told_wrong(entry: Deviation | Failure) -> str:
    """Give the words that tell what is wrong: not those that tell what to take.

    Of a cure, “M4x20 instead of M4x16”, that is what stands behind “instead of”.
    """
    said = entry.title.replace(entry.cure, " ") if entry.cure else entry.title
    _, *replaced = _IN_ITS_PLACE.split(entry.cure)
    return " ".join((said, *replaced, entry.prose))


def _fasteners(words: str) -> set[str]:
    """Give the screws named in some words, as m4x16."""
    return set(_FASTENER.findall(words.casefold().replace("×", "x")))


def _step_statements(snapshot: Snapshot, part: Part) -> Iterator[str]:
    """Give the ids of the steps that make or take a part: there it is read."""
    for step in snapshot.all(assembling.Step):
        refs = (step.makes, *step.uses)
        if any(snapshot.find(ref) is part for ref in refs if ref):
            yield statement_id(Form.STEP, step.ref)


def _named_statements(snapshot: Snapshot, entry: Deviation | Failure) -> Iterator[str]:
    if entry.statement:
        yield entry.statement
    named = [entry.characteristic] if isinstance(entry, Deviation) else [entry.step]
    for ref in (*named, *entry.about):
        found = snapshot.find(ref)
        form = _FORM_OF.get(type(found)) if found else None
        if found and form:
            yield statement_id(form, found.ref)


_FORM_OF: dict[type[Record], Form] = {
    Characteristic: Form.DIMENSION,
    assembling.Step: Form.STEP,
    assembling.Line: Form.LINE,
    assembling.Joint: Form.JOINT,
    assembling.Fit: Form.GAP,
}


def _line_statements(snapshot: Snapshot, part: Part | None) -> Iterator[str]:
    if part is None:
        return
    lines = [line for line in snapshot.all(assembling.Line) if is_of(line.part, part)]
    for line in lines:
        yield statement_id(Form.LINE, line.ref)
    if not lines:
        yield statement_id(Form.LINE, part.ref)
