"""Readings with units, exact and as typed: 86.42, 3 13/32", 18 ga steel, 4.5 N·m.

A `Quantity` keeps the text and an exact fraction; arithmetic happens in
`logbook.shop`. Sheet gauges stay symbolic, because a gauge is a name of a
thickness that only a table of that metal resolves.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from logbook.decimal_text import decimal_step, parse_decimal, places_of, plain_number
from logbook.errors import BadInput, NeedsAnswer
from logbook.units import UNITS, convert, find_unit

LONGEST_INPUT = 120
"""More characters than this are never a quantity."""


class Absent(StrEnum):
    """A value that is not there, said on purpose."""

    NOT_MEASURED = "not measured"
    UNTRIED = "untried"


class Metal(StrEnum):
    """The metals whose sheet gauges have published tables."""

    STEEL = "steel"
    GALVANIZED = "galvanized"
    STAINLESS = "stainless"
    ALUMINIUM = "aluminium"


_METALS = {
    "steel": Metal.STEEL, "crs": Metal.STEEL, "hrs": Metal.STEEL,
    "mild steel": Metal.STEEL, "carbon steel": Metal.STEEL,
    "galvanized": Metal.GALVANIZED, "galvanised": Metal.GALVANIZED,
    "galv": Metal.GALVANIZED, "galvanized steel": Metal.GALVANIZED,
    "galvanised steel": Metal.GALVANIZED, "stainless": Metal.STAINLESS,
    "stainless steel": Metal.STAINLESS, "ss": Metal.STAINLESS,
    "aluminium": Metal.ALUMINIUM, "aluminum": Metal.ALUMINIUM,
    "alu": Metal.ALUMINIUM, "al": Metal.ALUMINIUM,
}  # fmt: skip

_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8",
    "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip

_METRIC = frozenset({"mm", "cm", "m", "µm"})
_WIDE = str.maketrans("０１２３４５６７８９．，／", "0123456789.,/")

_NUMBER = r"[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+"
_SIGNED = re.compile(
    rf"(?P<sign>[-+])?\s*(?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<num>[0-9]+)\s*[/⁄]\s*(?P<den>[0-9]+)"
    rf"|(?P<sign2>[-+])?\s*(?P<decimal>{_NUMBER})"
)
_DECIMAL = re.compile(r"(?P<whole>-?[0-9]+)(?:\.(?P<decimals>[0-9]+))? (?P<unit>\S+)")
_SYMBOLS = {name: name for name in UNITS if find_unit(name).symbol == name}
"""Each unit by its own symbol: one text for all quantities, of which there are many."""
_GAUGE = re.compile(
    r"(?:(?:ga|gauge|gage)\.?\s*(?P<n1>[0-9]{1,2})"
    r"|(?P<n2>[0-9]{1,2})\s*[- ]?(?:ga|gauge|gage)\b\.?)\s*(?P<metal>.*)",
    re.IGNORECASE,
)
_FEET = re.compile(
    r"(?P<sign>[-+])?\s*(?P<feet>[0-9]+)\s*(?:'|′|ft\b)\s*-?\s*(?P<inches>[0-9].*?)\s*(?:\"|″|”|in\b\.?|inch(?:es)?)"
)
_DEGREES = re.compile(r"(?P<sign>[-+])?\s*(?P<deg>[0-9]+)\s*°\s*(?P<min>[0-9]+)\s*['′]")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit, exact and as typed.

    `value` is in `unit`; `step` is the smallest step the typed digits show
    (1/100 for 86.42, 1/32 for 13/32), 0 for a gauge. For a gauge the unit is
    `ga` and `metal` is set; `value` is then the gauge number, not a thickness.
    Two quantities are equal when value, unit and step are, however they were
    typed.
    """

    text: str = field(compare=False)
    value: Fraction
    unit: str
    step: Fraction = Fraction(0)
    metal: Metal | None = None

    def __str__(self) -> str:
        """Give the quantity as it was typed, unit included."""
        return self.text

    @property
    def dimension(self) -> str:
        """What is measured: length, angle, temperature…; `gauge` for a gauge."""
        return "gauge" if self.metal else UNITS[self.unit].dimension

    def to(self, unit: str) -> Fraction:
        """Give the exact value in another unit.

        Raises:
            BadInput: the unit measures something else, or this is a gauge.
        """
        if self.metal:
            raise BadInput(
                f"{self.text} is a gauge, which is a name of a thickness; "
                "accepted: its thickness from a table or as measured"
            )
        return convert(self.value, self.unit, unit)

    def __neg__(self) -> Quantity:
        """Give the quantity with the other sign, otherwise as typed."""
        if self.metal:
            raise BadInput(f"{self.text} is a gauge; accepted: a number with a unit")
        if not self.value:
            return self
        bare = self.text.lstrip("+- ")
        text = bare if self.value < 0 else f"-{bare}"
        return Quantity(text, -self.value, self.unit, self.step)


def quantity(value: Fraction, unit: str, step: Fraction | None = None) -> Quantity:
    """Make a quantity from an exact value, written to the digits of `step`.

    Without a step the shortest decimal text is used, or a fraction where no
    decimal ends.
    """
    symbol = find_unit(unit).symbol
    digits = places_of(step) if step else None
    text = plain_number(value, digits)
    return parse_quantity(f"{text} {symbol}" if symbol != "°" else f"{text}°")


def parse_quantity(text: str, unit: str = "") -> Quantity:
    """Read a quantity as typed; `unit` is used where the text names none.

    Raises:
        NeedsAnswer: the text has two meanings (`1,234`; a gauge without metal).
        BadInput: the text is not a number with a unit.
    """
    if len(text) > 8 * LONGEST_INPUT:
        raise BadInput(
            f"{len(text)} characters are no quantity; accepted: a number with a unit"
        )
    if plain := _read_decimal(text):
        return plain
    typed = " ".join(_plain(text).split())
    if not typed:
        raise BadInput("nothing was typed; accepted: a number such as 86.42 or 3/16 in")
    if len(typed) > LONGEST_INPUT:
        raise BadInput(
            f"{len(typed)} characters are no quantity; accepted: a number with a unit"
        )
    for read in (_read_gauge, _read_feet, _read_degrees):
        if found := read(typed):
            return found
    match = _SIGNED.match(typed)
    if not match:
        raise BadInput(
            f"“{typed}” does not begin with a number; accepted: 86.42, 3 13/32 in, 5 mm"
        )
    rest = typed[match.end() :].strip()
    value, step = _number(match, typed)
    symbol = _symbol(rest, unit, typed)
    if match["den"] and not rest and symbol in _METRIC:
        decimal = plain_number(value)
        raise NeedsAnswer(
            f"“{typed}” is a fraction without a unit; "
            f"accepted: {typed} in, or {decimal} {symbol}",
            (f"{typed} in", f"{decimal} {symbol}"),
        )
    if not rest:
        typed = f"{typed} {symbol}"
    return Quantity(typed, value, symbol, step)


def _read_decimal(text: str) -> Quantity | None:
    """Read a decimal number and a unit as they are written; nearly all are so."""
    match = _DECIMAL.fullmatch(text)
    if not match or match["unit"] not in _SYMBOLS or len(text) > LONGEST_INPUT:
        return None
    decimals = match["decimals"] or ""
    number = int(f"{match['whole']}{decimals}")
    step = decimal_step(len(decimals))
    value = Fraction(number, step.denominator)
    return Quantity(text, value, _SYMBOLS[match["unit"]], step)


def _plain(text: str) -> str:
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    text = "".join(c if c.isprintable() or c.isspace() else "�" for c in text)
    return (
        text.translate(_WIDE)
        .replace("−", "-")
        .replace("\u00a0", " ")
        .replace("\u202f", " ")
    )


def _symbol(rest: str, unit: str, typed: str) -> str:
    if rest:
        if re.fullmatch(r"[.,/]+", rest):
            raise BadInput(
                f"“{typed}” ends in “{rest}”; accepted: one number with one unit"
            )
        if re.match(r"[0-9.,/]", rest):
            raise BadInput(
                f"“{typed}” has a second number after the first; "
                "accepted: one number with one unit"
            )
        return find_unit(rest).symbol
    if not unit:
        raise BadInput(f"“{typed}” has no unit; accepted: a number with a unit, 5 mm")
    return find_unit(unit).symbol


def _number(match: re.Match[str], typed: str) -> tuple[Fraction, Fraction]:
    if match["den"]:
        if int(match["den"]) == 0:
            raise BadInput(f"“{typed}” divides by zero; accepted: a fraction like 3/16")
        part = Fraction(int(match["num"]), int(match["den"]))
        if match["whole"] and part >= 1:
            raise BadInput(
                f"“{typed}” has a fraction of one or more after a whole number; "
                "accepted: a fraction like 3 13/32"
            )
        value = Fraction(match["whole"] or 0) + part
        step = Fraction(1, int(match["den"]))
        return (-value if match["sign"] == "-" else value), step
    value, step = parse_decimal(match["decimal"])
    return (-value if match["sign2"] == "-" else value), step


def _read_gauge(typed: str) -> Quantity | None:
    match = _GAUGE.fullmatch(typed)
    if not match:
        return None
    number = int(match["n1"] or match["n2"])
    word = match["metal"].strip().lower()
    if not word:
        raise NeedsAnswer(
            f"“{typed}” differs by metal; accepted: {number} ga steel, "
            f"{number} ga galvanized, {number} ga stainless, {number} ga aluminium",
            tuple(f"{number} ga {metal}" for metal in Metal),
        )
    if word not in _METALS:
        raise BadInput(
            f"“{word}” has no gauge table here; "
            "accepted: steel, galvanized, stainless, aluminium"
        )
    return Quantity(typed, Fraction(number), "ga", Fraction(0), _METALS[word])


def _read_feet(typed: str) -> Quantity | None:
    match = _FEET.fullmatch(typed)
    if not match:
        return None
    inches = parse_quantity(match["inches"], "in")
    value = int(match["feet"]) * 12 + inches.value
    value = -value if match["sign"] == "-" else value
    return Quantity(typed, value, "in", inches.step)


def _read_degrees(typed: str) -> Quantity | None:
    match = _DEGREES.fullmatch(typed)
    if not match:
        return None
    value = int(match["deg"]) + Fraction(int(match["min"]), 60)
    return Quantity(
        typed, -value if match["sign"] == "-" else value, "°", Fraction(1, 60)
    )


def parse_value(text: str, unit: str = "") -> Quantity | Absent:
    """Read a quantity, or the words “not measured” or “untried”."""
    words = " ".join(text.lower().split())
    for absent in Absent:
        if words == absent.value:
            return absent
    return parse_quantity(text, unit)
