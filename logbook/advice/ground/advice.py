"""A piece of advice as a value: what it says, from what, by which formula.

Advice is worked out, never stored. It names the records it was worked out from
and what would change it; it is a calculation, not an approval.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.shop.answers import Result

STANDING = "a calculation, not an approval"
"""What every piece of advice is."""


@dataclass(frozen=True, slots=True)
class Advice:
    """One piece of advice; `key` stays the same while its figures change.

    `changes` says what would change it, `step` the operation it concerns,
    `passed` the reason for which somebody went on past it, empty while nobody
    did. It is `read` where all it tells of was made and read, and is so.
    """

    key: str
    topic: str
    grade: Grade
    about: Ref
    statement: str
    numbers: tuple[Result, ...] = ()
    inputs: tuple[Ref, ...] = ()
    formula: str = ""
    sources: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()
    step: Ref | None = None
    passed: str = ""
    read: bool = False

    @property
    def open(self) -> bool:
        """Whether it asks for something that nobody has gone past yet."""
        return self.grade is not Grade.REMARK and not self.passed

    def number(self, name: str) -> Result:
        """Give one of its figures by name."""
        return next(one for one in self.numbers if one.name == name)


def as_facts(advice: Advice) -> dict[str, Any]:
    """Give advice as a program reads it."""
    return {
        "key": advice.key,
        "topic": advice.topic,
        "grade": advice.grade.value,
        "about": str(advice.about),
        "says": advice.statement,
        "numbers": [_number(one) for one in advice.numbers],
        "inputs": [str(ref) for ref in advice.inputs],
        "formula": advice.formula,
        "sources": list(advice.sources),
        "assumed": list(advice.assumed),
        "changes": list(advice.changes),
        "step": str(advice.step) if advice.step else "",
        "passed": advice.passed,
        "standing": STANDING,
    }


def _number(one: Result) -> dict[str, Any]:
    value = one.value
    if isinstance(value, float):
        value = round(value, one.places)
    return {
        "name": one.name,
        "value": value,
        "unit": one.unit,
        "shown": one.shown,
        "meaning": one.meaning,
    }
