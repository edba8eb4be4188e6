"""What a sum answers: results with unit, digits and uncertainty, tables, words.

Values are in the base unit a sum computes in; `in_system` turns lengths and
temperatures into inches and degrees Fahrenheit for those who work in them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from logbook.shop.evidence import evidence, evidence_json
from logbook.units import UNITS

NOT_AN_APPROVAL = "a calculation, not an approval"

Cell = float | int | str | bool | None
Found = float | int | str | bool | tuple[float, ...]

_INCH = {"mm": "in", "mm²": "in²", "°C": "°F"}
_EXTRA_PLACES = {"mm": 1, "mm²": 3, "°C": 0}


@dataclass(frozen=True, slots=True)
class Result:
    """One result: a figure good to `places` decimals of `unit`, or a word.

    `uncertainty` is expanded, at about 95 % (k = 2), in the same unit.
    """

    name: str
    value: Found
    unit: str = ""
    places: int = 2
    meaning: str = ""
    uncertainty: float | tuple[float, ...] | None = None
    signed: bool = False
    """Whether a plus is written too, as a deviation has one."""

    @property
    def shown(self) -> str:
        """The result with no more digits than it is good to."""
        if isinstance(self.value, bool):
            return "yes" if self.value else "no"
        if isinstance(self.value, str):
            return f"{self.value} {self.unit}" if self.unit else self.value
        values = self.value if isinstance(self.value, tuple) else (self.value,)
        if not all(math.isfinite(value) for value in values):
            return ", ".join(figure(float(value), self.places) for value in values)
        spread = _spread(self.uncertainty)
        places = min(self.places, _places_of(spread)) if spread else self.places
        if spread and spread < 0.5 * 10.0**-places:
            spread = None
        text = ", ".join(
            ("+" if self.signed and round(float(value), places) > 0 else "")
            + figure(float(value), places)
            for value in values
        )
        if spread:
            text += f" ±{_rounded_up(spread, places)}"
        if self.unit in {"", "1"}:
            return text
        if self.unit == "%" and not spread and len(values) == 1:
            text = _share_text(float(values[0]), places, text)
        return f"{text}{self.unit}" if self.unit == "°" else f"{text} {self.unit}"


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its heading, unit and decimals."""

    name: str
    unit: str = ""
    places: int = 2


@dataclass(frozen=True, slots=True)
class Rows:
    """A table in an answer, such as a setup sheet or a cut list."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a sum found, and what must be said with it.

    A compute function fills results, tables, assumptions, warnings and the
    sources of the table rows it used; `work_out` adds what the sum declares.
    `alarms` are those of the warnings without which a figure must not be read.
    """

    results: tuple[Result, ...]
    tables: tuple[Rows, ...] = ()
    assumptions: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    formula: str = ""
    cautions: tuple[str, ...] = ()
    note: str = ""
    alarms: tuple[str, ...] = ()
    name: str = ""
    title: str = ""
    inputs: Mapping[str, str] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Found:
        """Give the value of a result by name."""
        return self.result(name).value

    def result(self, name: str) -> Result:
        """Give a result by name."""
        return next(each for each in self.results if each.name == name)

    def number(self, name: str) -> float:
        """Give a result that is a single figure."""
        value = self[name]
        assert isinstance(value, int | float)
        return float(value)

    def to_json(self) -> dict[str, Any]:
        """Give the answer for a program to read; figures unrounded."""
        return {
            "sum": self.name,
            "title": self.title,
            "inputs": dict(self.inputs),
            "results": {each.name: _result_json(each) for each in self.results},
            "tables": [_rows_json(each) for each in self.tables],
            "assumptions": list(self.assumptions),
            "warnings": list(self.warnings),
            "formula": self.formula,
            "sources": list(self.sources),
            "certainty": evidence_json(evidence(self.sources)),
            "cautions": list(self.cautions),
            "note": self.note,
        }

    def in_system(self, system: str) -> Answer:
        """Give the answer in `mm` or in `inch`."""
        if system != "inch":
            return self
        return replace(
            self,
            results=tuple(_result_inch(each) for each in self.results),
            tables=tuple(_rows_inch(each) for each in self.tables),
        )


def figure(value: float, places: int) -> str:
    """Write a figure with so many decimals; minus one is rounded to tens."""
    if not math.isfinite(value):
        return "unlimited" if value > 0 else "none"
    text = f"{round(value, places):.{max(places, 0)}f}"
    return text.removeprefix("-") if float(text) == 0 else text


def _share_text(value: float, places: int, text: str) -> str:
    """Say no more of a share than is known: neither none nor all by rounding."""
    step = figure(10.0**-places, places)
    if 0 < value < 100 and float(text) == 100:
        return f"over {figure(100 - 10.0**-places, places)}"
    if value > 0 and float(text) == 0:
        return f"below {step}"
    return text


def _spread(uncertainty: float | tuple[float, ...] | None) -> float | None:
    if isinstance(uncertainty, tuple):
        return max(uncertainty, default=0.0) or None
    return uncertainty or None


def _places_of(spread: float) -> int:
    """Decimals that show two digits of an uncertainty (GUM 7.2.6)."""
    return 1 - math.floor(math.log10(spread))


def _rounded_up(spread: float, places: int) -> str:
    step = 10.0**-places
    return figure(math.ceil(spread / step - 1e-9) * step, places)


def _result_json(each: Result) -> dict[str, Any]:
    value: object = each.value
    if isinstance(value, tuple):
        value = [_finite(one) for one in value]
    spread = each.uncertainty
    return {
        "value": _finite(value),
        "unit": each.unit,
        "shown": each.shown,
        "uncertainty": list(spread) if isinstance(spread, tuple) else spread,
        "meaning": each.meaning,
    }


def _finite(value: object) -> object:
    """Give a value JSON can hold; what has no limit is left empty there."""
    return None if isinstance(value, float) and not math.isfinite(value) else value


def _rows_json(each: Rows) -> dict[str, Any]:
    return {
        "title": each.title,
        "columns": [{"name": col.name, "unit": col.unit} for col in each.columns],
        "rows": [[_finite(cell) for cell in row] for row in each.rows],
    }


def _inch(value: float, unit: str) -> float:
    if unit == "mm²":
        return value / 25.4**2
    there = UNITS[_INCH[unit]]
    return (value - float(there.offset)) / float(there.factor)


def _result_inch(each: Result) -> Result:
    """Turn a result into inches; one named after its unit stays in it."""
    if each.unit not in _INCH or isinstance(each.value, str | bool):
        return each
    if each.name.endswith("_mm"):
        return each
    values = each.value if isinstance(each.value, tuple) else (each.value,)
    turned = tuple(_inch(float(value), each.unit) for value in values)
    spread = each.uncertainty
    scale = 1 / 25.4**2 if each.unit == "mm²" else float(1 / _factor(each.unit))
    if isinstance(spread, tuple):
        spread = tuple(one * scale for one in spread)
    elif spread is not None:
        spread *= scale
    return replace(
        each,
        value=turned if isinstance(each.value, tuple) else turned[0],
        unit=_INCH[each.unit],
        places=each.places + _EXTRA_PLACES[each.unit],
        uncertainty=spread,
    )


def _factor(unit: str) -> Fraction:
    return UNITS[_INCH[unit]].factor


def _rows_inch(each: Rows) -> Rows:
    columns = tuple(
        Column(col.name, _INCH[col.unit], col.places + _EXTRA_PLACES[col.unit])
        if col.unit in _INCH
        else col
        for col in each.columns
    )
    rows = tuple(
        tuple(
            _inch(float(cell), col.unit)
            if col.unit in _INCH and isinstance(cell, int | float)
            else cell
            for cell, col in zip(row, each.columns, strict=True)
        )
        for row in each.rows
    )
    return Rows(each.title, columns, rows)
