"""An understanding in shop language, to be shown before the line is taken."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.understanding import Facts, Kind, Reading, Understanding, Verdict
from logbook.quantity import Quantity

_LABELS = {
    Kind.READING: "measured",
    Kind.STOCK: "stock as measured",
    Kind.FIT: "how it fits",
    Kind.FAILURE: "failure",
    Kind.DECISION: "decision",
    Kind.REVISION: "revision",
    Kind.SUBSTITUTION: "used instead",
    Kind.DISPOSITION: "what to do with it",
    Kind.STEP: "step done",
    Kind.JOINT: "joint",
    Kind.ORDER: "order",
    Kind.COUNT: "count",
    Kind.QUESTION: "question",
    Kind.NOTE: "note",
}


def describe(understanding: Understanding) -> list[tuple[str, str]]:
    """Give label and text of everything understood, the kind first."""
    if understanding.verdict is Verdict.KEPT:
        why = f", because {understanding.remark}" if understanding.remark else ""
        return [("kind", f"note, kept as typed{why}")]
    rows = [("kind", _LABELS[understanding.kind])]
    took = understanding.kind is Kind.STEP
    rows += [
        ("took" if took and label == "after" else label, text)
        for label, text in _rows(understanding.facts)
        if text
    ]
    if any(doubt.about == "part" for doubt in understanding.doubts):
        unsure = f"{understanding.facts.part}?"
        rows = [(label, unsure if label == "part" else text) for label, text in rows]
    rows += _when(understanding)
    if understanding.question is not None and understanding.question.needed:
        rows.append(("to be asked", understanding.question.question))
    return rows


def _when(understanding: Understanding) -> Iterator[tuple[str, str]]:
    """Give when it happened, no exacter than it was told."""
    when = understanding.facts.when
    if when is not None:
        asked = any(doubt.about == "hour" for doubt in understanding.doubts)
        yield "when", f"{when:%Y-%m-%d}" if asked else f"{when:%Y-%m-%d %H:%M}"


def in_one_line(understanding: Understanding) -> str:
    """Give the whole in one line: failure · diffuser · at the corner screw.

    What is to be asked stands in the question and not here.
    """
    texts = []
    for label, text in describe(understanding):
        if label == "to be asked":
            continue
        if label in ("where", "place"):
            texts.append(f"at the {text}" if label == "where" else f"at {text}")
        elif label in ("kind", "part", "piece", "size"):
            texts.append(text)
        else:
            texts.append(f"{label} {text}")
    return " · ".join(texts)


def _rows(facts: Facts) -> Iterator[tuple[str, str]]:
    yield "part", f"{facts.part} (new)" if facts.part_is_new else facts.part
    yield "piece", facts.piece
    yield "build", facts.build
    yield "revision", facts.revision
    yield from _sizes(facts)
    yield "where", facts.where
    yield "joint through", " + ".join(facts.layers)
    yield "fastener", facts.fastener
    yield "instead of", facts.instead_of
    yield "stock", facts.stock
    yield "material", facts.material
    yield "machine", facts.machine
    yield "step", facts.step
    yield "fit", facts.feels
    yield "cause", f"{facts.cause.said} ({facts.cause.status})" if facts.cause else ""
    yield "cure", facts.cure
    yield "do", facts.disposition
    yield "whose", facts.met_by_others
    yield from _work(facts)


def _sizes(facts: Facts) -> Iterator[tuple[str, str]]:
    for reading in facts.readings:
        yield "size", _reading(reading)
    if not facts.readings:
        yield "dimension", facts.what
    yield "value", facts.absent.value if facts.absent else ""
    yield "wanted", _together(facts.wanted)
    yield "off", f"{facts.off} {facts.off_sense}".strip() if facts.off else ""
    yield "while", _together(facts.conditions)
    yield "with", facts.instrument
    yield "room", str(facts.room) if facts.room else ""
    yield "after", str(facts.hours or facts.minutes or "")


def _reading(reading: Reading) -> str:
    place = f" ({reading.place})" if reading.place else ""
    return f"{reading.what}{place} {reading.value}".strip()


def _together(values: tuple[Quantity, ...]) -> str:
    return ", ".join(str(value) for value in values)


def _work(facts: Facts) -> Iterator[tuple[str, str]]:
    yield "closes", "cannot be opened again without harm" if facts.closes else ""
    yield "undone", "taken apart again" if facts.undone else ""
    yield "inside", "now inside" if facts.inside else ""
    yield "how many", "" if facts.quantity is None else str(facts.quantity)
    yield "listed", "" if facts.listed is None else str(facts.listed)
    yield "counted", facts.counted
    yield "price", facts.price_text
    yield "due", facts.due.isoformat() if facts.due else ""
    yield "withdrawn", "not to be used" if facts.withdrawn else ""
    yield "also named", ", ".join(facts.others)
