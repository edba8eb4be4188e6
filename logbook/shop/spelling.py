"""Spellings of figures that only make sense for a known input.

A quantity is read by `logbook.quantity` whatever it is asked for. Some things
people type need the unit that is asked for to be understood: 20 tpi as a
pitch, 24' as an angle, 23e-6 /K as an expansion. They are put into plain words
here, before the quantity is read.
"""

from __future__ import annotations

import re
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput

PER_KELVIN = "1e-6/K"

_POWER = re.compile(
    r"(?P<sign>[-+−]?)\s*(?P<digits>\d+(?:[.,]\d+)?|[.,]\d+)"
    r"\s*(?:[eE]|[×x*]\s*10\s*\^?)\s*(?P<power>[-+−]?\d+)(?P<rest>.*)",
    re.DOTALL,
)
_SMALLEST, _LARGEST = -12, 12
_THREADS = re.compile(
    r"(?P<count>\d+(?:\.\d+)?)\s*(?:tpi|threads?\s*(?:per|/)\s*in(?:ch)?)",
    re.IGNORECASE,
)
_MINUTES = re.compile(r"(?P<figure>[-+−]?\s*[\d.,]+)\s*(?:['′]|arc\s*min(?:utes)?)\.?")
_EXPANSION = re.compile(
    r"(?P<figure>[-+−]?\s*[\d.,/]+)\s*(?P<unit>[^\d\s].*)?", re.DOTALL
)
_MILLIONTHS = {
    "1e-6/k", "ppm/k", "ppm/°c", "ppm", "µm/m/k", "um/m/k", "µm/mk", "µm/m°c",
    "µm/m·k", "µm/(m·k)", "um/(m·k)", "um/mk", "µm/m/°c", "e-6/k",
}  # fmt: skip


def spelled(text: str, unit: str, name: str = "") -> str:
    """Put what was typed for an input in `unit` into words a quantity may have.

    A `diameter` or `screw` may be named by its metric thread, as M4.

    Raises:
        BadInput: a power of ten beyond reason.
    """
    text = text.strip()
    if unit == PER_KELVIN:
        return _expansion(text)
    if name in {"diameter", "screw"} and re.fullmatch(r"[Mm]\d+(?:[.,]\d+)?", text):
        return f"{text[1:]} mm"
    if unit == "mm" and (threads := _THREADS.fullmatch(text)):
        return _pitch(threads)
    if unit == "°" and (minutes := _MINUTES.fullmatch(text)):
        return f"{minutes['figure']} ′"
    return _plain_power(text)


def _pitch(threads: re.Match[str]) -> str:
    count = Fraction(threads["count"])
    if not count:
        raise BadInput(f"“{threads[0]}” has no pitch; accepted: more than 0 threads")
    return f"{count.denominator}/{count.numerator} in"


def _plain_power(text: str) -> str:
    """Write 2.5e-3 as 0.0025; the unit behind it stays."""
    found = _POWER.fullmatch(text)
    if not found:
        return text
    power = int(found["power"].replace("−", "-"))
    if not _SMALLEST <= power <= _LARGEST:
        raise BadInput(
            f"“{text[:30]}” has a power of ten beyond reason; "
            f"accepted: from {_SMALLEST} to {_LARGEST}"
        )
    value = Fraction(found["digits"].replace(",", ".")) * Fraction(10) ** power
    digits = max(0, len(found["digits"].replace(",", ".").partition(".")[2]) - power)
    return f"{found['sign']}{plain_number(value, digits)}{found['rest']}"


def _expansion(text: str) -> str:
    """Give an expansion in millionths per kelvin, however it was written."""
    bare = re.sub(r"\s+", "", text.lower()).removesuffix("1e-6/k")
    whole = re.fullmatch(r"(.*?)(?:[/·*]?(?:k|°c|c)|1/k|k\^?-1|k⁻¹)?", bare)
    assert whole
    if (power := _POWER.fullmatch(whole[1])) and not power["rest"]:
        plain = Fraction(_plain_power(power[0]))
        return plain_number(plain * 10**6, 6)
    if re.fullmatch(r"-?0?\.000\d+", whole[1]):
        return plain_number(Fraction(whole[1]) * 10**6, 6)
    found = _EXPANSION.fullmatch(text.strip())
    if found and found["unit"]:
        unit = re.sub(r"\s+", "", found["unit"].lower())
        if unit in _MILLIONTHS:
            return found["figure"]
    return text
