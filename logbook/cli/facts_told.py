"""The facts of a line as a program reads them: each by its name, figures as numbers."""

from __future__ import annotations

import dataclasses
from enum import StrEnum
from typing import Any

from logbook.plain.understanding import Facts
from logbook.quantity import Quantity


def facts_told(facts: Facts) -> dict[str, Any]:
    """Give each fact that was said, by its name in `Facts`; what was not is left out.

    A quantity is its `text` as typed, its `value` as a number and its `unit`; dates
    stay dates, which the answer writes as ISO 8601 texts.
    """
    return _said(facts)


def _said(of: Any) -> dict[str, Any]:
    told = {}
    for field in dataclasses.fields(of):
        value = getattr(of, field.name)
        if value != field.default:
            told[field.name] = _plain(value)
    return told


def _plain(value: Any) -> Any:
    if isinstance(value, Quantity):
        number = value.value
        whole = number.denominator == 1
        return {
            "text": value.text,
            "value": number.numerator if whole else float(number),
            "unit": value.unit,
        } | ({"metal": value.metal} if value.metal else {})
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, StrEnum):
        return value.value
    return _said(value) if dataclasses.is_dataclass(value) else value
