"""What is said of a piece against its drawing, and the rows of its first article.

Rows have the fields of AS9102 Form 3, 5 to 12 (form instructions of Rev B, read
in two secondary sources): one row for each characteristic, several places as
least and greatest; an ordinary instrument is no designed tooling.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import View
from logbook.advice.pieces.conformity import (
    UNDECIDED,
    Inspected,
    Row,
    inspected,
    rows_of,
)
from logbook.advice.pieces.judging import Word
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Piece
from logbook.records.sizes.limits_held import held_text
from logbook.shop.answers import Result

SOURCES = (
    "ISO 14253-1 (guard band), JCGM 106 (conformance probability)",
    "AS9102 Form 3, fields as in two secondary sources",
)
_FORMULA = "the worst place against the limits, with U (k = 2) of the instrument"


def conformity_advice(view: View, piece: Piece) -> Iterator[Advice]:
    """Ask what to do with a piece that is off its drawing, where nobody said.

    A deviation that is on record is asked about by itself.
    """
    rows = [row for row in rows_of(view, piece) if row.undecided and not row.faults]
    if not rows:
        return
    found = inspected(view, piece)
    if not found.there:
        return
    said = "; ".join(row_words(row) for row in rows)
    yield Advice(
        key=f"conformity {piece.id}",
        topic="conformity",
        grade=Grade.CHECK,
        about=piece.ref,
        statement=f"{piece.title} is off its drawing and {UNDECIDED}: {said}",
        numbers=counts_of(found),
        inputs=found.inputs,
        formula=_FORMULA,
        sources=SOURCES[:1],
        assumed=_assumed(rows),
        changes=("what to do with it, a deviation, or a later reading",),
    )


def piece_advice(found: Inspected) -> Advice:
    """Say how a piece stands to its drawing, as one piece of advice."""
    piece = found.piece
    drawing = found.revision.title if found.revision else "no revision on record"
    return Advice(
        key=f"conformity {piece.id}",
        topic="conformity",
        grade=Grade.REMARK,
        about=piece.ref,
        statement=f"{piece.title} against {drawing}: {_summary(found)}",
        numbers=counts_of(found),
        inputs=found.inputs,
        formula=_FORMULA,
        sources=SOURCES,
        assumed=_assumed(found.rows),
        changes=("a reading, a disposition, or another revision",),
    )


def _summary(found: Inspected) -> str:
    said = [
        row_words(row)
        for word in (Word.REJECT, Word.CLOSE, Word.SUIT)
        for row in found.of(word)
    ]
    if accepted := len(found.of(Word.ACCEPT)):
        said.append(f"accept: {accepted} of {len(found.rows)}")
    if found.unmeasured:
        names = ", ".join(
            f"{row.drawn.name} ({'; '.join(row.found.said)})"
            if row.found.said
            else row.drawn.name
            for row in found.unmeasured
        )
        said.append(f"unmeasured: {names}")
    if found.faults:
        names = ", ".join(ref.name for ref in found.faults)
        said.append(f"{UNDECIDED}: {names}")
    return "; ".join(said) or "no limits drawn, so nothing to hold it to"


def row_words(row: Row) -> str:
    """Say one row in a few words."""
    said = f"{row.word.value}: {row.drawn.name} {row.results}".rstrip()
    said += f", drawn {held_text(row.drawn)}"
    if row.word is Word.SUIT:
        said += ", the gap decides"
    if row.word is Word.REJECT:
        said += f", {row.decided or UNDECIDED}"
    return said


def counts_of(found: Inspected) -> tuple[Result, ...]:
    """Count the rows of a piece by what is said of them."""
    return (
        Result("dimensions", len(found.rows), "", 0, "as its revision draws them"),
        Result("accept", len(found.of(Word.ACCEPT)), "", 0, "within their limits"),
        Result("reject", len(found.of(Word.REJECT)), "", 0, "outside their limits"),
        Result("close", len(found.of(Word.CLOSE)), "", 0, "a limit is within U"),
        Result("unmeasured", len(found.unmeasured), "", 0, "limited or critical"),
        Result("undecided", len(found.faults), "", 0, "deviations and failures"),
    )


def _assumed(rows: Sequence[Row]) -> tuple[str, ...]:
    said = [
        f"{row.drawn.name}: {'; '.join(row.found.said)}"
        for row in rows
        if row.found.said and row.found.plain is not None
    ]
    return tuple(dict.fromkeys(said))


def form_three(row: Row) -> dict[str, Any]:
    """Give a row with the names of the fields of AS9102 Form 3, 5 to 12."""
    what = row.drawn.characteristic
    more = [row.word.value]
    more += row.found.said if row.word is Word.UNMEASURED else ()
    more += [f"measured with {row.found.tool.title}"] if row.found.tool else []
    more += [row.decided] if row.decided else []
    if row.found.chance is not None:
        more.append(f"conformance probability {row.found.chance:.2f}")
    return {
        "characteristic_number": row.number,
        "reference_location": what.drawn_in,
        "characteristic_designator": "critical" if what.critical else "",
        "requirement": f"{row.drawn.name} {held_text(row.drawn)}",
        "results": row.results or row.word.value,
        "designed_tooling": "",
        "nonconformance_number": ", ".join(ref.id for ref in row.faults),
        "additional_data": "; ".join(more),
    }
