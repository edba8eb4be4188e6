"""Units of measurement used in a home shop, with exact factors to one base each.

Lengths are exact: 1 in = 25.4 mm (BIPM SI Brochure, table 8 footnote; NIST
SP 811 B.8). Factors are fractions of the base unit of the dimension; only
temperature also has an offset.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput

INCH_MM = Fraction(254, 10)
_LBF_N = Fraction(45359237, 100000000) * Fraction(980665, 100000)


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: `value * factor + offset` is the value in the base of `dimension`."""

    symbol: str
    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)


def _unit(
    symbol: str, dimension: str, factor: object = 1, offset: object = 0
) -> tuple[str, Unit]:
    return symbol, Unit(
        symbol,
        dimension,
        Fraction(factor),  # type: ignore[call-overload]
        Fraction(offset),  # type: ignore[call-overload]
    )


UNITS: dict[str, Unit] = dict(
    [
        _unit("mm", "length"),
        _unit("cm", "length", 10),
        _unit("m", "length", 1000),
        _unit("µm", "length", "1/1000"),
        _unit("in", "length", INCH_MM),
        _unit("ft", "length", INCH_MM * 12),
        _unit("thou", "length", INCH_MM / 1000),
        _unit("mm²", "area"),
        _unit("cm²", "area", 100),
        _unit("°", "angle"),
        _unit("′", "angle", "1/60"),
        _unit("°C", "temperature"),
        _unit("°F", "temperature", "5/9", Fraction(-160, 9)),
        _unit("K", "temperature", 1, "-273.15"),
        _unit("N·m", "torque"),
        _unit("N·cm", "torque", "1/100"),
        _unit("mN·m", "torque", "1/1000"),
        _unit("lbf·in", "torque", _LBF_N * INCH_MM / 1000),
        _unit("lbf·ft", "torque", _LBF_N * INCH_MM * 12 / 1000),
        _unit("s", "time"),
        _unit("min", "time", 60),
        _unit("h", "time", 3600),
        _unit("d", "time", 86400),
        _unit("g", "mass"),
        _unit("kg", "mass", 1000),
        _unit("mg", "mass", "1/1000"),
        _unit("lb", "mass", "453.59237"),
        _unit("oz", "mass", Fraction("453.59237") / 16),
        _unit("l", "volume"),
        _unit("ml", "volume", "1/1000"),
        _unit("µl", "volume", "1/1000000"),
        _unit("N", "force"),
        _unit("kN", "force", 1000),
        _unit("lbf", "force", _LBF_N),
        _unit("MPa", "pressure"),
        _unit("GPa", "pressure", 1000),
        _unit("bar", "pressure", "1/10"),
        _unit("psi", "pressure", _LBF_N / (INCH_MM * INCH_MM)),
        _unit("ksi", "pressure", _LBF_N / (INCH_MM * INCH_MM) * 1000),
        _unit("kPa", "pressure", "1/1000"),
        _unit("V", "voltage"),
        _unit("mV", "voltage", "1/1000"),
        _unit("kV", "voltage", 1000),
        _unit("A", "current"),
        _unit("mA", "current", "1/1000"),
        _unit("µA", "current", "1/1000000"),
        _unit("W", "power"),
        _unit("mW", "power", "1/1000"),
        _unit("kW", "power", 1000),
        _unit("Ω", "resistance"),
        _unit("mΩ", "resistance", "1/1000"),
        _unit("kΩ", "resistance", 1000),
        _unit("MΩ", "resistance", 1000000),
        _unit("Hz", "frequency"),
        _unit("kHz", "frequency", 1000),
        _unit("dB", "sound level"),
        _unit("lx", "illuminance"),
        _unit("mm/s", "speed"),
        _unit("mm/min", "speed", "1/60"),
        _unit("rpm", "rotation"),
        _unit("%", "ratio", "1/100"),
        _unit("mm/m", "ratio", "1/1000"),
        _unit("pcs", "count"),
        _unit("EUR", "money EUR"),
        _unit("USD", "money USD"),
        _unit("GBP", "money GBP"),
        _unit("CHF", "money CHF"),
    ]
)

# How people type them; looked up as typed first, then in lower case.
_SPELLINGS: dict[str, str] = {
    "millimeter": "mm", "millimetre": "mm", "millimeters": "mm",
    "millimetres": "mm", "mms": "mm", "cms": "cm", "um": "µm", "μm": "µm",
    "micron": "µm", "microns": "µm", '"': "in", "″": "in", "”": "in", "''": "in",
    "inch": "in", "'": "ft", "inches": "in", "ins": "in", "foot": "ft", "feet": "ft",
    "mil": "thou", "mils": "thou", "meter": "m", "metre": "m", "meters": "m",
    "metres": "m", "mm2": "mm²", "mm^2": "mm²", "cm2": "cm²", "cm^2": "cm²",
    "deg": "°", "degs": "°", "degree": "°", "degrees": "°", "º": "°",
    "arcmin": "′", "c": "°C", "°c": "°C", "degc": "°C", "deg c": "°C",
    "celsius": "°C", "degrees c": "°C", "℃": "°C", "f": "°F", "°f": "°F",
    "degf": "°F", "deg f": "°F", "fahrenheit": "°F", "℉": "°F", "kelvin": "K",
    "nm": "N·m", "n.m": "N·m", "n m": "N·m", "n*m": "N·m", "n·m": "N·m",
    "n-m": "N·m", "newton metres": "N·m", "ncm": "N·cm", "n·cm": "N·cm",
    "n.cm": "N·cm", "n cm": "N·cm",
    "cnm": "N·cm", "cn·m": "N·cm", "cn.m": "N·cm", "mnm": "mN·m", "mn.m": "mN·m",
    "mn·m": "mN·m",
    "in-lb": "lbf·in", "in·lb": "lbf·in", "in lb": "lbf·in", "lb-in": "lbf·in",
    "lbf in": "lbf·in", "inlb": "lbf·in", "in-lbs": "lbf·in", "in lbs": "lbf·in",
    "ft-lb": "lbf·ft", "ft·lb": "lbf·ft", "ft lb": "lbf·ft", "lb-ft": "lbf·ft",
    "ft-lbs": "lbf·ft", "ft lbs": "lbf·ft", "lbf ft": "lbf·ft",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "mins": "min",
    "minute": "min", "minutes": "min", "hr": "h", "hrs": "h", "hour": "h",
    "hours": "h", "day": "d", "days": "d", "gram": "g", "grams": "g",
    "kilo": "kg", "kilos": "kg", "kgs": "kg", "lbs": "lb", "pound": "lb",
    "milligram": "mg", "milligrams": "mg", "ul": "µl", "μl": "µl",
    "microlitre": "µl", "microlitres": "µl", "microliters": "µl",
    "millilitre": "ml", "millilitres": "ml", "milliliters": "ml", "cc": "ml",
    "litre": "l", "litres": "l", "liter": "l", "liters": "l",
    "pounds": "lb", "ounce": "oz", "ounces": "oz", "newton": "N",
    "newtons": "N", "mpa": "MPa", "gpa": "GPa", "n/mm²": "MPa", "n/mm2": "MPa",
    "kpa": "kPa", "kn": "kN", "volt": "V",
    "volts": "V", "v": "V", "mv": "mV", "millivolts": "mV", "kv": "kV", "ua": "µA",
    "milliamps": "mA", "kw": "kW", "mohm": "mΩ", "milliohm": "mΩ", "khz": "kHz",
    "db": "dB", "decibel": "dB", "decibels": "dB", "dba": "dB", "lux": "lx",
    "rev/min": "rpm", "r/min": "rpm", "revs/min": "rpm", "u/min": "rpm",
    "a": "A", "amp": "A", "amps": "A", "ma": "mA",
    "watt": "W", "watts": "W", "w": "W", "ohm": "Ω", "ohms": "Ω", "ω": "Ω",
    "Mohm": "MΩ", "MOhm": "MΩ", "megohm": "MΩ", "megohms": "MΩ",
    "kohm": "kΩ", "kω": "kΩ", "hz": "Hz", "percent": "%", "pct": "%",
    "pc": "pcs", "piece": "pcs", "pieces": "pcs", "off": "pcs", "€": "EUR",
    "eur": "EUR", "euro": "EUR", "euros": "EUR", "$": "USD", "usd": "USD",
    "£": "GBP", "gbp": "GBP", "chf": "CHF", "n": "N", "k": "K",
}  # fmt: skip


def find_unit(word: str) -> Unit:
    """Give the unit that `word` spells.

    Raises:
        BadInput: the word is no unit known here.
    """
    word = word.strip().rstrip(".")
    for spelling in (word, word.lower()):
        symbol = spelling if spelling in UNITS else _SPELLINGS.get(spelling)
        if symbol:
            return UNITS[symbol]
    shown = word if len(word) <= 40 else word[:40] + "…"
    shown = "".join(c if c.isprintable() else "�" for c in shown)
    raise BadInput(
        f"“{shown}” is not a unit known here; accepted: mm, cm, m, µm, in, ft, thou, "
        "°, °C, °F, N·m, N, MPa, s, min, h, g, kg, %, V, A, W, EUR, USD and their names"
    )


def is_unit(word: str) -> bool:
    """Tell whether `word` spells a unit."""
    try:
        find_unit(word)
    except BadInput:
        return False
    return True


def is_length(word: str) -> bool:
    """Tell whether `word` spells a unit of length."""
    return is_unit(word) and find_unit(word).dimension == "length"


def _a(word: str) -> str:
    """Put the article before a word."""
    return f"an {word}" if word[0] in "aeiou" else f"a {word}"


def convert(value: Fraction, unit: str, target: str) -> Fraction:
    """Convert `value` exactly from `unit` to `target`, both unit symbols.

    Raises:
        BadInput: the two measure different things.
    """
    if unit == target:
        return value
    here, there = find_unit(unit), find_unit(target)
    if here.dimension != there.dimension:
        raise BadInput(
            f"{here.symbol} is {_a(here.dimension)}, {there.symbol} is "
            f"{_a(there.dimension)}; accepted: {_a(there.dimension)}"
        )
    return (value * here.factor + here.offset - there.offset) / there.factor


_MINUS = re.compile(r"(?:(?<=[\s(“±])|^)-(?=(?:\d+[.,/])*\d+(?:[\s°%)”…;:,·]|$))")


def minus_signs(text: str) -> str:
    """Give text as it is shown to be read: a minus sign before its negative numbers.

    A hyphen is what is typed and stored. It stays where it joins words or figures, and
    in paths and options.
    """
    return _MINUS.sub("\u2212", text) if "-" in text else text
