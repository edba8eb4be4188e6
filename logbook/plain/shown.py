"""An understanding in shop language, to be shown before the line is taken."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.sure.coverage import (
    AS_TYPED,
    kept,
    left_in_words,
    recorded_as,
    unmade_stock,
)
from logbook.plain.understanding import (
    Beside,
    Facts,
    Kind,
    Reading,
    Understanding,
    Verdict,
)
from logbook.plain.wanting import wanted_of
from logbook.plain.words.spread import gathered
from logbook.quantity import Quantity
from logbook.records.kinds.workshop import Piece
from logbook.records.written.at_place import at_place

_LABELS = {
    Kind.READING: "measured",
    Kind.STOCK: "stock as measured",
    Kind.DRAWN: "as drawn",
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
    understanding = gathered(understanding)
    if understanding.verdict is Verdict.KEPT:
        why = f", because {understanding.remark}" if understanding.remark else ""
        return [("kind", f"note, kept as typed{why}"), *_note_of(understanding)]
    if understanding.amends is not None and understanding.verdict is Verdict.TAKEN:
        before, after = understanding.amends
        rows = [("kind", "puts an entry right"), ("entry", before.title)]
        if isinstance(after, Piece) and after.revision:
            rows.append(("revision", after.revision.name))
        return rows
    kind, typed = recorded_as(understanding), ", kept as typed"
    rows = [("kind", _label(understanding) + (typed if kind in AS_TYPED else ""))]
    took = kind is Kind.STEP
    rows += [
        ("took" if took and label == "after" else label, text)
        for fact, label, text in _rows(understanding, kind)
        if text and kept(understanding, fact)
    ]
    if any(doubt.about == "part" for doubt in understanding.doubts):
        unsure = f"{understanding.facts.part}?"
        rows = [(label, unsure if label == "part" else text) for label, text in rows]
    if understanding.facts.answers and understanding.kind is Kind.NOTE:
        rows.append(("does not occur:", understanding.remark))
    rows += _said_of_piece(understanding.facts)
    rows += _when(understanding)
    if left := left_in_words(understanding):
        rows.append(("only in words", left))
        if may_be := unmade_stock(understanding, left):
            rows.append(("for a part say", f"“part {may_be}”"))
    if understanding.question is not None and understanding.question.needed:
        rows.append(("to be asked", understanding.question.question))
    return rows


def _said_of_piece(facts: Facts) -> Iterator[tuple[str, str]]:
    """Give what a note says of its piece: gate 2, still good after 40 h."""
    if facts.became_of and facts.piece:
        used = facts.hours or facts.minutes
        yield (
            facts.piece,
            f"{facts.became_of} after {used}" if used else facts.became_of,
        )


def _label(line: Understanding) -> str:
    """Give what the line is; one that has only the name of a part makes that."""
    facts, kind = line.facts, recorded_as(line)
    if facts.remaining is not None:
        return "stock"
    alone = kind is Kind.DRAWN and not (facts.drawn or facts.material)
    return "part" if alone and facts.thickness is None else _LABELS[kind]


def _note_of(line: Understanding) -> Iterator[tuple[str, str]]:
    """Give what is kept beside the words of a note: its known part, and when."""
    if line.facts.part and not line.facts.part_is_new:
        yield "part", line.facts.part
    yield from _when(line)


def _when(understanding: Understanding) -> Iterator[tuple[str, str]]:
    """Give when it happened, no exacter than it was told."""
    when = understanding.facts.when
    if when is not None:
        asked = any(doubt.about == "hour" for doubt in understanding.doubts)
        unsaid = "" if understanding.facts.hour_said else ", hour not said"
        yield "when", f"{when:%Y-%m-%d}" if asked else f"{when:%Y-%m-%d %H:%M}{unsaid}"


def in_one_line(understanding: Understanding) -> str:
    """Give the whole in one line: failure · diffuser · at the corner screw.

    What is to be asked stands in the question and not here.
    """
    texts = []
    for label, text in describe(understanding):
        if label == "to be asked":
            continue
        if label in ("where", "place"):
            texts.append(at_place(text) if label == "where" else f"at {text}")
        elif label in ("kind", "part", "piece", "size", "do"):
            texts.append(text)
        elif label in ("only in words", "for a part say"):
            texts.append(f"{label}: {text}")
        else:
            texts.append(f"{label} {text}")
    return " · ".join(texts)


_Row = tuple[str, str, str]
"""A fact, its label and its text."""


_CHOSEN = (Kind.DECISION, Kind.REVISION, Kind.SUBSTITUTION, Kind.DISPOSITION)
"""Kinds whose “because” is why somebody chose so, which nobody has to prove."""
_SURE = {"said": "as said, not proven"}


def _rows(line: Understanding, kind: Kind) -> Iterator[_Row]:
    facts = line.facts
    yield "part", "part", f"{facts.part} (new)" if facts.part_is_new else facts.part
    yield "piece", "piece", facts.piece
    yield "pieces", "piece", ", ".join(f"{facts.part} {n}" for n in facts.pieces)
    yield "so_many", "each", "" if facts.pieces else _so_many(facts.so_many)
    yield "build", "build", facts.build
    yield "revision", "revision", facts.revision
    yield "release", "by release", facts.release
    yield from _sizes(line)
    yield "where", "where", facts.where
    yield "layers", "joint through", " + ".join(facts.layers)
    yield "fastener", "fastener", facts.fastener
    yield "fitted", "fitted", facts.fitted
    yield "instead_of", "instead of", facts.instead_of
    yield "stock", "stock", facts.stock
    yield "material", "material", facts.material
    yield "machine", "machine", facts.machine
    yield "step", "step", facts.step
    cause = facts.cause
    chosen = kind in _CHOSEN
    sure = "" if chosen or not cause else f" ({_SURE.get(cause.status, cause.status)})"
    yield "cause", "reason" if chosen else "cause", cause.said + sure if cause else ""
    yield "cure", "cure", facts.cure
    anew = facts.beside is not None and facts.beside.did == Beside.ANEW
    did = facts.beside.did if facts.beside else ""
    yield "beside", "after it" if anew else "before it", did
    yield "disposition", "do", facts.disposition
    yield "met_by_others", "whose", facts.met_by_others
    yield from _work(facts)


def _so_many(count: int) -> str:
    return f"of {count} pieces" if count > 0 else "piece" if count else ""


def _sizes(line: Understanding) -> Iterator[_Row]:
    facts = line.facts
    apart = len(facts.wanted) == 1 and len({one.what for one in facts.readings}) > 1
    for at, reading in enumerate(facts.readings):
        wanted = wanted_of(line, at) if apart else None
        own = f", wanted {wanted}" if wanted else ""
        yield "readings", "size", _reading(reading) + own
    if not facts.readings:
        yield "what", "dimension", facts.what
    for size in facts.drawn:
        yield "drawn", "drawn", f"{size.what} {size.size}".strip()
    yield "thickness", "thickness", str(facts.thickness or "")
    yield "absent", "value", facts.absent.value if facts.absent else ""
    yield "wanted", "wanted", "" if apart else _together(facts.wanted)
    yield "became", "now", str(facts.became or "")
    yield "off", "off", f"{facts.off} {facts.off_sense}".strip() if facts.off else ""
    if facts.off and not facts.readings:
        yield "place", "place", facts.place
    yield "instrument", "with", facts.instrument
    yield "room", "room", str(facts.room) if facts.room else ""
    yield (
        "hours" if facts.hours else "minutes",
        "after",
        str(facts.hours or facts.minutes or ""),
    )


def _reading(reading: Reading) -> str:
    held = ", ".join(filter(None, (reading.place, reading.state)))
    place = f" ({held})" if held else ""
    if reading.piece:
        place = f"{place} of piece {reading.piece}"
    return f"{reading.what}{place} {reading.value}".strip()


def _together(values: tuple[Quantity, ...]) -> str:
    return ", ".join(str(value) for value in values)


def _work(facts: Facts) -> Iterator[_Row]:
    shut = "for good: opening it again does harm"
    yield "closes", "closes", shut if facts.closes else ""
    yield "undone", "undone", "taken apart again" if facts.undone else ""
    yield "inside", "lies", "inside" if facts.inside else ""
    counts = "" if facts.quantity is None else str(facts.quantity)
    yield "quantity", facts.counted_as or "how many", counts
    yield "left", "left over", "" if facts.left is None else str(facts.left)
    yield "remaining", "left", str(facts.remaining or "")
    yield "item", "of", facts.item
    for one in facts.besides:
        many = f"{one.quantity} of " if one.quantity is not None else ""
        yield "besides", "and an order of", many + (one.item or one.part)
    yield "counted", "counted", facts.counted
    yield "price", "price", facts.price_text
    yield "due", "due", facts.due.isoformat() if facts.due else ""
    yield "withdrawn", "withdrawn", "not to be used" if facts.withdrawn else ""
    yield "others", "also named", ", ".join(facts.others)
