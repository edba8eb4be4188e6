"""What a sum is given: inputs as declared, as typed, and as read.

An `Input` says what a sum accepts; `read_inputs` turns typed text into a
`Given`, in the unit the input declares, or refuses with the input's name.
A figure may carry its uncertainty: `2.00 ±0.02 mm` (expanded, about 95 %).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, plain_number
from logbook.units import UNITS


class Kind(StrEnum):
    """How an input is typed."""

    QUANTITY = "quantity"
    DIFFERENCE = "temperature difference"
    NUMBER = "number"
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
        if self.low is not None and self.high is not None:
            between = "between" if self.low_out or self.high_out else "from"
            joint = "and" if self.low_out or self.high_out else "to"
            return f"{between} {self.low:g} {joint} {self.high:g}{unit}"
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
    `also` are other names under which it may be typed.
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
            return "text"
        shown = "any currency" if self.kind is Kind.MONEY else self.unit
        kind = "a whole number " if self.kind is Kind.COUNT else ""
        each = ", each of several" if self.many else ""
        return f"{kind}{self.accept.said(shown)}{each}"


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


def read_inputs(
    inputs: Sequence[Input], typed: Mapping[str, str | Sequence[str]]
) -> Given:
    """Read typed inputs; names may use `-` or `_` and the other names.

    Raises:
        BadInput: an unknown or missing input, or a value that is not accepted.
    """
    known = {_plain(word): each.name for each in inputs for word in _names(each)}
    texts: dict[str, list[str]] = {}
    for word, text in typed.items():
        if _plain(word) not in known:
            names = ", ".join(each.name for each in inputs)
            raise BadInput(f"there is no input “{word}”; accepted: {names}")
        parts = [text] if isinstance(text, str) else list(text)
        texts.setdefault(known[_plain(word)], []).extend(parts)
    values: dict[str, tuple[Value, ...]] = {}
    assumed: list[str] = []
    for each in inputs:
        values[each.name] = _read(each, texts.get(each.name, []), assumed)
    return Given(values, tuple(assumed))


def _names(each: Input) -> tuple[str, ...]:
    return (each.name, *each.also)


def _plain(word: str) -> str:
    return word.strip().lower().replace("_", "-").replace(" ", "-")


def _read(each: Input, texts: list[str], assumed: list[str]) -> tuple[Value, ...]:
    found = [part for text in texts for part in _parts(each, text)]
    if not found and each.default:
        found = list(_parts(each, each.default))
    if not found:
        if each.optional:
            return ()
        raise BadInput(f"{each.name} is missing ({each.meaning}); {_accepted(each)}")
    if len(found) > 1 and not each.many:
        shown = ", ".join(found)
        raise BadInput(f"{each.name}: found several, {shown}; accepted: one value")
    return tuple(_value(each, text, assumed) for text in found)


def _parts(each: Input, text: str) -> list[str]:
    """Split a list typed in one go at semicolons, or commas before a blank."""
    if not each.many:
        return [text.strip()]
    return [part.strip() for part in re.split(r";|,\s+", text) if part.strip()]


def _accepted(each: Input) -> str:
    return f"accepted: {each.accepted}"


def _value(each: Input, text: str, assumed: list[str]) -> Value:
    if each.kind is Kind.TEXT:
        return Value(text, word=text)
    if each.kind is Kind.YES:
        return Value(text, word=_yes(each, text))
    if each.kind is Kind.CHOICE:
        return Value(text, word=_choice(each, text))
    figure, _, spread = re.sub(r"\+\s*/?\s*-", "±", text).partition("±")
    exact, unit = _figure(each, figure, spread, text)
    width = Fraction(0)
    if spread.strip():
        width, _ = _figure(each, spread, figure, text, width=True)
    if unit == "ga":
        assumed.append(
            f"{each.name}: {text} taken as {plain_number(exact, 3)} mm by its table; "
            "a measured thickness wins"
        )
    _check(each, exact, text)
    return Value(text, exact, unit=unit, uncertainty=abs(width))


def _check(each: Input, exact: Fraction, text: str) -> None:
    if each.kind is Kind.COUNT and exact.denominator != 1:
        raise BadInput(f"{each.name}: found {text}; {_accepted(each)}")
    if not each.accept.holds(exact):
        raise BadInput(f"{each.name}: found {text}; {_accepted(each)}")


def _yes(each: Input, text: str) -> str:
    word = text.strip().lower()
    if word in {"yes", "y", "true", "1"}:
        return "yes"
    if word in {"no", "n", "false", "0"}:
        return "no"
    raise BadInput(f"{each.name}: found “{text}”; {_accepted(each)}")


def _choice(each: Input, text: str) -> str:
    for choice in each.choices:
        if _plain(choice) == _plain(text):
            return choice
    near = [
        choice for choice in each.choices if _plain(choice).startswith(_plain(text))
    ]
    if len(near) == 1 and text.strip():
        return near[0]
    raise BadInput(f"{each.name}: found “{text}”; {_accepted(each)}")


def _figure(
    each: Input, text: str, other: str, typed: str, *, width: bool = False
) -> tuple[Fraction, str]:
    """Read one figure; the unit may stand on the other side of the ±."""
    try:
        if each.kind in {Kind.NUMBER, Kind.COUNT}:
            return _bare_number(each, text), each.unit
        if each.kind is Kind.MONEY:
            return _money(text)
        read = _with_unit(text, other, each.unit)
        if each.kind is Kind.DIFFERENCE or (width and read.dimension == "temperature"):
            return _difference(read), "K"
        if read.metal:
            return _sheet(read), "ga"
        return read.to(each.unit), read.unit
    except BadInput as error:
        raise type(error)(
            f"{each.name}: {error}"
            if "accepted" in str(error)
            else f"{each.name}: found “{typed}”, {error}; {_accepted(each)}"
        ) from None


def _with_unit(text: str, other: str, unit: str) -> Quantity:
    bare = re.fullmatch(r"[-+\s0-9.,/]+", text.replace("−", "-"))
    if bare and other and not re.fullmatch(r"[-+\s0-9.,/]+", other):
        unit = parse_quantity(other, unit).unit
    return parse_quantity(text, unit)


def _bare_number(each: Input, text: str) -> Fraction:
    text = text.strip()
    if each.unit and text.endswith(each.unit):
        text = text.removesuffix(each.unit)
    read = parse_quantity(text, "pcs")
    if read.unit not in {"pcs", "%"}:
        raise BadInput(f"“{text.strip()}” has a unit; accepted: a plain number")
    return read.to("pcs") if read.unit == "pcs" else read.value / 100


def _money(text: str) -> tuple[Fraction, str]:
    sign = re.match(r"\s*([€$£])\s*(.*)", text)
    read = parse_quantity(f"{sign[2]} {sign[1]}" if sign else text, "pcs")
    if read.unit != "pcs" and not read.dimension.startswith("money"):
        raise BadInput(f"“{text.strip()}” is no price; accepted: 4.20 EUR, 3 USD")
    return read.value, "" if read.unit == "pcs" else read.unit


def _difference(read: Quantity) -> Fraction:
    if read.dimension != "temperature":
        raise BadInput(
            f"“{read}” is no temperature difference; accepted: 20 K, 20 °C, 36 °F"
        )
    return read.value * UNITS[read.unit].factor


def _sheet(read: Quantity) -> Fraction:
    from logbook.shop.gauges import gauge_thickness

    assert read.metal
    return gauge_thickness(read.metal, int(read.value))
