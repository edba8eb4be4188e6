"""Chains as typed: `opening: +180 ±1.2 uniform; bar: -179.7 ±0.1`.

A line names a dimension, gives its size with the sign it has in the gap, its
limits, and how it spreads. With a formula the lines carry the names of the
formula instead of signs.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity
from logbook.shop.chains.evaluation import sensitivities
from logbook.shop.chains.formula import Formula
from logbook.shop.chains.spread import Contributor, Shape

ACCEPTED = (
    "name: +40 ±0.1 (or +0.1/-0.05) mm, then normal, uniform, triangular or "
    "measured with its readings, k 2, setup NAME"
)


_FIGURE = r"[0-9]+(?:[.,][0-9]+)?(?:\s+[0-9]+/[0-9]+|/[0-9]+)?|[.,][0-9]+"


_UNIT = r"mm|cm|in|\"|thou|µm|um|m\b|ft"


_LINE = re.compile(
    rf"""(?:(?P<name>[^:=]+)[:=]\s*
      |(?P<bare>[^:=±\d+−-][^:=±]*?)\s+(?=[-+−]?\s*\.?\d)
      |(?=[-+−]?\s*\.?\d))
    (?P<sign>[-+−])?\s*(?P<size>{_FIGURE})?\s*(?P<unit>{_UNIT})?\s*
    (?:±\s*(?P<both>{_FIGURE})\s*(?P<unit2>{_UNIT})?
      |\+\s*(?P<plus>{_FIGURE})\s*/?\s*[-−]\s*(?P<minus>{_FIGURE})\s*(?P<unit3>{_UNIT})?
    )?\s*(?P<rest>.*)""",
    re.VERBOSE,
)


def read_line(text: str) -> Contributor:
    """Read one dimension of a chain; lengths in mm.

    Raises:
        BadInput: the line cannot be read; it is shown with what is accepted.
    """
    found = _LINE.fullmatch(text.strip().replace("+/-", "±"))
    if not found:
        raise BadInput(f"“{text[:60]}” is no dimension; accepted: {ACCEPTED}")
    unit = found["unit"] or found["unit2"] or found["unit3"] or "mm"
    words = _words(found["rest"], unit, text)
    if not found["size"] and not words.get("readings"):
        raise BadInput(f"“{text[:60]}” has no size; accepted: {ACCEPTED}")
    size = _length(found["size"], unit) if found["size"] else 0.0
    both = found["both"]
    return Contributor(
        (found["name"] or found["bare"] or text).strip(),
        size,
        _length(both or found["plus"] or "0", found["unit2"] or found["unit3"] or unit),
        _length(
            both or found["minus"] or "0", found["unit2"] or found["unit3"] or unit
        ),
        -1.0 if found["sign"] in {"-", "−"} else 1.0,
        **words,
    )


def _length(text: str, unit: str) -> float:
    return float(parse_quantity(text, unit).to("mm"))


def _words(rest: str, unit: str, line: str) -> dict[str, Any]:
    """Read what follows the limits: shape, k, set-up, readings."""
    found: dict[str, Any] = {}
    words = rest.split()
    while words:
        word = words.pop(0).lower()
        if word in tuple(Shape):
            found["shape"] = Shape(word)
            if word == Shape.MEASURED:
                found["readings"] = tuple(_length(one, unit) for one in _taken(words))
        elif word == "k" and words:
            found["coverage"] = float(parse_quantity(words.pop(0), "pcs").value)
        elif word == "setup" and words:
            found["setup"] = words.pop(0)
        else:
            raise BadInput(f"“{line[:60]}”: found “{word}”; accepted: {ACCEPTED}")
    return found


def _taken(words: list[str]) -> list[str]:
    """Take the leading figures off a list of words."""
    taken = []
    while words and re.fullmatch(_FIGURE, words[0]):
        taken.append(words.pop(0))
    return taken


def by_formula(
    formula: Formula, contributors: Sequence[Contributor], unit: str = "mm"
) -> tuple[list[Contributor], float] | None:
    """Give the chain a formula stands for, and its constant, if it is linear.

    Contributors are lengths in mm under the names of the formula; without one
    for a name the formula is refused. Of a formula that is not linear there is
    no chain: None.

    Raises:
        BadInput: names without a value, units that do not fit, or a division by
            zero.
    """
    values = nominal_values(contributors)
    found = sensitivities(formula, values, unit)
    if not found.linear:
        return None
    chain = [
        replace(one, direction=float(found.slopes[one.name]))
        for one in contributors
        if one.name in found.slopes
    ]
    moved = sum(
        (found.slopes[name] * values[name].value for name in found.slopes), Fraction(0)
    )
    return chain, float(found.value - moved)


def nominal_values(contributors: Sequence[Contributor]) -> Mapping[str, Quantity]:
    """Give the nominal sizes as quantities in mm, by name."""
    return {
        one.name: quantity(Fraction(repr(one.stated)), "mm") for one in contributors
    }
