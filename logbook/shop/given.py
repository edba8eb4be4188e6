"""What a sum is given: inputs as declared, and as read.

An `Input` says what a sum accepts; `logbook.shop.typed` turns typed text into
a `Given`, in the unit the input declares.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

READING = "reading"
"""Unit of a result that is in whatever unit the readings were typed in."""


class Kind(StrEnum):
    """How an input is typed."""

    QUANTITY = "quantity"
    DIFFERENCE = "temperature difference"
    NUMBER = "number"
    FIGURE = "figure in any unit"
    COUNT = "whole number"
    MONEY = "price"
    CHOICE = "one of"
    TEXT = "text"
    YES = "yes or no"


@dataclass(frozen=True, slots=True)
class Range:
    """What is accepted, in the unit of the input; `None` is no limit."""

    low: float | None = None
    high: float | None = None
    low_out: bool = False
    high_out: bool = False

    def holds(self, value: Fraction) -> bool:
        """Tell whether `value` lies inside."""
        if self.low is not None and (
            value < self.low or (self.low_out and value == self.low)
        ):
            return False
        return not (
            self.high is not None
            and (value > self.high or (self.high_out and value == self.high))
        )

    def said(self, unit: str) -> str:
        """Say the range in words."""
        unit = f" {unit}" if unit and unit != "°" else unit
        if self.low is not None and self.high is not None and self.high < math.inf:
            if self.low_out and self.high_out:
                return f"between {self.low:g} and {self.high:g}{unit}"
            start = "above" if self.low_out else "from"
            end = "to below" if self.high_out else "up to" if self.low_out else "to"
            return f"{start} {self.low:g} {end} {self.high:g}{unit}"
        if self.low is not None:
            return f"{'above' if self.low_out else 'at least'} {self.low:g}{unit}"
        if self.high is not None:
            return f"{'below' if self.high_out else 'at most'} {self.high:g}{unit}"
        return f"any figure in {unit.strip()}" if unit.strip() else "any figure"


def above(low: float, high: float | None = None) -> Range:
    """More than `low`, and at most `high`."""
    return Range(low, high, low_out=True)


def at_least(low: float, high: float | None = None) -> Range:
    """`low` or more, and at most `high`."""
    return Range(low, high)


def between(low: float, high: float) -> Range:
    """Inside, neither end accepted."""
    return Range(low, high, low_out=True, high_out=True)


ANY = Range()
POSITIVE = above(0)


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a sum.

    `unit` is taken where none is typed, and is the unit a sum computes in. A
    `default` is text as it would be typed; an `optional` input may be absent.
    `also` are other names under which it may be typed. `words` are other
    words for a choice. A `share` may be typed as 0.95 or as 95 %. Where the
    sum `uses_spread` itself, a ± behind the figure is not carried to the results.
    `rows_of` names the table, as `heat.softening`, whose rows a text may name.
    """

    name: str
    meaning: str
    unit: str = ""
    kind: Kind = Kind.QUANTITY
    accept: Range = ANY
    default: str = ""
    optional: bool = False
    many: bool = False
    choices: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    share: bool = False
    uses_spread: bool = False
    rows_of: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """All names under which it may be typed."""
        return (self.name, *self.also)

    @property
    def said(self) -> str:
        """Its name as the form shows it."""
        return in_words(self.name)

    @property
    def required(self) -> bool:
        """Whether it must be typed."""
        return not self.default and not self.optional

    @property
    def accepted(self) -> str:
        """What is accepted, in words."""
        if self.kind is Kind.CHOICE:
            return ", ".join(self.choices)
        if self.kind is Kind.YES:
            return "yes or no"
        if self.kind is Kind.TEXT:
            return _rows_said(self.rows_of) if self.rows_of else self.meaning
        shown = "any currency" if self.kind is Kind.MONEY else self.unit
        each = ", each of several" if self.many else ""
        if self.kind is Kind.COUNT:
            limits = "" if self.accept == ANY else f" {self.accept.said(shown)}"
            return f"a whole number{limits}{each}"
        alike = ", any unit" if self.kind is Kind.FIGURE else ""
        share = ", or that share in %" if self.share and not self.unit else ""
        return f"{self.accept.said(shown)}{share}{alike}{each}"


def in_words(name: str) -> str:
    """Give the name of an input as the form shows it: “bend angles”."""
    return name.replace("_", " ")


def _rows_said(rows_of: str) -> str:
    from logbook.shop.tables import table

    file, _, name = rows_of.partition(".")
    return "; ".join(dict.fromkeys(table(file, name).names()))


@dataclass(frozen=True, slots=True)
class Value:
    """One value as read: exact in the input's unit, or a word, or yes and no."""

    typed: str
    exact: Fraction = Fraction(0)
    word: str = ""
    unit: str = ""
    uncertainty: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Given:
    """The inputs of one working-out, by name."""

    values: Mapping[str, tuple[Value, ...]]
    assumed: tuple[str, ...] = field(default=())
    figures_in: str = ""
    """The one unit of all figures that may come in any unit."""

    def has(self, name: str) -> bool:
        """Tell whether the input was typed or has a default."""
        return bool(self.values.get(name))

    def exact(self, name: str) -> Fraction:
        """Give the exact value in the input's unit."""
        return self.values[name][0].exact

    def exacts(self, name: str) -> tuple[Fraction, ...]:
        """Give all exact values of an input that may be several."""
        return tuple(value.exact for value in self.values.get(name, ()))

    def number(self, name: str) -> float:
        """Give the value as a float in the input's unit."""
        return float(self.exact(name))

    def numbers(self, name: str) -> list[float]:
        """Give all values as floats in the input's unit."""
        return [float(value) for value in self.exacts(name)]

    def maybe(self, name: str) -> float | None:
        """Give the value as a float, or None where it is absent."""
        return self.number(name) if self.has(name) else None

    def count(self, name: str) -> int:
        """Give a whole number."""
        return int(self.exact(name))

    def word(self, name: str) -> str:
        """Give the choice or text, empty where it is absent."""
        return self.values[name][0].word if self.has(name) else ""

    def words(self, name: str) -> tuple[str, ...]:
        """Give all choices or texts."""
        return tuple(value.word for value in self.values.get(name, ()))

    def yes(self, name: str) -> bool:
        """Tell whether the answer to a yes-or-no input is yes."""
        return self.word(name) == "yes"

    def unit(self, name: str) -> str:
        """Give the unit that was typed, for prices the currency."""
        return self.values[name][0].unit if self.has(name) else ""

    def typed(self, name: str) -> str:
        """Give the input as typed, several with commas."""
        return ", ".join(value.typed for value in self.values.get(name, ()))
