"""What an answer makes of a value that looks like a slip."""

from __future__ import annotations

from dataclasses import replace

from logbook.errors import BadInput
from logbook.plain.understanding import Doubt, Reading, Understanding
from logbook.quantity import Quantity, parse_quantity

AS_TYPED = "as typed"
"""The answer that a value which looks like a slip is so."""


def settled(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line with the value that was meant, in its words too.

    What is no value leaves the question as it was.
    """
    spelled = doubt.question[1 : doubt.question.index("”")]
    at = [str(one.value) for one in line.facts.readings].index(spelled)
    said = line.facts.readings[at]
    left = tuple(one for one in line.doubts if one is not doubt)
    if answer == AS_TYPED:
        return _with(line, at, replace(said, confirmed=True), left)
    try:
        value = parse_quantity(answer, _unit_of(doubt, said.value))
    except BadInput:
        return line
    fresh = _with(line, at, replace(said, value=value), left)
    for span in line.words.get("readings", ()):
        if _reads(line.line[span.start : span.end], said.value):
            text = f"{line.line[: span.start]}{value}{line.line[span.end :]}"
            rest = line.rest[: span.start] + str(value) + line.rest[span.end :]
            return replace(
                fresh,
                line=text,
                rest=rest if line.rest else "",
                typed=line.typed or line.line,
                words={},
                content=(),
                told_by=None,
            )
    return fresh


def _unit_of(doubt: Doubt, value: Quantity) -> str:
    """Give the unit of a number typed alone: that of its size, or what is offered."""
    if doubt.unit:
        return doubt.unit
    try:
        return parse_quantity(doubt.choices[0]).unit
    except BadInput:
        return value.unit


def _with(
    line: Understanding, at: int, said: Reading, left: tuple[Doubt, ...]
) -> Understanding:
    readings = line.facts.readings
    facts = replace(line.facts, readings=(*readings[:at], said, *readings[at + 1 :]))
    return replace(line, facts=facts, doubts=left, confidence=1.0)


def _reads(text: str, value: Quantity) -> bool:
    try:
        return parse_quantity(text, value.unit) == value
    except BadInput:
        return False


def taken_as_typed(line: Understanding, doubt: Doubt) -> Understanding | None:
    """Give the line taken as it stands, its doubt open; None where it cannot be."""
    if doubt.about != "slip" or AS_TYPED not in doubt.choices:
        return None
    return replace(line, doubts=tuple(one for one in line.doubts if one is not doubt))
