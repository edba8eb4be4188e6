"""What `logbook say` tells: what is understood, what was kept and put right."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.changes.released_sizes import drawn_as
from logbook.cli.facts_told import facts_told
from logbook.plain.shown import describe
from logbook.plain.told.build_begun import BuildBegun
from logbook.plain.told.of_design import OfDesign
from logbook.plain.understanding import Understanding, Verdict
from logbook.project import Saved
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Entry, StepDone
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.workshop import Stock
from logbook.records.together.snapshot import Snapshot

_WOULD = {
    Verdict.TAKEN: "taken as it is understood",
    Verdict.ASKED: "asked about first; unasked it is kept as a note",
    Verdict.KEPT: "kept as a note, word for word",
}


def build_told(begun: BuildBegun) -> dict[str, object]:
    """Say what a line that begins a build is understood as."""
    return {
        "kind": "build",
        "would_be": _WOULD[Verdict.TAKEN],
        "understood": [{"fact": "build", "is": begun.words}],
        "facts": {"build": begun.words},
        "question": "",
        "choices": [],
    }


def design_told(said: OfDesign) -> dict[str, object]:
    """Say what a line that says something of a part or of files is understood as."""
    return {
        "kind": said.kind,
        "would_be": _WOULD[Verdict.TAKEN],
        "understood": [{"fact": said.kind, "is": said.words}],
        "facts": said.facts,
        "question": "",
        "choices": [],
    }


def line_told(line: Understanding) -> dict[str, object]:
    """Say what is understood: as it is shown, fact by fact, and as a program reads it.

    In `understood` one of a kind may come again; a note tells no `facts` but its words.
    """
    question = line.question
    return {
        "kind": line.kind.value,
        "would_be": _WOULD[line.verdict],
        "understood": [
            {"fact": label.rstrip(":"), "is": text} for label, text in describe(line)
        ],
        "facts": facts_told(line.facts),
        "question": question.question if question else "",
        "choices": list(question.choices) if question else [],
    }


def kept_said(saved: Saved, before: Snapshot) -> list[str]:
    """Give one line: the entries kept, with their ids, then what was made for them.

    What was on record `before` and only tells more now is not made.
    """
    entries = [r for r in saved.records if isinstance(r, Entry | Joint | Stock)]
    told = ", ".join(f"{kind_of(record).shown} {record.id}" for record in entries)
    made = [record for record in saved.records if record.id not in before]
    others = [record for record in made if record not in entries]
    parts = [record.title for record in others if isinstance(record, Part)]
    new = ", ".join(_new(record, parts) for record in others)
    steps = [r.step.name for r in saved.records if isinstance(r, StepDone) and r.step]
    step = "".join(f"; step: {name}" for name in steps)
    kept = f"  kept: {told}{step}" + (f"; new: {new}" if new else "")
    return [kept, *_drawn_anew(saved, before)]


def _drawn_anew(saved: Saved, before: Snapshot) -> Iterator[str]:
    """Say of each dimension whose drawn size was changed what it was before."""
    for record in saved.records:
        if isinstance(record, Characteristic) and record.id in before:
            old = before.lookup(record.id, Characteristic)
            if old.nominal and drawn_as(old) != drawn_as(record):
                yield f"  {record.part.name} {record.title}: was {drawn_as(old)}"


def put_right_said(saved: Saved) -> list[str]:
    """Give one line: the entries that were put right, with their ids."""
    told = (f"{kind_of(one).shown} {one.id}" for one in saved.records)
    return [f"  put right: {', '.join(told)}"]


def _new(record: Record, parts: list[str]) -> str:
    """Name what was made, without the part's own name where that was just said."""
    kind, title = kind_of(record).shown, record.title
    if isinstance(record, Part):
        return f"{kind} “{title}”"
    for part in parts:
        title = title.removeprefix(part).lstrip("- ")
    return title if title.startswith((kind, "rev ", "first ")) else f"{kind} {title}"
